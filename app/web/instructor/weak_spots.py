"""What a class gets wrong together, and what is behind each row."""

from uuid import UUID

from flask import render_template, request
from flask.typing import ResponseReturnValue

from app.services.assignments import list_class_assignments
from app.services.class_misses import family_misses
from app.services.class_picture import PERIODS, class_picture
from app.services.rechecks import list_class_rechecks
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.instructor.blueprint import TEACHING, instructor
from app.web.instructor.rechecks import period_of


@instructor.get("/classes/<uuid:class_id>/weak-spots")
@allow(*TEACHING)
def show_weak_spots(class_id: UUID) -> ResponseReturnValue:
    """Show a class's weak spots: of some weeks or one set, of all topics or one, with names or for the projector."""
    period = period_of(request.args)
    picture = class_picture(uow(), actor(), library(), class_id, period, now())
    sets = {each.topic_set_id: each.title for each in list_class_assignments(uow(), actor(), class_id)[1]}
    return render_template(
        "instructor/show_weak_spots.html",
        picture=picture,
        sets=sets,
        rechecks=list_class_rechecks(uow(), actor(), library(), class_id),
        period=period,
        periods=PERIODS,
        topic=request.args.get("topic", ""),
        projector="projector" in request.args,
    )


@instructor.get("/classes/<uuid:class_id>/weak-spots/<family_id>")
@allow(*TEACHING)
def show_misses(class_id: UUID, family_id: str) -> ResponseReturnValue:
    """Show the wrong answers behind a row, as they were shown and given."""
    misconception = request.args.get("misconception", "")
    view = family_misses(uow(), actor(), library(), class_id, family_id, misconception)
    return render_template("instructor/show_misses.html", view=view, class_id=class_id)
