"""A topic set made from a weak spot, for those behind it."""

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from app.services import rechecks
from app.services.class_picture import Period
from app.services.errors import Invalid
from app.services.rechecks import COUNTS, USUAL_COUNT, Spot, spot_view
from app.services.topic_sets import LONGEST_TITLE
from app.web.access import allow
from app.web.current import actor, backend, library, now, uow
from app.web.errors import STATUS
from app.web.instructor.blueprint import TEACHING, instructor

LONGEST_NUMBER = 3


@instructor.get("/classes/<uuid:class_id>/rechecks/new")
@allow(*TEACHING)
def show_new_recheck(class_id: UUID) -> ResponseReturnValue:
    """Ask what the set is called and how long it is; say whom it is for."""
    return _page(class_id, _spot_of(request.args))


@instructor.post("/classes/<uuid:class_id>/rechecks")
@allow(*TEACHING)
def make_recheck(class_id: UUID) -> ResponseReturnValue:
    """Make the set and show it."""
    spot = _spot_of(request.form)
    asked = (class_id, spot, request.form.get("title", ""), number_of(request.form.get("count", "")))
    try:
        made = rechecks.make_recheck(uow(), actor(), library(), asked, backend().draw_seed(), now())
    except Invalid as refusal:
        return _page(class_id, spot, refusal), STATUS[Invalid]
    return redirect(url_for("sets.show_set", set_id=made), 303)


def period_of(sent: Mapping[str, Any]) -> Period:
    """Return the period that an address or a form names."""
    weeks = sent.get("weeks", "")
    return Period(number_of(weeks) if weeks else None, request.values.get("set", type=UUID))


def number_of(text: str) -> int:
    """Return a short whole number, nought for anything else."""
    return int(text) if text.isascii() and text.isdigit() and len(text) <= LONGEST_NUMBER else 0


def _spot_of(sent: Mapping[str, Any]) -> Spot:
    return Spot(sent.get("family", ""), sent.get("misconception", ""), period_of(sent))


def _page(class_id: UUID, spot: Spot, refusal: Invalid | None = None) -> str:
    view = spot_view(uow(), actor(), library(), class_id, spot, now())
    return render_template(
        "instructor/new_recheck.html",
        view=view,
        refusal=refusal,
        title=request.form.get("title", gettext("Re-check: %(name)s", name=view.name)[:LONGEST_TITLE]),
        counts=COUNTS,
        count=number_of(request.form.get("count", "")) or USUAL_COUNT,
    )
