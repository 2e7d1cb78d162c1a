"""Past answers to a kind of question: what marking them again or setting them aside would change, and doing it."""

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from werkzeug.datastructures import MultiDict

from app.services.actor import Role
from app.services.errors import Conflict, Invalid
from app.services.past_answers import Asked, do, look, past_answers_of
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.errors import STATUS
from app.web.school.blueprint import school

Refusal = Invalid | Conflict


@school.get("/school/quality/<family_id>/past-answers")
@allow(Role.SCHOOL)
def show_past_answers(family_id: str) -> ResponseReturnValue:
    """Ask which past answers and what to do, and show what would change."""
    return _page(family_id, request.args)


@school.post("/school/quality/<family_id>/past-answers")
@allow(Role.SCHOOL)
def change_past_answers(family_id: str) -> ResponseReturnValue:
    """Do to past answers what was seen."""
    try:
        do(uow(), actor(), library(), _asked(family_id, request.form), request.form.get("seen", ""), now())
    except (Invalid, Conflict) as refusal:
        return _page(family_id, request.form, refusal)
    return redirect(url_for("school.show_past_answers", family_id=family_id, _anchor="done"), 303)


def _page(family_id: str, sent: MultiDict[str, str], refusal: Refusal | None = None) -> ResponseReturnValue:
    asked, view = _asked(family_id, sent), None
    of = past_answers_of(uow(), actor(), library(), family_id)
    try:
        view = look(uow(), actor(), library(), asked) if "version" in sent else None
    except (Invalid, Conflict) as refused:
        refusal = refused
    page = render_template("school/show_past_answers.html", of=of, view=view, asked=asked, refusal=refusal)
    return page, STATUS[type(refusal)] if refusal else 200


def _asked(family_id: str, sent: MultiDict[str, str]) -> Asked:
    return Asked(family_id, *(sent.get(name, "") for name in ("version", "since", "until", "deed")))
