"""The page of the deviation workshop, and questions about a compass like the one it shows."""

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from werkzeug.datastructures import MultiDict

from app.physics.angles import round_half_up
from app.physics.deviation import SWING_HEADINGS_DEG, deviation_deg
from app.questions.numbers import NBSP, decimals, letter
from app.services.deviation_links import ask_workshop
from app.services.deviation_workshop import LIMIT_DEG, Workshop, extreme_of, open_workshop
from app.services.errors import Invalid
from app.web.access import EVERYBODY, allow
from app.web.bench.blueprint import bench
from app.web.bench.deviation_curves import draw_card, draw_curves
from app.web.bench.deviation_form import FIELDS, DeviationForm, same_entered
from app.web.current import actor_with_visit, backend, language, library, now, uow
from app.web.errors import STATUS
from app.web.forms import mark_refused

WIDEST_SPAN_DEG = 60


@bench.get("/bench/deviation")
@allow(*EVERYBODY)
def show_deviation() -> ResponseReturnValue:
    """Work out what the address says; a page without an address starts from a sample."""
    form = _form()
    return _page(form, _shown(form))


@bench.post("/bench/deviation/questions")
@allow(*EVERYBODY)
def ask_about_deviation() -> ResponseReturnValue:
    """Start a drill of questions about a swing and a card like those shown."""
    form = _form()
    shown = _shown(form)
    if not shown:
        return _page(form, None)
    asked = (shown.found, backend().draw_seed())
    drill_id = ask_workshop(uow(), actor_with_visit(), library(), asked, now())
    return redirect(url_for("student.show_question", drill_id=drill_id, position=1), 303)


@bench.app_template_filter()
def sided(value_deg: float) -> str:
    """Write an angle to a tenth of a degree with E or W."""
    side = letter(round_half_up(value_deg, 1), language())
    return f"{decimals(abs(value_deg), 1, language())}°{NBSP}{side}" if side else "0°"


@bench.app_template_filter()
def heading_tenth(value_deg: float) -> str:
    """Write a heading with three digits, and its tenth where it has one: 045, 045.5."""
    tenth = f"{round_half_up(value_deg, 1):05.1f}".removesuffix(".0")
    return tenth if language() == "en" else tenth.replace(".", ",")


def _page(form: DeviationForm, shown: Workshop | None) -> ResponseReturnValue:
    span_deg = request.args.get("span_deg", type=int)
    span_deg = span_deg if span_deg and 0 < span_deg <= WIDEST_SPAN_DEG else None
    page = render_template(
        "bench/show_deviation.html",
        form=form,
        shown=shown,
        query=form.query() if shown else {},
        entrances=same_entered(form, shown) if shown else {},
        curves=draw_curves(shown, span_deg, language()) if shown else (),
        cards=[draw_card(each, language()) for each in (shown.found, shown.left)] if shown else (),
        deviation_deg=deviation_deg,
        extreme_of=extreme_of,
        headings=SWING_HEADINGS_DEG,
        limit_deg=LIMIT_DEG,
        projector=request.args.get("view") == "projector",
    )
    return page, 200 if shown else STATUS[Invalid]


def _form() -> DeviationForm:
    """Fill the form with the fields of what the address starts from; it keeps quiet about others."""
    enter = request.values.get("enter", "coefficients")
    names = ("enter", "step", *FIELDS.get(enter, ()))
    return DeviationForm(formdata=MultiDict({name: request.values[name] for name in names if name in request.values}))


def _shown(form: DeviationForm) -> Workshop | None:
    """Work the form out; None when it cannot be accepted, and the form then says why."""
    if not form.validate():
        return None
    try:
        return open_workshop(form.wish(), language())
    except Invalid as refusal:
        mark_refused(form, refusal)
        return None
