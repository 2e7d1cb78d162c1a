"""People: the list, one person, and what the school or an instructor does for their account."""

from collections.abc import Callable
from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services import members
from app.services.actor import Role
from app.services.errors import Conflict, Invalid
from app.web.access import allow
from app.web.current import actor, now, uow
from app.web.errors import STATUS
from app.web.instructor.blueprint import TEACHING, instructor
from app.web.instructor.class_people import chosen
from app.web.instructor.roster import slips_page


@instructor.get("/people")
@allow(*TEACHING)
def list_people() -> ResponseReturnValue:
    """List the people one looks after."""
    return render_template("instructor/list_people.html", people=members.list_members(uow(), actor()))


@instructor.get("/people/<uuid:person_id>")
@allow(*TEACHING)
def show_person(person_id: UUID) -> ResponseReturnValue:
    """Show a person with their classes."""
    return _page(person_id)


@instructor.post("/people/<uuid:person_id>")
@allow(*TEACHING)
def correct_person(person_id: UUID) -> ResponseReturnValue:
    """Correct a name or an e-mail address."""
    given = (request.form.get("name", ""), request.form.get("email", ""))
    return _do(person_id, lambda: members.correct_member(uow(), actor(), person_id, *given, now()))


@instructor.post("/people/<uuid:person_id>/code")
@allow(*TEACHING)
def give_code(person_id: UUID) -> ResponseReturnValue:
    """Show a slip with a new one-time code."""
    try:
        return slips_page((members.give_code(uow(), actor(), person_id, now()),))
    except Conflict as refusal:
        return _page(person_id, refusal), STATUS[Conflict]


@instructor.post("/people/<uuid:person_id>/leave")
@allow(Role.SCHOOL)
def let_leave(person_id: UUID) -> ResponseReturnValue:
    """Close an account; classes taught alone go to the one chosen."""
    successor = chosen("successor") if request.form.get("successor") else None
    return _do(person_id, lambda: members.let_leave(uow(), actor(), person_id, successor, now()))


@instructor.post("/people/<uuid:person_id>/return")
@allow(Role.SCHOOL)
def let_return(person_id: UUID) -> ResponseReturnValue:
    """Open an account again."""
    return _do(person_id, lambda: members.let_return(uow(), actor(), person_id, now()))


@instructor.post("/people/<uuid:person_id>/sign-out")
@allow(Role.SCHOOL)
def sign_person_out(person_id: UUID) -> ResponseReturnValue:
    """Sign somebody out in every browser."""
    return _do(person_id, lambda: members.sign_member_out(uow(), actor(), person_id, now()))


@instructor.post("/people/<uuid:person_id>/role")
@allow(Role.SCHOOL)
def change_role(person_id: UUID) -> ResponseReturnValue:
    """Make an instructor an administrator, or the other way round."""
    role = request.form.get("role", "")
    return _do(
        person_id,
        lambda: members.change_role(uow(), actor(), person_id, role, now()),
        url_for("instructor.list_people"),
    )


def _do(person_id: UUID, do: Callable[[], object], onward: str | None = None) -> ResponseReturnValue:
    try:
        do()
    except (Invalid, Conflict) as refusal:
        return _page(person_id, refusal), STATUS[type(refusal)]
    return redirect(onward or url_for("instructor.show_person", person_id=person_id), 303)


def _page(person_id: UUID, refusal: Invalid | Conflict | None = None) -> str:
    view = members.get_member(uow(), actor(), person_id)
    return render_template("instructor/show_person.html", view=view, refusal=refusal, given=request.form)
