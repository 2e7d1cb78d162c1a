"""Reporting a problem with a question, with its exact numbers."""

from uuid import UUID

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services.errors import Conflict, Invalid
from app.services.report_desk import own_reports
from app.services.reports import LONGEST_TEXT, get_reported, report_problem
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.errors import STATUS
from app.web.student.blueprint import PRACTISING, student


@student.get("/items/<uuid:item_id>/report")
@allow(*PRACTISING)
def show_report(item_id: UUID) -> ResponseReturnValue:
    """Ask what is wrong with a question."""
    return _page(item_id)


@student.post("/items/<uuid:item_id>/report")
@allow(*PRACTISING)
def send_report(item_id: UUID) -> ResponseReturnValue:
    """Keep the report."""
    try:
        report_problem(uow(), actor(), library(), item_id, request.form.get("text", ""), now())
    except (Invalid, Conflict) as refusal:
        return _page(item_id, refusal), STATUS[type(refusal)]
    return redirect(url_for("student.show_report", item_id=item_id, sent=1), 303)


def _page(item_id: UUID, refusal: Invalid | Conflict | None = None) -> str:
    reported = get_reported(uow(), actor(), library(), item_id)
    return render_template(
        "student/show_report.html",
        reported=reported,
        own_reports=own_reports(uow(), actor(), library(), item_id),
        item_id=item_id,
        refusal=refusal,
        sent="sent" in request.args,
        text=request.form.get("text", ""),
        longest=LONGEST_TEXT,
    )
