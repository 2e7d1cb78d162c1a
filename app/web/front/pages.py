"""Pages that only say something: about, keys, and whether the application is well."""

from flask import render_template, request
from flask.typing import ResponseReturnValue

from app.services.about import list_sources
from app.web.access import EVERYBODY, allow
from app.web.current import library, uow
from app.web.front.blueprint import front


@front.get("/about")
@allow(*EVERYBODY)
def show_about() -> ResponseReturnValue:
    """Say which models and sources stand behind the questions, and what they are not for."""
    return render_template("front/show_about.html", sources=list_sources(library()))


@front.get("/keys")
@allow(*EVERYBODY)
def show_keys() -> ResponseReturnValue:
    """List the keys."""
    referrer = request.referrer or ""
    inside = referrer.startswith(request.host_url) and not referrer.endswith(request.path)
    return render_template("front/show_keys.html", back=referrer if inside else "")


@front.get("/health")
@allow(*EVERYBODY)
def check_health() -> ResponseReturnValue:
    """Answer whoever watches the server: the packs are loaded and the database opens, else the answer is a failure."""
    with uow().reader():
        return {"status": "ok", "families": len(library().families)}
