"""Asking, answering, and the verdict."""

from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services.errors import Conflict, Invalid, NotFound
from app.services.practice import answer, question
from app.services.reveal import may_see, refuses_answers
from app.services.review import VerdictView, verdict, verdict_at_once
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.errors import STATUS
from app.web.question_page import AT_ONCE, QuestionPage, hidden_fields, read_answer
from app.web.student.blueprint import PRACTISING, student


@student.get("/drills/<uuid:drill_id>/questions/<int(min=1):position>")
@allow(*PRACTISING)
def show_question(drill_id: UUID, position: int) -> ResponseReturnValue:
    """Ask a question of a drill; one that is answered leads to its verdict."""
    return _page(drill_id, position)


@student.post("/drills/<uuid:drill_id>/questions/<int(min=1):position>")
@allow(*PRACTISING)
def answer_question(drill_id: UUID, position: int) -> ResponseReturnValue:
    """Take the answer; one that cannot be read shows the question again, with what is wrong and what was typed."""
    item_id = _uuid(request.form.get("item", ""))
    try:
        outcome = answer(uow(), actor(), library(), item_id, read_answer(str(item_id)), now())
    except (Invalid, Conflict) as refusal:
        return _page(drill_id, position, refusal)
    if outcome.held:
        return redirect(url_for("student.resume_drill", drill_id=outcome.drill_id), 303)
    view = verdict_at_once(library(), actor(), outcome) if AT_ONCE in request.form else None
    if view is not None:
        return _verdict_page(view, at_once=True)
    again = None if outcome.counted else 1
    return redirect(url_for("student.show_verdict", item_id=outcome.item_id, again=again, _anchor="verdict"), 303)


@student.get("/items/<uuid:item_id>")
@allow(*PRACTISING)
def show_verdict(item_id: UUID) -> ResponseReturnValue:
    """Show an answered question with its verdict below the answer."""
    return _verdict_page(verdict(uow(), actor(), library(), item_id, now()))


def _page(drill_id: UUID, position: int, refusal: Invalid | Conflict | None = None) -> ResponseReturnValue:
    view = question(uow(), actor(), library(), drill_id, now(), position)
    if view.progress.finished and view.progress.position < position:
        return redirect(url_for("student.show_summary", drill_id=drill_id))
    if view.sitting and refuses_answers(view.sitting, now()):
        if refusal:
            raise refusal
        return redirect(url_for("student.show_summary", drill_id=drill_id))
    if view.answered and view.sitting and not may_see(view.sitting, now()):
        return redirect(url_for("student.resume_drill", drill_id=drill_id))
    if view.answered:
        return redirect(url_for("student.show_verdict", item_id=view.item_id, _anchor="verdict"))
    page = QuestionPage(
        item=view.item,
        action=request.path,
        hidden=hidden_fields(view.item, str(view.item_id), item=str(view.item_id)),
        progress=view.progress,
        given=dict(request.form.lists()) if refusal else {},
        refusal=refusal,
    )
    given = {"page": page, "item_id": view.item_id, "sitting": view.sitting, "drill_ends_at": view.ends_at}
    shown = render_template("student/show_question.html", **given)
    return shown, STATUS[type(refusal)] if refusal else 200


def _verdict_page(view: VerdictView, *, at_once: bool = False) -> str:
    if view.explained is None:
        return render_template("student/show_revised.html", view=view)
    page = QuestionPage(item=view.explained.item, progress=view.progress, verdict=view)
    again = "again" in request.args
    return render_template("student/show_verdict.html", page=page, again=again, at_once=at_once, sitting=view.sitting)


def _uuid(text: str) -> UUID:
    try:
        return UUID(text)
    except ValueError as error:
        raise NotFound(text) from error
