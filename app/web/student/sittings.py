"""What was assigned to a student: what is due, starting it, handing it in."""

from uuid import UUID

from flask import redirect, render_template, url_for
from flask.typing import ResponseReturnValue

from app.services import sittings
from app.services.actor import Role
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.student.blueprint import student


@student.get("/sets")
@allow(Role.STUDENT)
def show_sets() -> ResponseReturnValue:
    """List what is due and what is done."""
    return render_template("student/show_sets.html", due=sittings.list_due(uow(), actor(), now()))


@student.post("/sets/<uuid:assignment_id>/sittings")
@allow(Role.STUDENT)
def start_sitting(assignment_id: UUID) -> ResponseReturnValue:
    """Start a set, or go on where it was stopped."""
    drill_id = sittings.start_sitting(uow(), actor(), library(), assignment_id, now())
    return redirect(url_for("student.resume_drill", drill_id=drill_id), 303)


@student.post("/drills/<uuid:drill_id>/hand-in")
@allow(Role.STUDENT)
def hand_in(drill_id: UUID) -> ResponseReturnValue:
    """Finish a set without its last questions."""
    sittings.hand_in(uow(), actor(), drill_id, now())
    return redirect(url_for("student.show_summary", drill_id=drill_id), 303)
