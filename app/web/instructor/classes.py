"""Classes: the list, one class, its name, its code for joining."""

from collections.abc import Callable
from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services import classes
from app.services.class_picture import held_in_class
from app.services.classes import JOINING_DAYS
from app.services.errors import Conflict, Invalid
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.errors import STATUS
from app.web.instructor.blueprint import TEACHING, instructor

Refusal = Invalid | Conflict
LONGEST_NUMBER = 9
HELD_SHOWN = 3


@instructor.get("/classes")
@allow(*TEACHING)
def list_classes() -> ResponseReturnValue:
    """List the classes one looks after."""
    return _list()


@instructor.post("/classes")
@allow(*TEACHING)
def make_class() -> ResponseReturnValue:
    """Make a class."""
    try:
        class_id = classes.make_class(uow(), actor(), request.form.get("name", ""), now())
    except Invalid as refusal:
        return _list(refusal), STATUS[Invalid]
    return to_class(class_id)


@instructor.get("/classes/<uuid:class_id>")
@allow(*TEACHING)
def show_class(class_id: UUID) -> ResponseReturnValue:
    """Show a class with its people."""
    return class_page(class_id)


@instructor.post("/classes/<uuid:class_id>/name")
@allow(*TEACHING)
def rename_class(class_id: UUID) -> ResponseReturnValue:
    """Give a class another name."""
    name = request.form.get("name", "")
    return do_for_class(
        class_id, lambda: classes.rename_class(uow(), actor(), class_id, number("version"), name, now())
    )


@instructor.post("/classes/<uuid:class_id>/archive")
@allow(*TEACHING)
def archive_class(class_id: UUID) -> ResponseReturnValue:
    """Put a class away, or bring it back."""
    return do_for_class(class_id, lambda: classes.archive_class(uow(), actor(), class_id, number("version"), now()))


@instructor.post("/classes/<uuid:class_id>/joining")
@allow(*TEACHING)
def open_joining(class_id: UUID) -> ResponseReturnValue:
    """Make a new code with which students join for some days."""
    days, version = number("days"), number("version")
    return do_for_class(class_id, lambda: classes.open_joining(uow(), actor(), class_id, version, days, now()))


@instructor.post("/classes/<uuid:class_id>/joining/end")
@allow(*TEACHING)
def close_joining(class_id: UUID) -> ResponseReturnValue:
    """Let nobody join any more."""
    return do_for_class(class_id, lambda: classes.close_joining(uow(), actor(), class_id, number("version"), now()))


def class_page(class_id: UUID, refusal: Refusal | None = None) -> str:
    """Return the page of a class, with what could not be accepted."""
    view = classes.get_class(uow(), actor(), class_id, now())
    return render_template(
        "instructor/show_class.html",
        view=view,
        held=held_in_class(uow(), actor(), library(), class_id)[:HELD_SHOWN],
        refusal=refusal,
        given=request.form,
        days=JOINING_DAYS,
    )


def to_class(class_id: UUID) -> ResponseReturnValue:
    """Go to the page of a class."""
    return redirect(url_for("instructor.show_class", class_id=class_id), 303)


def number(name: str) -> int:
    """Return a whole number of the form; 0, which nothing accepts, for what is none."""
    text = request.form.get(name, "")
    return int(text) if text.isascii() and text.isdigit() and len(text) <= LONGEST_NUMBER else 0


def do_for_class(class_id: UUID, do: Callable[[], object]) -> ResponseReturnValue:
    """Do something for a class and go back to its page, or show there why it cannot be done."""
    try:
        do()
    except (Invalid, Conflict) as refusal:
        return class_page(class_id, refusal), STATUS[type(refusal)]
    return to_class(class_id)


def _list(refusal: Invalid | None = None) -> str:
    listed = classes.list_classes(uow(), actor())
    return render_template("instructor/list_classes.html", classes=listed, refusal=refusal, given=request.form)
