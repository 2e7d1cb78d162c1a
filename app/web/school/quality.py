"""How good the questions are: for the school and, to read, its instructors."""

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import lazy_gettext as _

from app.services.actor import Role
from app.services.errors import Invalid
from app.services.quality import family_quality, list_quality
from app.services.report_desk import list_desk
from app.services.withdrawals import bring_back, list_withdrawn, withdraw
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.errors import STATUS
from app.web.page_text import GRADE_WORDS
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
    return _family_page(family_id)


@school.post("/school/quality/<family_id>/withdrawal")
@allow(Role.SCHOOL)
def withdraw_question(family_id: str) -> ResponseReturnValue:
    """Ask a kind of question no more."""
    try:
        withdraw(uow(), actor(), library(), family_id, request.form.get("reason", ""), now())
    except Invalid as refusal:
        return _family_page(family_id, refusal), STATUS[Invalid]
    return redirect(url_for("school.show_family_quality", family_id=family_id), 303)


@school.post("/school/quality/<family_id>/return")
@allow(Role.SCHOOL)
def bring_question_back(family_id: str) -> ResponseReturnValue:
    """Ask a withdrawn kind of question again."""
    bring_back(uow(), actor(), library(), family_id, now())
    return redirect(url_for("school.show_family_quality", family_id=family_id), 303)


def _family_page(family_id: str, refusal: Invalid | None = None) -> str:
    return render_template(
        "school/show_family_quality.html",
        view=family_quality(uow(), actor(), library(), family_id),
        reports=len(list_desk(uow(), actor(), library(), family_id)),
        withdrawal=list_withdrawn(uow(), actor(), library()).get(family_id),
        flags=FLAGS,
        grades=GRADE_WORDS,
        refusal=refusal,
        may_change=actor().role is Role.SCHOOL,
    )
