"""Adding many students to a class at once, the slips they come in with, and the class as a table."""

from uuid import UUID

from flask import Response, render_template, request
from flask.typing import ResponseReturnValue

from app.services import roster
from app.services.classes import get_class
from app.services.errors import Invalid
from app.services.roster import MOST_NAMES, RosterWish
from app.services.schools import Slip
from app.web.access import allow
from app.web.current import actor, now, uow
from app.web.errors import STATUS
from app.web.instructor.blueprint import TEACHING, instructor


@instructor.get("/classes/<uuid:class_id>/roster")
@allow(*TEACHING)
def show_roster(class_id: UUID) -> ResponseReturnValue:
    """Ask for the names of a class."""
    return _page(class_id)


@instructor.post("/classes/<uuid:class_id>/roster")
@allow(*TEACHING)
def add_roster(class_id: UUID) -> ResponseReturnValue:
    """Make the accounts and show their slips: this once, as the codes are kept nowhere."""
    table = request.files.get("table")
    wish = RosterWish(request.form.get("names", ""), table.read() if table else b"", "again" in request.form)
    try:
        slips = roster.add_students(uow(), actor(), class_id, wish, now())
    except Invalid as refusal:
        return _page(class_id, refusal), STATUS[Invalid]
    return slips_page(slips, class_id)


@instructor.get("/classes/<uuid:class_id>/roster.csv")
@allow(*TEACHING)
def export_roster(class_id: UUID) -> ResponseReturnValue:
    """Send the class as a table for a spreadsheet."""
    table = roster.export_students(uow(), actor(), class_id, now())
    response = Response(table, mimetype="text/csv")
    response.headers["Content-Disposition"] = 'attachment; filename="class.csv"'
    return response


def slips_page(slips: tuple[Slip, ...], class_id: UUID | None = None) -> str:
    """Return the page with slips to print and hand out, from which one goes back to the class they are for."""
    return render_template("instructor/show_slips.html", slips=slips, class_id=class_id)


def _page(class_id: UUID, refusal: Invalid | None = None) -> str:
    view = get_class(uow(), actor(), class_id, now())
    return render_template(
        "instructor/show_roster.html", view=view, refusal=refusal, given=request.form, most=MOST_NAMES
    )
