"""How ready one is for an exam."""

from flask import render_template, request
from flask.typing import ResponseReturnValue

from app.services.errors import Invalid
from app.services.exam_profiles import get_profile, list_profiles
from app.services.readiness import ready_for
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.errors import STATUS
from app.web.student.blueprint import PRACTISING, student


@student.get("/readiness")
@allow(*PRACTISING)
def show_readiness() -> ResponseReturnValue:
    """Show how ready one is for a profile's exam, today or on a day; the first profile where none is named."""
    profiles = list_profiles(uow(), actor())
    profile = get_profile(uow(), actor(), request.args.get("profile") or profiles[0].id)
    refusal = None
    try:
        view = ready_for(uow(), actor(), library(), profile, (request.args.get("on", ""), now()))
    except Invalid as error:
        refusal = error
        view = ready_for(uow(), actor(), library(), profile, ("", now()))
    page = render_template("student/show_readiness.html", view=view, profiles=profiles, refusal=refusal)
    return page, STATUS[Invalid] if refusal else 200
