"""Reports of problems with questions: read by those who teach, settled by the school."""

from uuid import UUID

from flask import Response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services.actor import Role
from app.services.errors import Conflict, Invalid
from app.services.report_desk import LONGEST_ANSWER, get_report, list_desk, settle
from app.services.reports_table import reports_csv
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.errors import STATUS
from app.web.school.blueprint import school
from app.web.school.quality import READING


@school.get("/school/reports")
@allow(*READING)
def show_reports() -> ResponseReturnValue:
    """List the reports, open ones first."""
    family = request.args.get("family", "")
    return render_template(
        "school/show_reports.html", lines=list_desk(uow(), actor(), library(), family), family=family
    )


@school.post("/school/reports/table")
@allow(*READING)
def export_reports() -> ResponseReturnValue:
    """Send the reports, with the numbers of each, as a table for a spreadsheet."""
    text = reports_csv(uow(), actor(), library(), request.form.get("family", ""), now())
    response = Response(text, mimetype="text/csv")
    response.headers["Content-Disposition"] = f'attachment; filename="reports-{now():%Y-%m-%d}.csv"'
    return response


@school.get("/school/reports/<uuid:report_id>")
@allow(*READING)
def show_report(report_id: UUID) -> ResponseReturnValue:
    """Show one report with its item as it was."""
    return _page(report_id)


@school.post("/school/reports/<uuid:report_id>")
@allow(Role.SCHOOL)
def settle_report(report_id: UUID) -> ResponseReturnValue:
    """Settle a report with an answer."""
    try:
        settle(uow(), actor(), report_id, request.form.get("answer", ""), now())
    except (Invalid, Conflict) as refusal:
        return _page(report_id, refusal), STATUS[type(refusal)]
    return redirect(url_for("school.show_report", report_id=report_id), 303)


def _page(report_id: UUID, refusal: Invalid | Conflict | None = None) -> str:
    view = get_report(uow(), actor(), library(), report_id)
    given = request.form.get("answer", "")
    return render_template(
        "school/show_report.html", view=view, refusal=refusal, given=given, longest=LONGEST_ANSWER, roles=Role
    )
