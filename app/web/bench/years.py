"""How variation and dip change over the years at a place."""

from collections.abc import Sequence

from flask import render_template
from flask.typing import ResponseReturnValue

from app.figures import draw_figure
from app.figures.model import Drawing, FigureCall
from app.services.bench_field import field_of
from app.services.bench_years import YearOfField, Years, years_of
from app.services.errors import Invalid
from app.web.access import EVERYBODY, allow
from app.web.bench.asked import asked_form
from app.web.bench.blueprint import bench
from app.web.current import language
from app.web.errors import STATUS
from app.web.forms import mark_refused


@bench.get("/bench/years")
@allow(*EVERYBODY)
def show_years() -> ResponseReturnValue:
    """Show a century and more of variation at the place of the address, or at the home place."""
    form = asked_form()
    field = None
    if form.validate():
        try:
            field = field_of(*form.home(), language())
        except Invalid as refusal:
            mark_refused(form, refusal)
    years = years_of(field) if field else None
    drawings = _draw(years) if years else ()
    page = render_template("bench/show_years.html", form=form, field=field, years=years, drawings=drawings)
    return page, 200 if field else STATUS[Invalid]


def _draw(years: Years) -> list[Drawing]:
    lines = {"past": _points(years.past), "present": _points(years.present)}
    return [draw_figure(FigureCall("year-plot", {**lines, "width": width}), language()) for width in ("wide", "narrow")]


def _points(rows: Sequence[YearOfField]) -> list[dict[str, float]]:
    return [{"year": each.year, "variation_deg": each.variation_deg} for each in rows]
