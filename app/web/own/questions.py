"""The list of a school's own questions, one of them with all that is known of it, and what may be done with it."""

from collections.abc import Callable
from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services import own_questions
from app.services.errors import Conflict, Invalid
from app.services.own_questions import LONGEST_NOTE, edition, get_own, list_own
from app.web.access import allow
from app.web.current import actor, language, library, now, uow
from app.web.errors import STATUS
from app.web.own.blueprint import TEACHING, own
from app.web.page_text import GRADE_WORDS


@own.get("/own-questions")
@allow(*TEACHING)
def list_questions() -> ResponseReturnValue:
    """List the school's own questions."""
    return show_list()


@own.get("/own-questions/<uuid:question_id>")
@allow(*TEACHING)
def show_question(question_id: UUID) -> ResponseReturnValue:
    """Show a question with its key, what is behind each wrong answer, and what the checks say."""
    return _page(question_id)


@own.post("/own-questions/<uuid:question_id>/release")
@allow(*TEACHING)
def release(question_id: UUID) -> ResponseReturnValue:
    """Let the version that was read be asked."""
    known = request.form.get("edition", "")
    return _done(question_id, lambda: own_questions.release(uow(), actor(), library(), question_id, known, now()))


@own.post("/own-questions/<uuid:question_id>/give-back")
@allow(*TEACHING)
def give_back(question_id: UUID) -> ResponseReturnValue:
    """Tell the writer what is missing."""
    known, reason = request.form.get("edition", ""), request.form.get("reason", "")
    return _done(question_id, lambda: own_questions.give_back(uow(), actor(), question_id, known, reason, now()))


@own.post("/own-questions/<uuid:question_id>/retire")
@allow(*TEACHING)
def retire(question_id: UUID) -> ResponseReturnValue:
    """Ask a question no more, or again."""
    retired = "back" not in request.form
    return _done(question_id, lambda: own_questions.set_retired(uow(), actor(), question_id, now(), retired=retired))


def show_list(refusal: Invalid | None = None) -> ResponseReturnValue:
    """Return the page of the list; with what is wrong about a file that was sent."""
    rows = list_own(uow(), actor(), library())
    return render_template("own/list_questions.html", rows=rows, refusal=refusal), STATUS[Invalid] if refusal else 200


def _done(question_id: UUID, act: Callable[[], None]) -> ResponseReturnValue:
    try:
        act()
    except (Invalid, Conflict) as refusal:
        return _page(question_id, refusal)
    return redirect(url_for("own.show_question", question_id=question_id), 303)


def _page(question_id: UUID, refusal: Invalid | Conflict | None = None) -> ResponseReturnValue:
    view = get_own(uow(), actor(), library(), question_id)
    page = render_template(
        "own/show_question.html",
        view=view,
        words=view.body.words(language()) or view.body.en or view.body.fr,
        spoken=language() if language() in view.body.languages else view.body.languages[0],
        topic=library().packs.get(view.body.topic),
        grades=GRADE_WORDS,
        edition=edition(view.newest),
        refusal=refusal,
        given=request.form.get("reason", ""),
        longest=LONGEST_NOTE,
    )
    return page, STATUS[type(refusal)] if refusal else 200
