"""The plan for today, and the drills it offers."""

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services.adaptive import Aim, start_adaptive
from app.services.drills import LENGTH
from app.services.regrade_notice import regrade_notice, tell
from app.services.today import today
from app.web.access import allow
from app.web.current import actor, actor_with_visit, backend, library, now, uow
from app.web.student.blueprint import PRACTISING, student

LENGTHS = (5, LENGTH, 20)
MINUTES = (10, 20)
MOST_DUE = 8
LONGEST_NUMBER = 4


@student.get("/today")
@allow(*PRACTISING)
def show_today() -> ResponseReturnValue:
    """Show what there is to do."""
    view = today(uow(), actor(), library(), now())
    return render_template(
        "student/show_today.html",
        regraded=regrade_notice(uow(), actor(), library(), now()),
        view=view,
        lengths=LENGTHS,
        minutes=MINUTES,
        most_due=MOST_DUE,
        day_is=actor().day_of(now()),
    )


@student.post("/today")
@allow(*PRACTISING)
def start_today() -> ResponseReturnValue:
    """Start a drill that adapts: of everything, of a topic, or to mend a misconception."""
    kind, _, number = request.form.get("size", f"items {LENGTH}").partition(" ")
    size = int(number) if number.isascii() and number.isdigit() and len(number) < LONGEST_NUMBER else 0
    aim = Aim(
        topic=request.form.get("topic") or None,
        misconception=request.form.get("misconception", ""),
        length=size if kind != "minutes" else None,
        minutes=size if kind == "minutes" else None,
    )
    drill_id = start_adaptive(uow(), actor_with_visit(), library(), aim, backend().draw_seed(), now())
    return redirect(url_for("student.show_question", drill_id=drill_id, position=1), 303)


@student.post("/today/regraded")
@allow(*PRACTISING)
def hide_regraded() -> ResponseReturnValue:
    """Note that the notice of answers marked again was read."""
    tell(uow(), actor(), now())
    return redirect(url_for("student.show_today"), 303)
