"""Own questions as a file: saved, and read back as drafts."""

from flask import Response, redirect, request, url_for
from flask.typing import ResponseReturnValue

from app.services.errors import Invalid
from app.services.own_files import read_own, save_own
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.own.blueprint import TEACHING, own
from app.web.own.questions import show_list


@own.get("/own-questions.json")
@allow(*TEACHING)
def save_file() -> ResponseReturnValue:
    """Send the questions as a file."""
    response = Response(save_own(uow(), actor()), mimetype="application/json")
    response.headers["Content-Disposition"] = 'attachment; filename="own-questions.json"'
    return response


@own.post("/own-questions/file")
@allow(*TEACHING)
def read_file() -> ResponseReturnValue:
    """Keep the questions of a file as drafts."""
    sent = request.files.get("file")
    try:
        read_own(uow(), actor(), library(), sent.read() if sent else b"", now())
    except Invalid as refusal:
        return show_list(refusal)
    return redirect(url_for("own.list_questions"), 303)
