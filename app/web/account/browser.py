"""The browser that asks: where it comes from, and going on in it as whoever came in."""

from flask import redirect, request
from flask.typing import ResponseReturnValue

from app.services.actor import Role
from app.services.entrance import Caller
from app.services.taking_along import take_along
from app.web import current
from app.web.current import actor, language, now, uow
from app.web.navigation import first_page

LONGEST_DEVICE = 120
TAKE = "take"


def caller() -> Caller:
    """Return where this request comes from."""
    return Caller(request.remote_addr or "", request.user_agent.string[:LONGEST_DEVICE], language())


def practised() -> bool:
    """Whether somebody who is not signed in has a visit, whose drills they could take along."""
    return actor().role is Role.VISITOR and actor().visit_id is not None


def go_in(token: str, school_code: str, onward: str | None = None) -> ResponseReturnValue:
    """Go on as the person of a new token, with what was practised before where that was asked for."""
    visitor, wanted = actor(), TAKE in request.form
    current.sign_in(token)
    current.remember_school(school_code.strip().lower())
    if wanted:
        take_along(uow(), visitor, actor(), now())
    return redirect(onward or first_page(), 303)
