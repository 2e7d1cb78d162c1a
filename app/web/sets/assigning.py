"""Giving a set to classes and students."""

from datetime import timedelta
from uuid import UUID
from zoneinfo import ZoneInfo

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services.assignments import AssignWish, assign_set, list_assignable
from app.services.errors import Conflict, Invalid, NotFound
from app.services.topic_sets import get_set
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.errors import STATUS
from app.web.sets.blueprint import TEACHING, sets

USUAL_TIME = timedelta(days=7)
USUAL_HOUR = "17:00"


@sets.get("/topic-sets/<uuid:set_id>/assign")
@allow(*TEACHING)
def show_assign(set_id: UUID) -> ResponseReturnValue:
    """Ask to whom (the address may name classes and people; an only class is chosen), and until when: in a week."""
    local = (now() + USUAL_TIME).astimezone(ZoneInfo(actor().time_zone))
    named = {
        name: tuple(known for each in request.args.getlist(name) if (known := _uuid(each)))
        for name in ("class", "person")
    }
    if not any(named.values()) and len(taught := list_assignable(uow(), actor()).classes) == 1:
        named["class"] = (taught[0][0].id,)
    wish = AssignWish(named["class"], named["person"], f"{local:%Y-%m-%d}", USUAL_HOUR, actor().time_zone)
    return _page(set_id, wish)


@sets.post("/topic-sets/<uuid:set_id>/assignments")
@allow(*TEACHING)
def assign(set_id: UUID) -> ResponseReturnValue:
    """Give the set out."""
    form = request.form
    wish = AssignWish(
        classes=tuple(_known(each) for each in form.getlist("class")),
        people=tuple(_known(each) for each in form.getlist("person")),
        due_day=form.get("due_day", ""),
        due_time=form.get("due_time", ""),
        time_zone=form.get("time_zone", "").strip(),
    )
    try:
        made = assign_set(uow(), actor(), set_id, wish, now())
    except (Invalid, Conflict) as refusal:
        return _page(set_id, wish, refusal), STATUS[type(refusal)]
    return redirect(url_for("sets.show_assignment", assignment_id=made[0]), 303)


def _page(set_id: UUID, wish: AssignWish, refusal: Invalid | Conflict | None = None) -> str:
    view = get_set(uow(), actor(), library(), set_id)
    offered = list_assignable(uow(), actor())
    field = refusal.field if isinstance(refusal, Invalid) else "classes" if refusal else ""
    return render_template(
        "sets/assign_set.html", view=view, offered=offered, wish=wish, refusal=refusal, refused=field
    )


def _uuid(text: str) -> UUID | None:
    try:
        return UUID(text)
    except ValueError:
        return None


def _known(text: str) -> UUID:
    found = _uuid(text)
    if found is None:
        raise NotFound(text)
    return found
