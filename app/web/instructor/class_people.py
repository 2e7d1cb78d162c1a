"""Who is in a class and who teaches it."""

from uuid import UUID

from flask import request
from flask.typing import ResponseReturnValue

from app.services import class_people
from app.services.actor import Role
from app.services.errors import NotFound
from app.web.access import allow
from app.web.current import actor, now, uow
from app.web.instructor.blueprint import TEACHING, instructor
from app.web.instructor.classes import do_for_class


@instructor.post("/classes/<uuid:class_id>/teachers")
@allow(*TEACHING)
def add_teacher(class_id: UUID) -> ResponseReturnValue:
    """Let another instructor teach a class too."""
    person_id = chosen("person")
    return do_for_class(class_id, lambda: class_people.add_teacher(uow(), actor(), class_id, person_id, now()))


@instructor.post("/classes/<uuid:class_id>/teachers/<uuid:person_id>/remove")
@allow(*TEACHING)
def remove_teacher(class_id: UUID, person_id: UUID) -> ResponseReturnValue:
    """Let an instructor teach a class no more."""
    return do_for_class(class_id, lambda: class_people.remove_teacher(uow(), actor(), class_id, person_id, now()))


@instructor.post("/classes/<uuid:class_id>/students")
@allow(*TEACHING)
def add_student(class_id: UUID) -> ResponseReturnValue:
    """Put a student who has an account into a class too."""
    login = request.form.get("login", "")
    return do_for_class(class_id, lambda: class_people.add_student(uow(), actor(), class_id, login, now()))


@instructor.post("/classes/<uuid:class_id>/students/<uuid:person_id>/remove")
@allow(*TEACHING)
def remove_student(class_id: UUID, person_id: UUID) -> ResponseReturnValue:
    """Take a student out of a class."""
    return do_for_class(class_id, lambda: class_people.remove_student(uow(), actor(), class_id, person_id, now()))


@instructor.post("/classes/<uuid:class_id>/students/<uuid:person_id>/move")
@allow(Role.SCHOOL)
def move_student(class_id: UUID, person_id: UUID) -> ResponseReturnValue:
    """Move a student with all they have answered to another class."""
    way = (class_id, chosen("class"))
    return do_for_class(class_id, lambda: class_people.move_student(uow(), actor(), person_id, way, now()))


def chosen(name: str) -> UUID:
    """Return the id that a list of the form sent; NotFound for what is none."""
    try:
        return UUID(request.form.get(name, ""))
    except ValueError as error:
        raise NotFound(name) from error
