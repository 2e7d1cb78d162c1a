"""Runs all checks over a library: each family's data, its draws one by one, and the batch."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from app.packs.issues import Issue
from app.packs.library import Library
from app.packs.spec import Family
from app.questions.checks.batch import BatchFigures, check_batch
from app.questions.checks.data import check_data
from app.questions.checks.findings import Findings
from app.questions.checks.item import check_item
from app.questions.conventions import Conventions
from app.questions.draw import NoDraw, draw, offered_forms
from app.questions.model import Item, NotOffered

FULLY_READ = 120


@dataclass(frozen=True, slots=True)
class FamilyReport:
    """One family's findings; `figures` is None where nothing could be drawn, `few` says why few draws differ."""

    family: str
    draws: int
    issues: tuple[Issue, ...]
    figures: BatchFigures | None
    few: str = ""


def check_library(
    library: Library, conventions: Sequence[Conventions], draws: int, families: Sequence[str] = ()
) -> Iterator[FamilyReport]:
    """Check the named families, or all, one after the other."""
    for family_id in families or sorted(library.families):
        yield check_family(library, family_id, conventions, draws)


def check_family(library: Library, family_id: str, conventions: Sequence[Conventions], draws: int) -> FamilyReport:
    """Check one family over `draws` items, spread over the conventions given and over every answer form."""
    family = library.family(family_id)
    findings = Findings(library.files[family_id])
    check_data(family, library.syllabuses, findings)
    items: list[Item] = []
    try:
        items = list(_draw_all(library, family, conventions, draws, findings))
    except NoDraw as error:
        findings.error("no-legal-draw", str(error), "Widen the parameters or relax the solver's conditions.")
    figures = check_batch(library, items, findings) if items and not findings.has("cannot-write") else None
    _check_all_used(family, items, findings)
    return FamilyReport(family_id, len(items), tuple(findings.issues()), figures, family.few or "")


def _draw_all(
    library: Library, family: Family, conventions: Sequence[Conventions], draws: int, findings: Findings
) -> Iterator[Item]:
    forms = offered_forms(family)
    for seed in range(1, draws + 1):
        rules = conventions[seed % len(conventions)]
        form = forms[seed // len(conventions) % len(forms)]
        try:
            item = draw(library, family.id, seed, rules, form)
        except NotOffered:
            continue
        if seed <= FULLY_READ:
            check_item(library, item, partial(draw, library, family.id, seed, rules, form), findings)
        yield item


def _check_all_used(family: Family, items: Sequence[Item], findings: Findings) -> None:
    """Warn of what no draw ever reached: a misconception that no answer could show, an ask, a scene."""
    if not items:
        return
    shown = frozenset[str]().union(*(item.misconceptions for item in items))
    for each in family.misconceptions:
        if each.id not in shown:
            what = f"misconception {each.id!r} could be shown by none of {len(items)} draws"
            findings.warn("never-met", what, "Let a wrong answer lead to it, or remove it.")
    for ask in {ask.id for ask in family.asks} - {item.ask for item in items}:
        findings.warn("never-met", f"ask {ask!r} was never drawn", "Draw it, or remove it.")
    for unused in set(range(len(family.scenes))) - {item.scene for item in items}:
        findings.warn("never-met", f"scene {unused + 1} was never told", "Check its asks and tag.")
