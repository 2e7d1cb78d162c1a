"""Writing a question, and changing it: what was typed stays in the form, whatever is wrong with it."""

from collections.abc import Iterator, Mapping
from typing import Any
from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.packs.own import LEAST_WRONG, MOST_WRONG, OwnWrong
from app.packs.spec import LANGUAGES, Language
from app.services.errors import Conflict, Invalid
from app.services.own_checks import Unreadable, read_body
from app.services.own_questions import edition, get_own, rewrite_own, write_own
from app.web.access import allow
from app.web.current import actor, language, library, now, uow
from app.web.errors import STATUS
from app.web.languages import NAMES
from app.web.own.blueprint import TEACHING, own
from app.web.page_text import GRADE_WORDS

ONCE = ("topic", "grade", "source")
IN_EACH_LANGUAGE = ("title", "situation", "question", "key")
OF_WRONG = tuple(OwnWrong.model_fields)


@own.get("/own-questions/new")
@allow(*TEACHING)
def show_new() -> ResponseReturnValue:
    """Show an empty form."""
    return _page({"topic": request.args.get("topic", ""), "grade": "medium"})


@own.post("/own-questions")
@allow(*TEACHING)
def write() -> ResponseReturnValue:
    """Keep a new question."""
    data = _sent()
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
    data, known = _sent(), request.form.get("edition", "")
    try:
        rewrite_own(uow(), actor(), question_id, known, read_body(data, library(), language()), now())
    except Unreadable as refusal:
        return _page(data, refusal.problems, known, question_id), STATUS[Invalid]
    except Conflict as refusal:
        return _page(data, {"page": refusal.message}, known, question_id), STATUS[Conflict]
    return redirect(url_for("own.show_question", question_id=question_id), 303)


def _sent() -> dict[str, Any]:
    """Return what was typed, without a language that nothing is written in; one of them there must be."""
    data: dict[str, Any] = {name: request.form.get(name, "").strip() for name in ONCE}
    in_languages = {each: _words(each) for each in LANGUAGES}
    written = {each: words for each, words in in_languages.items() if any(words.values())}
    return data | (written or {language(): in_languages[language()]})


def _words(each: Language) -> dict[str, Any]:
    """Return what was typed in one language, without wrong answers of which there is nothing."""
    typed = {name: request.form.get(name, "").strip() for name in request.form}
    wrong = [{name: typed.get(f"{each}.wrong.{n}.{name}", "") for name in OF_WRONG} for n in range(MOST_WRONG)]
    return {
        **{name: typed.get(f"{each}.{name}", "") for name in IN_EACH_LANGUAGE},
        "why": [line for line in typed.get(f"{each}.why", "").splitlines() if line.strip()],
        "wrong": [one for one in wrong if any(one.values())],
    }


def _page(
    data: Mapping[str, Any],
    problems: Mapping[str, str] | None = None,
    known: str = "",
    question_id: UUID | None = None,
) -> str:
    first = "fr" if data.get("fr") and not data.get("en") else "en" if data.get("en") else language()
    return render_template(
        "own/write_question.html",
        given=dict(_fields(data)),
        problems=problems or {},
        edition=known,
        question_id=question_id,
        topics=[(pack.id, pack.title.of(language())) for pack in library().packs.values()],
        grades=GRADE_WORDS,
        least_wrong=LEAST_WRONG,
        most_wrong=MOST_WRONG,
        languages=sorted(LANGUAGES, key=lambda each: each != first),
        language_names=NAMES,
    )


def _fields(data: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """Yield the form's fields with what stands in them."""
    yield from ((name, str(data.get(name) or "")) for name in ONCE)
    for each in LANGUAGES:
        words = data.get(each) or {}
        yield from ((f"{each}.{name}", words.get(name, "")) for name in IN_EACH_LANGUAGE)
        yield f"{each}.why", "\n".join(words.get("why", ()))
        for n, one in enumerate(words.get("wrong", ())):
            yield from ((f"{each}.wrong.{n}.{name}", one[name]) for name in OF_WRONG)
