"""How good the questions are: for the school and, to read, its instructors."""

from flask import render_template, request
from flask.typing import ResponseReturnValue
from flask_babel import lazy_gettext as _

from app.services.actor import Role
from app.services.quality import family_quality, list_quality
from app.web.access import allow
from app.web.current import actor, library, uow
from app.web.school.blueprint import school

READING = (Role.INSTRUCTOR, Role.SCHOOL)

# What each flag says, and why somebody should look.
FLAGS: dict[str, tuple[object, object]] = {
    "negative-discrimination": (
        _("right by those who are wrong elsewhere"),
        _("Those who are right elsewhere are wrong here more often: look at the key first, then at the wording."),
    ),
    "weak-discrimination": (
        _("says little"),
        _("Being right here goes hardly with being right elsewhere: it may be unclear, or ask for something else."),
    ),
    "too-hard": (_("very hard"), _("Fewer than a quarter are right: is it taught, and is the wording clear?")),
    "too-easy": (_("very easy"), _("More than 95 of 100 are right: it measures nothing any more.")),
    "idle-option": (_("idle option"), _("An option that fewer than 5 of 100 take helps nobody to learn.")),
    "unexplained-value": (
        _("unexplained answer"),
        _("Several typed the same wrong value that no misconception explains: it may be a new one."),
    ),
}


@school.get("/school/quality")
@allow(*READING)
def show_quality() -> ResponseReturnValue:
    """List the kinds of questions, the worst first."""
    topic = request.args.get("topic", "")
    view = list_quality(uow(), actor(), library(), topic)
    return render_template("school/show_quality.html", view=view, topic=topic, flags=FLAGS)


@school.get("/school/quality/<family_id>")
@allow(*READING)
def show_family_quality(family_id: str) -> ResponseReturnValue:
    """Show one kind of question in full."""
    view = family_quality(uow(), actor(), library(), family_id)
    return render_template("school/show_family_quality.html", view=view, flags=FLAGS)
