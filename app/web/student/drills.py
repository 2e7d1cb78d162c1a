"""Starting, resuming and looking back on drills."""

from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services import drills
from app.services.drills import LENGTH, DrillWish
from app.services.practice import question
from app.services.reveal import opens_at, refuses_answers
from app.services.review import summary
from app.services.sittings import find_due
from app.web.access import allow
from app.web.current import actor, actor_with_visit, backend, library, now, uow
from app.web.student.blueprint import PRACTISING, student


@student.post("/drills")
@allow(*PRACTISING)
def start_drill() -> ResponseReturnValue:
    """Start a drill of a topic, of certain families, or of everything."""
    length = request.form.get("length", str(LENGTH))
    wish = DrillWish(
        topic=request.form.get("topic") or None,
        families=tuple(request.form.getlist("family")),
        length=int(length) if length.isascii() and length.isdigit() and len(length) < 4 else 0,
    )
    drill_id = drills.start_drill(uow(), actor_with_visit(), library(), wish, backend().draw_seed(), now())
    return redirect(url_for("student.show_question", drill_id=drill_id, position=1), 303)


@student.get("/drills/<uuid:drill_id>")
@allow(*PRACTISING)
def resume_drill(drill_id: UUID) -> ResponseReturnValue:
    """Go to the first question without an answer, or to the summary."""
    view = question(uow(), actor(), library(), drill_id, now())
    if view.progress.finished or (view.sitting and refuses_answers(view.sitting, now())):
        return redirect(url_for("student.show_summary", drill_id=drill_id))
    return redirect(url_for("student.show_question", drill_id=drill_id, position=view.progress.position))


@student.get("/drills/<uuid:drill_id>/summary")
@allow(*PRACTISING)
def show_summary(drill_id: UUID) -> ResponseReturnValue:
    """Look back on a drill; on an assigned set as far as it may be seen."""
    view = summary(uow(), actor(), library(), drill_id, now())
    if view.rehearsal_id and not view.progress.closed:
        return redirect(url_for("student.show_rehearsal", rehearsal_id=view.rehearsal_id))
    if view.sitting is None:
        return render_template("student/show_summary.html", view=view)
    due = find_due(uow(), actor(), view.sitting.assignment_id, now())
    template = "student/show_held.html" if view.held else "student/show_summary.html"
    over = refuses_answers(view.sitting, now())
    return render_template(
        template, view=view, sitting=view.sitting, due=due, over=over, opens_at=opens_at(view.sitting)
    )


@student.post("/drills/<uuid:drill_id>/again")
@allow(*PRACTISING)
def drill_again(drill_id: UUID) -> ResponseReturnValue:
    """Start a drill of what was missed, with fresh numbers."""
    fresh_id = drills.drill_again(uow(), actor(), library(), drill_id, backend().draw_seed(), now())
    return redirect(url_for("student.show_question", drill_id=fresh_id, position=1), 303)
