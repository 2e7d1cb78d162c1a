"""What a school sets for everybody: names, house rules, bars, how long records are kept."""

from collections.abc import Callable

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services import school_settings
from app.services.actor import Role
from app.services.errors import Conflict, Invalid
from app.services.homes import FIRST_DAY, LAST_DAY
from app.services.places import list_places
from app.services.retention import preview
from app.services.school_settings import BARS, RETENTION_DAYS, RETENTION_KINDS, bar_of, get_school
from app.web.access import allow
from app.web.current import actor, language, now, uow
from app.web.errors import STATUS
from app.web.forms import mark_refused
from app.web.home_form import HomeForm, as_fields
from app.web.school.blueprint import school

Refusal = Invalid | Conflict
LONGEST_NUMBER = 9


@school.get("/school/settings")
@allow(Role.SCHOOL)
def show_settings() -> ResponseReturnValue:
    """Show what the school has set."""
    return _page(_known_rules())


@school.post("/school/settings")
@allow(Role.SCHOOL)
def name_school() -> ResponseReturnValue:
    """Keep name, language and time zone."""
    names = tuple(request.form.get(each, "") for each in ("name", "language", "time_zone"))
    return _do(lambda: school_settings.name_school(uow(), actor(), _version(), names, now()))  # type: ignore[arg-type] # three


@school.post("/school/house-rules")
@allow(Role.SCHOOL)
def set_house_rules() -> ResponseReturnValue:
    """Set home place and house rules for everybody, or leave them to everybody."""
    if "free" in request.form:
        return _do(lambda: school_settings.free_house_rules(uow(), actor(), _version(), now()))
    form = HomeForm()
    if not form.validate():
        return _page(form), STATUS[Invalid]
    return _do(lambda: school_settings.set_house_rules(uow(), actor(), _version(), form.wish(), now()), form)


@school.post("/school/bars")
@allow(Role.SCHOOL)
def set_bars() -> ResponseReturnValue:
    """Set what is asked before anybody is recommended."""
    return _do(lambda: school_settings.set_bars(uow(), actor(), _version(), request.form, now()))


@school.post("/school/retention")
@allow(Role.SCHOOL)
def set_retention() -> ResponseReturnValue:
    """Set how long records are kept."""
    return _do(lambda: school_settings.set_retention(uow(), actor(), _version(), request.form, now()))


def _do(do: Callable[[], None], form: HomeForm | None = None) -> ResponseReturnValue:
    try:
        do()
    except (Invalid, Conflict) as refusal:
        if form is not None and isinstance(refusal, Invalid):
            mark_refused(form, refusal)
        return _page(form or _known_rules(), refusal), STATUS[type(refusal)]
    return redirect(url_for("school.show_settings", kept=1), 303)


def _page(form: HomeForm, refusal: Refusal | None = None) -> str:
    form.offer_places(tuple(list_places(language())))
    row = get_school(uow(), actor())
    return render_template(
        "school/show_settings.html",
        row=row,
        form=form,
        refusal=refusal,
        given=request.form,
        kept="kept" in request.args,
        bars={name: (bar, bar_of(row, name)) for name, bar in BARS.items()},
        retention_kinds=RETENTION_KINDS,
        retention_days=RETENTION_DAYS,
        going={view.kind: view for view in preview(uow(), actor(), now())},
        first_day=FIRST_DAY,
        last_day=LAST_DAY,
    )


def _known_rules() -> HomeForm:
    places = tuple(list_places(language()))
    return HomeForm(formdata=None, data=as_fields(actor().conventions, places))


def _version() -> int:
    text = request.form.get("version", "")
    return int(text) if text.isascii() and text.isdigit() and len(text) <= LONGEST_NUMBER else 0
