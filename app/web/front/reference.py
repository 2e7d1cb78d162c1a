"""What the questions rest on, to look up and to print: syllabuses and their lines, rules and worked examples."""

from flask import render_template
from flask.typing import ResponseReturnValue

from app.services.errors import Conflict, NotFound
from app.services.reference import get_reference
from app.services.rehearsals import find_unmarked
from app.services.syllabus import get_syllabus, list_syllabuses
from app.web.access import EVERYBODY, allow
from app.web.current import actor, language, library, now, uow
from app.web.errors import STATUS
from app.web.front.blueprint import front


@front.get("/syllabus")
@front.get("/syllabus/<syllabus_id>")
@allow(*EVERYBODY)
def show_syllabus(syllabus_id: str = "") -> ResponseReturnValue:
    """List a syllabus's lines with the families that serve each; the first one where none is named."""
    choices = list_syllabuses(library(), language())
    if not choices:
        raise NotFound(syllabus_id)
    syllabus = get_syllabus(library(), syllabus_id or choices[0].id, language())
    return render_template("front/show_syllabus.html", choices=choices, syllabus=syllabus)


@front.get("/reference")
@allow(*EVERYBODY)
def show_reference() -> ResponseReturnValue:
    """Show the rules the questions rest on, with examples worked by the same models; closed while one rehearses."""
    rehearsal = find_unmarked(uow(), actor(), now())
    if rehearsal and rehearsal.goes_on:
        return render_template("front/show_closed_reference.html", rehearsal=rehearsal), STATUS[Conflict]
    return render_template("front/show_reference.html", sections=get_reference(language()))
