"""List the families of the question packs."""

import click

from app.cli import Refused, suggest
from app.cli.packs import language_option, open_library, print_json
from app.packs.library import Library, UnknownPack
from app.packs.spec import Family, Language
from app.questions.present import present_family


@click.command()
@click.option("--syllabus", metavar="TAG", help="Only families for this syllabus, such as ca-ppl.")
@click.option("--pack", metavar="PACK", help="Only families of this pack.")
@language_option
def command(syllabus: str | None, pack: str | None, language: Language) -> None:
    """List the families as JSON lines: id, pack, title, skill, answer forms, misconceptions, syllabus, sources."""
    library = open_library()
    for family in choose(library, syllabus, pack):
        print_json(present_family(library, family, language))


def choose(library: Library, syllabus: str | None, pack: str | None) -> list[Family]:
    """Return the families of a pack, or of all in order, that serve a syllabus."""
    try:
        packs = [pack] if pack is not None else list(library.packs)
        families = [family for each in packs for family in library.families_of(each)]
    except UnknownPack as error:
        raise Refused(str(error)) from error
    known = sorted({tag for family in library.families.values() for tag in family.syllabus})
    if syllabus is not None and syllabus not in known:
        raise Refused(f"There is no syllabus {syllabus!r}.{suggest(syllabus, known)} There are {', '.join(known)}.")
    return [family for family in families if syllabus is None or syllabus in family.syllabus]
