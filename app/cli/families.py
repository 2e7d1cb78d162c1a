"""List the families of the question packs, or the lines of a syllabus with the families that serve them."""

from typing import Any

import click

from app.cli import Refused, suggest
from app.cli.packs import language_option, open_library, print_json
from app.packs.library import Library, UnknownPack
from app.packs.spec import Family, Language
from app.questions.present import present_family
from app.services.errors import NotFound
from app.services.syllabus import DocumentView, LineView, SyllabusView, get_syllabus


@click.command()
@click.option(
    "--syllabus", metavar="TAG", help="The lines of a syllabus, such as ca-ppl: who serves each, and which have none."
)
@click.option("--pack", metavar="PACK", help="Only families of this pack.")
@language_option
def command(syllabus: str | None, pack: str | None, language: Language) -> None:
    """List the families as JSON lines: id, pack, title, skill, answer forms, misconceptions, syllabus, sources.

    With --syllabus, one JSON line for each line it states: document, subject, how and when seen, families (none: []).
    """
    library = open_library()
    families = choose(library, pack)
    if syllabus is None:
        for family in families:
            print_json(present_family(library, family, language))
        return
    kept = {family.id for family in families}
    view = find_syllabus(library, syllabus, language)
    for document in view.documents:
        for line in document.lines:
            print_json(present_line(document, line, kept))


def choose(library: Library, pack: str | None) -> list[Family]:
    """Return the families of a pack, or of all in order."""
    try:
        packs = [pack] if pack is not None else list(library.packs)
        return [family for each in packs for family in library.families_of(each)]
    except UnknownPack as error:
        raise Refused(str(error)) from error


def find_syllabus(library: Library, syllabus: str, language: Language) -> SyllabusView:
    """Return the syllabus, or refuse with those there are."""
    try:
        return get_syllabus(library, syllabus, language)
    except NotFound as error:
        known = [each.id for each in library.syllabuses.syllabuses]
        raise Refused(
            f"There is no syllabus {syllabus!r}.{suggest(syllabus, known)} There are {', '.join(known)}."
        ) from error


def present_line(document: DocumentView, line: LineView, kept: set[str]) -> dict[str, Any]:
    """Return a stated line as plain values."""
    return {
        "document": document.title,
        "line": line.name,
        "subject": line.subject,
        "seen": line.seen,
        "checked": document.checked.isoformat(),
        "families": [family.id for family in line.families if family.id in kept],
    }
