"""The item checks over every family, and the golden draws against what a person accepted. Run by `check packs`."""

import json
import tomllib
from datetime import date
from itertools import cycle

import click

from app.cli import Refused
from app.cli.packs import PACKS, open_library
from app.packs.library import Library, UnknownFamily
from app.questions.checks import FamilyReport, check_library
from app.questions.conventions import Conventions, conventions_at
from app.questions.golden import differences, golden_draws
from app.services.places import list_places

WHEN = date(2026, 9, 1)
HOUSE_RULES: tuple[dict[str, str | int], ...] = (
    {"rollout_rule": "latitude", "rate_rule": "fifteen-percent", "pressure_unit": "inhg"},
    {"rollout_rule": "allowance", "rate_rule": "exact", "pressure_unit": "hpa", "feet_per_hpa": 27},
    {"rollout_rule": "allowance", "rate_rule": "tenth-plus-seven", "pressure_unit": "hpa", "allowance_deg": 20},
)


@click.command()
@click.option("--draws", type=click.IntRange(min=1), required=True)
@click.option("--accept", multiple=True)
@click.option("--table", is_flag=True)
def command(draws: int, accept: tuple[str, ...], *, table: bool) -> None:
    """Print every finding, and a row a family if wanted; exit code 1 for an error or a golden draw that has moved."""
    library = open_library()
    for family_id in accept:
        accept_golden(library, family_id)
    failed = False
    for report in check_library(library, homes(), draws):
        moved = differences(library, report.family, read_golden(library.pack_of(report.family).id))
        if table:
            click.echo(row(report))
            if report.few:
                click.echo(f"    few: {report.few}")
        for line in (*map(str, report.issues), *(f"{report.family}: golden draw: {each}" for each in moved)):
            click.echo(line)
        failed = failed or bool(moved) or any(issue.severity == "error" for issue in report.issues)
    raise SystemExit(1 if failed else 0)


def row(report: FamilyReport) -> str:
    """Write what a family's batch showed: items, share lost to collisions, share distinct, guessing, key places."""
    if report.figures is None:
        return f"{report.family:<28} no item"
    shown = report.figures
    guess = f"{shown.best_strategy} {shown.best_share:.0%}" if shown.best_strategy else "no choice"
    places = " ".join(map(str, shown.key_places))
    return (
        f"{report.family:<28}{report.draws:6} items  lost {shown.lost_share:4.0%}  "
        f"distinct {shown.distinct_share:4.0%}  best guess {guess:<16}  key places {places} (p {shown.key_place_p:.3f})"
    )


def homes() -> list[Conventions]:
    """Return every demo airfield under one of the sets of house rules, so that each set is drawn with."""
    pairs = zip(list_places("en"), cycle(HOUSE_RULES), strict=False)
    return [
        conventions_at(place.name, place.latitude_deg, place.longitude_deg, WHEN, region=place.region, **rules)
        for place, rules in pairs
    ]


def read_golden(pack_id: str) -> dict[str, list[dict[str, object]]]:
    """Return the frozen draws of a pack's families; none before the first were accepted."""
    file = PACKS / pack_id / "golden.toml"
    return tomllib.loads(file.read_text("utf-8")) if file.is_file() else {}


def accept_golden(library: Library, family_id: str) -> None:
    """Freeze today's golden draws of a family, in the order in which the pack lists its families."""
    try:
        pack = library.pack_of(family_id)
    except UnknownFamily as error:
        raise Refused(str(error)) from error
    frozen = read_golden(pack.id) | {family_id: golden_draws(library, family_id)}
    lines = ["# Frozen draws: `python3 -m app check packs --accept FAMILY` rewrites them; read the difference.", ""]
    for name in (each for each in pack.families if each in frozen):
        for draw in frozen[name]:
            # A JSON string or list of strings is written the same way in TOML.
            values = (f"{key} = {json.dumps(value, ensure_ascii=False)}" for key, value in draw.items())
            lines += [f"[[{name}]]", *values, ""]
    (PACKS / pack.id / "golden.toml").write_text("\n".join(lines[:-1]) + "\n", "utf-8")


if __name__ == "__main__":
    command(prog_name="check packs")
