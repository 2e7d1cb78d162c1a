"""How everybody stands with what was assigned; extending it for one, reminding, withdrawing, exporting."""

from uuid import UUID

from flask import Response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services import assignments
from app.services.assignments import list_class_assignments
from app.services.errors import Conflict, Invalid, NotFound
from app.services.following import follow
from app.services.set_results import results_csv
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.errors import STATUS
from app.web.sets.blueprint import TEACHING, sets


@sets.get("/classes/<uuid:class_id>/sets")
@allow(*TEACHING)
def show_class_sets(class_id: UUID) -> ResponseReturnValue:
    """List what a class was given."""
    school_class, given = list_class_assignments(uow(), actor(), class_id)
    return render_template("sets/show_class_sets.html", school_class=school_class, given=given)


@sets.get("/assignments/<uuid:assignment_id>")
@allow(*TEACHING)
def show_assignment(assignment_id: UUID) -> ResponseReturnValue:
    """Show who has done it, who has not, and which questions went wrong."""
    return _page(assignment_id)


@sets.post("/assignments/<uuid:assignment_id>/extensions")
@allow(*TEACHING)
def extend(assignment_id: UUID) -> ResponseReturnValue:
    """Give one student more time."""
    form = request.form
    try:
        who = (UUID(form.get("person", "")), form.get("due_day", ""), form.get("due_time", ""))
    except ValueError as error:
        raise NotFound(form.get("person")) from error
    try:
        assignments.extend_for(uow(), actor(), assignment_id, who, now())
    except (Invalid, Conflict) as refusal:
        return _page(assignment_id, refusal), STATUS[type(refusal)]
    return redirect(url_for("sets.show_assignment", assignment_id=assignment_id), 303)


@sets.post("/assignments/<uuid:assignment_id>/withdraw")
@allow(*TEACHING)
def withdraw(assignment_id: UUID) -> ResponseReturnValue:
    """Take the set back."""
    assignments.withdraw(uow(), actor(), assignment_id, now())
    return redirect(url_for("sets.show_assignment", assignment_id=assignment_id), 303)


@sets.post("/assignments/<uuid:assignment_id>/results")
@allow(*TEACHING)
def export_results(assignment_id: UUID) -> ResponseReturnValue:
    """Send the results as a table for a spreadsheet."""
    text = results_csv(uow(), actor(), library(), assignment_id, now())
    response = Response(text, mimetype="text/csv")
    response.headers["Content-Disposition"] = f'attachment; filename="results-{now():%Y-%m-%d}.csv"'
    return response


def _page(assignment_id: UUID, refusal: Invalid | Conflict | None = None) -> str:
    view = follow(uow(), actor(), library(), assignment_id, now())
    due_at = view.assignment.due_at
    overdue = due_at is not None and due_at < now()
    return render_template("sets/show_assignment.html", view=view, overdue=overdue, refusal=refusal, typed=request.form)
