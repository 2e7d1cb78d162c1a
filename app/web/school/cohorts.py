"""Classes side by side, and the same as a table."""

from uuid import UUID

from flask import Response, render_template, request
from flask.typing import ResponseReturnValue
from werkzeug.datastructures import MultiDict

from app.services.actor import Role
from app.services.class_picture import PERIODS
from app.services.classes import list_classes
from app.services.cohorts import LEAST_CLASSES, MOST_CLASSES, SEEN_DAYS, Wish, compare
from app.services.cohorts_table import cohorts_csv
from app.services.errors import Invalid, NotFound
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.errors import STATUS
from app.web.school.blueprint import school


@school.get("/school/cohorts")
@allow(Role.SCHOOL)
def show_cohorts() -> ResponseReturnValue:
    """Ask which classes to compare, and show those that were chosen."""
    wish, view, refusal = _wish(request.args), None, None
    if request.args:
        try:
            view = compare(uow(), actor(), library(), wish, now())
        except Invalid as invalid:
            refusal = invalid
    page = render_template(
        "school/show_cohorts.html",
        view=view,
        wish=wish,
        refusal=refusal,
        classes=list_classes(uow(), actor()),
        periods=PERIODS,
        accepted=(LEAST_CLASSES, MOST_CLASSES),
        seen_days=SEEN_DAYS,
    )
    return page, STATUS[Invalid] if refusal else 200


@school.post("/school/cohorts/table")
@allow(Role.SCHOOL)
def export_cohorts() -> ResponseReturnValue:
    """Send what the page shows as a table for a spreadsheet."""
    text = cohorts_csv(uow(), actor(), library(), _wish(request.form), now())
    response = Response(text, mimetype="text/csv")
    response.headers["Content-Disposition"] = f'attachment; filename="classes-{now():%Y-%m-%d}.csv"'
    return response


def _wish(sent: MultiDict[str, str]) -> Wish:
    return Wish(tuple(map(_id, sent.getlist("class"))), sent.get("weeks", ""), sent.get("topic", ""))


def _id(text: str) -> UUID:
    try:
        return UUID(text)
    except ValueError as error:
        raise NotFound(text) from error
