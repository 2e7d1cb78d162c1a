"""What a class gets wrong together, and what is behind each row."""

from uuid import UUID

from flask import render_template, request
from flask.typing import ResponseReturnValue

from app.services.assignments import list_class_assignments
from app.services.class_picture import PERIODS, Period, class_picture, family_misses
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.instructor.blueprint import TEACHING, instructor

LONGEST_NUMBER = 3


@instructor.get("/classes/<uuid:class_id>/weak-spots")
@allow(*TEACHING)
def show_weak_spots(class_id: UUID) -> ResponseReturnValue:
    """Show a class's weak spots: of some weeks or one set, of all topics or one, with names or for the projector."""
    weeks = request.args.get("weeks", "")
    period = Period(_number(weeks) if weeks else None, request.args.get("set", type=UUID))
    picture = class_picture(uow(), actor(), library(), class_id, period, now())
    sets = {each.topic_set_id: each.title for each in list_class_assignments(uow(), actor(), class_id)[1]}
    return render_template(
        "instructor/show_weak_spots.html",
        picture=picture,
        sets=sets,
        period=period,
        periods=PERIODS,
        topic=request.args.get("topic", ""),
        projector="projector" in request.args,
    )


@instructor.get("/classes/<uuid:class_id>/weak-spots/<family_id>")
@allow(*TEACHING)
def show_misses(class_id: UUID, family_id: str) -> ResponseReturnValue:
    """Show the wrong answers behind a row, as they were shown and given."""
    view = family_misses(uow(), actor(), library(), class_id, family_id)
    return render_template("instructor/show_misses.html", view=view, class_id=class_id)


def _number(text: str) -> int:
    return int(text) if text.isascii() and text.isdigit() and len(text) <= LONGEST_NUMBER else 0
