"""Writing a question, and changing it: what was typed stays in the form, whatever is wrong with it."""

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.packs import own_reckoned, own_worded
from app.packs.own_reckoned import MOST_NUMBERS
from app.packs.spec import LANGUAGES
from app.services.errors import Conflict, Invalid
from app.services.own_checks import Unreadable, read_body
from app.services.own_questions import edition, get_own, rewrite_own, write_own
from app.web.access import allow
from app.web.current import actor, language, library, now, uow
from app.web.errors import STATUS
from app.web.languages import NAMES
from app.web.own.blueprint import TEACHING, own
from app.web.own.forms import EMPTY_NUMBER, fill_fields, read_sent
from app.web.page_text import GRADE_WORDS

UNIT = "unit-"


@own.get("/own-questions/new")
@allow(*TEACHING)
def show_new() -> ResponseReturnValue:
    """Show an empty form: for an answer in words, or for a number to reckon."""
    numbers = EMPTY_NUMBER if request.args.get("answer") == "number" else {}
    return _page({"topic": request.args.get("topic", ""), "grade": "medium", **numbers})


@own.post("/own-questions")
@allow(*TEACHING)
def write() -> ResponseReturnValue:
    """Keep a new question."""
    data = read_sent(request.form, language())
    try:
        made = write_own(uow(), actor(), read_body(data, library(), language()), now())
    except Unreadable as refusal:
        return _page(data, refusal.problems), STATUS[Invalid]
    return redirect(url_for("own.show_question", question_id=made), 303)


@own.get("/own-questions/<uuid:question_id>/change")
@allow(*TEACHING)
def show_change(question_id: UUID) -> ResponseReturnValue:
    """Show a question in the form."""
    view = get_own(uow(), actor(), library(), question_id)
    return _page(view.body.model_dump(mode="json"), known=edition(view.newest), question_id=question_id)


@own.post("/own-questions/<uuid:question_id>/change")
@allow(*TEACHING)
def change(question_id: UUID) -> ResponseReturnValue:
    """Keep a question as it is now."""
    data, known = read_sent(request.form, language()), request.form.get("edition", "")
    try:
        rewrite_own(uow(), actor(), question_id, known, read_body(data, library(), language()), now())
    except Unreadable as refusal:
        return _page(data, refusal.problems, known, question_id), STATUS[Invalid]
    except Conflict as refusal:
        return _page(data, {"page": refusal.message}, known, question_id), STATUS[Conflict]
    return redirect(url_for("own.show_question", question_id=question_id), 303)


def _page(
    data: Mapping[str, Any],
    problems: Mapping[str, str] | None = None,
    known: str = "",
    question_id: UUID | None = None,
) -> str:
    kind = own_reckoned if "answer" in data else own_worded
    first = "fr" if data.get("fr") and not data.get("en") else "en" if data.get("en") else language()
    return render_template(
        "own/write_question.html",
        given=dict(fill_fields(data, language())),
        reckoned="answer" in data,
        problems=problems or {},
        edition=known,
        question_id=question_id,
        topics=[(pack.id, pack.title.of(language())) for pack in library().packs.values()],
        grades=GRADE_WORDS,
        units=[(name.removeprefix(UNIT), library().word(name, language())) for name in _units()],
        most_numbers=MOST_NUMBERS,
        least_wrong=kind.LEAST_WRONG,
        most_wrong=kind.MOST_WRONG,
        languages=sorted(LANGUAGES, key=lambda each: each != first),
        language_names=NAMES,
    )


def _units() -> list[str]:
    """Return the shared words that are units."""
    return [name for name in library().shared.words if name.startswith(UNIT)]
