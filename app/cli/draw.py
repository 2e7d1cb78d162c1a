"""Print items of a family for a reader without the code: enough to work every key again."""

from datetime import date, datetime
from typing import get_args

import click

from app.cli import Refused
from app.cli.packs import language_option, open_library, print_json
from app.packs.library import UnknownFamily
from app.packs.spec import Form, Language
from app.questions.conventions import Conventions
from app.questions.draw import draw, offered_forms
from app.questions.model import NotOffered
from app.questions.present import present_item
from app.services.errors import Invalid
from app.services.homes import HomeWish, conventions_for
from app.services.places import list_places

USUAL_DATE = "2026-09-01"  # fixed, so that the same command prints the same bytes on any day


@click.command()
@click.argument("family")
@click.option("--count", type=click.IntRange(1, 1_000_000), default=1, show_default=True, help="How many items.")
@click.option(
    "--seed",
    type=click.IntRange(min=0),
    default=1,
    show_default=True,
    help="Seed of the first item; the next has the next.",
)
@click.option("--form", type=click.Choice(get_args(Form)), help="Answer form, where the family has several.")
@click.option("--home", metavar="LAT,LON", help="Home place in degrees, north and east positive, such as 45.3,-75.7.")
@click.option("--date", "when", metavar="YYYY-MM-DD", default=USUAL_DATE, show_default=True, help="Date of the field.")
@language_option
def command(
    family: str, count: int, seed: int, form: Form | None, home: str | None, when: str, language: Language
) -> None:
    """Print COUNT items of FAMILY as JSON lines, with key, options, wrong values, working and figure."""
    library = open_library()
    try:
        forms = offered_forms(library.family(family))
    except UnknownFamily as error:
        raise Refused(str(error)) from error
    if form is not None and form not in forms:
        raise Refused(f"{family} has no answer form {form!r}; it has {', '.join(forms)}.")
    conventions = conventions_at_home(home, read_date(when), language)
    try:
        for each in range(seed, seed + count):
            print_json(present_item(library, draw(library, family, each, conventions, form), language))
    except NotOffered as outcome:
        reason = library.word(outcome.reason, language)
        raise Refused(f"{family} is not offered at this home place: {reason}") from outcome


def conventions_at_home(home: str | None, when: date, language: Language) -> Conventions:
    """Return the conventions of typed coordinates, or of the first demo airfield."""
    if home is None:
        wish = HomeWish(when, place_id=list_places(language)[0].id)
    else:
        latitude_deg, longitude_deg = read_home(home)
        wish = HomeWish(when, latitude_deg=latitude_deg, longitude_deg=longitude_deg)
    try:
        return conventions_for(wish, language)
    except Invalid as error:
        raise Refused(error.message) from error


def read_home(text: str) -> tuple[float, float]:
    """Read LAT,LON in degrees; whether they lie on the earth is for the conventions to say."""
    try:
        latitude_deg, longitude_deg = (float(part) for part in text.split(","))
    except ValueError as error:
        raise Refused(
            f"--home {text!r} is no place: give latitude,longitude in degrees, such as 45.3,-75.7."
        ) from error
    return latitude_deg, longitude_deg


def read_date(text: str) -> date:
    """Read YYYY-MM-DD."""
    try:
        return datetime.strptime(text, "%Y-%m-%d").date()  # noqa: DTZ007 - a date has no zone
    except ValueError as error:
        raise Refused(f"--date {text!r} is no date: write it as YYYY-MM-DD, such as {USUAL_DATE}.") from error
