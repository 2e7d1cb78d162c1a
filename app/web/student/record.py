"""One's own record, to read and to take along."""

import json

from flask import Response, make_response, render_template
from flask.typing import ResponseReturnValue

from app.services.own_table import own_csv
from app.services.record import own_data, record
from app.services.report_desk import own_reports
from app.web.access import allow
from app.web.current import actor, library, now, uow
from app.web.student.blueprint import PRACTISING, student


@student.get("/record")
@allow(*PRACTISING)
def show_record() -> ResponseReturnValue:
    """Show what is known of oneself."""
    return render_template(
        "student/show_record.html",
        view=record(uow(), actor(), library(), now()),
        own_reports=own_reports(uow(), actor(), library()),
    )


@student.get("/record/answers.json")
@allow(*PRACTISING)
def send_own_data() -> ResponseReturnValue:
    """Send every answer with all that is kept of it."""
    response = make_response(json.dumps(own_data(uow(), actor(), now()), ensure_ascii=False, indent=1))
    response.mimetype = "application/json"
    response.headers["Content-Disposition"] = 'attachment; filename="answers.json"'
    return response


@student.get("/record/answers.csv")
@allow(*PRACTISING)
def send_own_table() -> ResponseReturnValue:
    """Send every answer as a table for a spreadsheet."""
    response = Response(own_csv(uow(), actor(), library(), now()), mimetype="text/csv")
    response.headers["Content-Disposition"] = 'attachment; filename="answers.csv"'
    return response
