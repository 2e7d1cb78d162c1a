"""An instructor's page of one student: record, sets, rehearsals, the training record and the recommendation."""

from collections.abc import Callable
from uuid import UUID

from flask import make_response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services import training
from app.services.errors import Invalid
from app.services.training import KINDS, NOTE, EntryWish, student_page
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.errors import STATUS
from app.web.instructor.blueprint import TEACHING, instructor


@instructor.get("/people/<uuid:person_id>/record")
@allow(*TEACHING)
def show_student(person_id: UUID) -> ResponseReturnValue:
    """Show all there is of a student."""
    return _page(person_id)


@instructor.post("/people/<uuid:person_id>/record")
@allow(*TEACHING)
def add_entry(person_id: UUID) -> ResponseReturnValue:
    """Add an entry to the training record, or one that corrects another."""
    wish = EntryWish(
        kind=request.form.get("kind", ""),
        day=request.form.get("day", ""),
        text=request.form.get("text", ""),
        minutes=request.form.get("minutes", ""),
        corrects=request.form.get("corrects", type=UUID),
    )
    return _do(person_id, lambda: training.add_entry(uow(), actor(), person_id, wish, now()))


@instructor.post("/people/<uuid:person_id>/recommendation")
@allow(*TEACHING)
def recommend(person_id: UUID) -> ResponseReturnValue:
    """Recommend a student for the written exam."""
    reason = request.form.get("reason", "")
    return _do(person_id, lambda: training.recommend(uow(), actor(), library(), person_id, reason, now()))


@instructor.get("/people/<uuid:person_id>/training-record")
@allow(*TEACHING)
def print_training_record(person_id: UUID) -> ResponseReturnValue:
    """Show the training record as it is printed: one page."""
    view = student_page(uow(), actor(), library(), person_id, now())
    return render_template("instructor/print_training_record.html", view=view)


@instructor.get("/people/<uuid:person_id>/training-record.pdf")
@allow(*TEACHING)
def send_training_record(person_id: UUID) -> ResponseReturnValue:
    """Send the training record as a PDF."""
    from app.web.paper import pdf_of  # noqa: PLC0415 - the library that sets pages is slow to load

    view = student_page(uow(), actor(), library(), person_id, now())
    response = make_response(pdf_of(render_template("instructor/print_training_record.html", view=view)))
    response.mimetype = "application/pdf"
    response.headers["Content-Disposition"] = 'attachment; filename="training-record.pdf"'
    return response


def _do(person_id: UUID, do: Callable[[], None]) -> ResponseReturnValue:
    try:
        do()
    except Invalid as refusal:
        return _page(person_id, refusal), STATUS[Invalid]
    return redirect(url_for("instructor.show_student", person_id=person_id), 303)


def _page(person_id: UUID, refusal: Invalid | None = None) -> str:
    view = student_page(uow(), actor(), library(), person_id, now())
    return render_template(
        "instructor/show_student.html",
        view=view,
        refusal=refusal,
        given=request.form,
        kinds=[kind for kind in KINDS if kind != NOTE],
        today=now().date().isoformat(),
    )
