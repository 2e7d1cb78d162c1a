"""Rehearsing an exam: choosing a profile, sitting it, handing in, the result."""

from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services import exam_profiles, rehearsals
from app.services.errors import Conflict, Invalid
from app.services.rehearsal_answers import ask, hand_in, keep_answer
from app.services.rehearsals import Phase, get_rehearsal
from app.web.access import allow
from app.web.current import actor, actor_with_visit, backend, library, now, uow
from app.web.errors import STATUS
from app.web.question_page import QuestionPage, hidden_fields, read_answer
from app.web.student.blueprint import PRACTISING, student


@student.get("/rehearsals")
@allow(*PRACTISING)
def list_rehearsals() -> ResponseReturnValue:
    """List the exams one can rehearse, and one's own rehearsals."""
    profiles = exam_profiles.list_profiles(uow(), actor())
    own = rehearsals.list_rehearsals(uow(), actor(), now())
    return render_template("student/list_rehearsals.html", profiles=profiles, own=own)


@student.post("/rehearsals")
@allow(*PRACTISING)
def start_rehearsal() -> ResponseReturnValue:
    """Start a rehearsal, or go on with the one that runs."""
    wish = (request.form.get("profile", ""), "strict" in request.form)
    started = rehearsals.start_rehearsal(uow(), actor_with_visit(), library(), wish, backend().draw_seed(), now())
    return _to(started)


@student.get("/rehearsals/<uuid:rehearsal_id>")
@allow(*PRACTISING)
def show_rehearsal(rehearsal_id: UUID) -> ResponseReturnValue:
    """Show where a rehearsal stands, or its result."""
    view = get_rehearsal(uow(), actor(), library(), rehearsal_id, now())
    template = "student/show_result.html" if view.phase is Phase.MARKED else "student/show_rehearsal.html"
    return render_template(template, view=view)


@student.get("/rehearsals/<uuid:rehearsal_id>/questions/<int(min=1):position>")
@allow(*PRACTISING)
def ask_in_rehearsal(rehearsal_id: UUID, position: int) -> ResponseReturnValue:
    """Ask a question of a running rehearsal; otherwise go to where the rehearsal stands."""
    return _question(rehearsal_id, position)


@student.post("/rehearsals/<uuid:rehearsal_id>/questions/<int(min=1):position>")
@allow(*PRACTISING)
def answer_in_rehearsal(rehearsal_id: UUID, position: int) -> ResponseReturnValue:
    """Keep an answer and go to the next question, or where `to` says; with a flag, stay where one is."""
    which = (rehearsal_id, position)
    try:
        keep_answer(uow(), actor(), library(), which, read_answer(request.form.get("item", "")), now())
    except (Invalid, Conflict) as refusal:
        return _question(rehearsal_id, position, refusal)
    if "flag" in request.form:
        following = position
    else:
        following = {"all": 0, "before": position - 1}.get(request.form.get("to", ""), position + 1)
    view = get_rehearsal(uow(), actor(), library(), rehearsal_id, now())
    if following not in range(1, len(view.places) + 1):
        return _to(rehearsal_id)
    return redirect(url_for("student.ask_in_rehearsal", rehearsal_id=rehearsal_id, position=following), 303)


@student.post("/rehearsals/<uuid:rehearsal_id>/end")
@allow(*PRACTISING)
def end_rehearsal(rehearsal_id: UUID) -> ResponseReturnValue:
    """Hand in, or have marked what was handed in when the time was up."""
    hand_in(uow(), actor(), library(), rehearsal_id, now())
    return _to(rehearsal_id)


@student.post("/rehearsals/<uuid:rehearsal_id>/pause")
@allow(*PRACTISING)
def pause_rehearsal(rehearsal_id: UUID) -> ResponseReturnValue:
    """Stop the clock, where the mode allows it."""
    rehearsals.pause_rehearsal(uow(), actor(), rehearsal_id, now())
    return _to(rehearsal_id)


@student.post("/rehearsals/<uuid:rehearsal_id>/go-on")
@allow(*PRACTISING)
def go_on_rehearsing(rehearsal_id: UUID) -> ResponseReturnValue:
    """Let the clock run again."""
    rehearsals.go_on(uow(), actor(), rehearsal_id, now())
    return _to(rehearsal_id)


def _question(rehearsal_id: UUID, position: int, refusal: Invalid | Conflict | None = None) -> ResponseReturnValue:
    view = get_rehearsal(uow(), actor(), library(), rehearsal_id, now())
    if view.phase is not Phase.RUNNING:
        return _to(rehearsal_id)
    asked = ask(uow(), actor(), library(), (rehearsal_id, position), now())
    given = dict(request.form.lists()) if refusal else asked.filled_in
    page = QuestionPage(
        item=asked.item,
        action=request.path,
        hidden=hidden_fields(asked.item, str(asked.item_id), item=str(asked.item_id)),
        given=given,
        refusal=refusal,
    )
    shown = render_template("student/ask_in_rehearsal.html", page=page, view=view, position=position, asked=asked)
    return shown, STATUS[type(refusal)] if refusal else 200


def _to(rehearsal_id: UUID) -> ResponseReturnValue:
    return redirect(url_for("student.show_rehearsal", rehearsal_id=rehearsal_id), 303)
