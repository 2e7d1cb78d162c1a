"""Handing over what is kept of somebody, and erasing them."""

import json
from uuid import UUID

from flask import make_response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services.actor import Role
from app.services.errors import Conflict, Invalid
from app.services.retention import data_of, erase_person, find_erasable
from app.web.access import allow
from app.web.current import actor, now, uow
from app.web.errors import STATUS
from app.web.school.blueprint import school


@school.get("/school/people/<uuid:person_id>/data.json")
@allow(Role.SCHOOL)
def send_data(person_id: UUID) -> ResponseReturnValue:
    """Send all that is kept of a person."""
    kept = data_of(uow(), actor(), person_id, now())
    response = make_response(json.dumps(kept, ensure_ascii=False, indent=1))
    response.mimetype = "application/json"
    response.headers["Content-Disposition"] = 'attachment; filename="person.json"'
    return response


@school.get("/school/people/<uuid:person_id>/erase")
@allow(Role.SCHOOL)
def show_erase(person_id: UUID) -> ResponseReturnValue:
    """Ask whether a person shall be erased, saying what goes."""
    return _page(person_id)


@school.post("/school/people/<uuid:person_id>/erase")
@allow(Role.SCHOOL)
def erase(person_id: UUID) -> ResponseReturnValue:
    """Erase a person."""
    try:
        erase_person(uow(), actor(), person_id, request.form.get("login", ""), now())
    except (Invalid, Conflict) as refusal:
        return _page(person_id, refusal), STATUS[type(refusal)]
    return redirect(url_for("school.show_audit"), 303)


def _page(person_id: UUID, refusal: Invalid | Conflict | None = None) -> str:
    person, answers = find_erasable(uow(), actor(), person_id)
    return render_template(
        "school/show_erase.html", person=person, answers=answers, refusal=refusal, given=request.form
    )
