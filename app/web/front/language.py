"""The language switch: keeps the page, its question and its numbers."""

from flask import redirect, request, session, url_for
from flask.typing import ResponseReturnValue
from werkzeug.exceptions import BadRequest

from app.packs.spec import LANGUAGES
from app.services import visits
from app.web.access import EVERYBODY, allow
from app.web.addresses import own_address
from app.web.current import LANGUAGE, actor, uow
from app.web.front.blueprint import front


@front.post("/language")
@allow(*EVERYBODY)
def set_language() -> ResponseReturnValue:
    """Go back to the same page in another language."""
    wanted = next((each for each in LANGUAGES if each == request.form.get("language")), None)
    if wanted is None:
        raise BadRequest
    visits.set_language(uow(), actor(), wanted)
    session[LANGUAGE] = wanted
    return redirect(own_address(request.form.get("here", "")) or url_for("front.show_start"), 303)
