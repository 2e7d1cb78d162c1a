"""What stands beside a box to fill in: how near counts, said once, and never reckoned from the key."""

from collections import defaultdict
from dataclasses import replace

from app.questions.checks.findings import Findings
from app.questions.checks.item import check_item
from app.questions.draw import draw
from app.questions.model import Item
from app.questions.wording import word_item
from tests.questions.engine import home, library

COLD = "cold-temperature-altitude"  # a twentieth of the key counts


def typed(family: str, seed: int) -> Item:
    return draw(library(), family, seed, home(), "typed")


def test_how_near_counts_tells_nothing_of_the_key() -> None:
    said = defaultdict(set)
    keys = set()
    for seed in range(60):
        item = typed(COLD, seed)
        keys.add(item.tolerance)
        said[item.ask].add(word_item(library(), item, "en").box.tolerance)
    assert len(keys) > 1
    assert all(values == {""} for values in said.values())


def test_how_near_counts_is_said_once() -> None:
    for family, said, tolerance in (("altimeter-missetting", "Within 30 ft counts.", ""), ("turn-shortest", "", "1")):
        worded = word_item(library(), typed(family, 1), "en")
        assert worded.rounding.replace("\u00a0", " ") == said
        assert worded.box.tolerance == tolerance


def test_a_tolerance_of_the_key_that_the_question_does_not_state_is_an_error() -> None:
    packs = library()
    family = packs.family(COLD)
    silent = family.model_copy(update={"asks": [ask.model_copy(update={"rounding": None}) for ask in family.asks]})
    for changed, rules in ((family, set()), (silent, {"tolerance-unsaid"})):
        item, findings = typed(COLD, 1), Findings(COLD)
        check_item(replace(packs, families={**packs.families, COLD: changed}), item, lambda: typed(COLD, 1), findings)
        assert {issue.rule for issue in findings.issues()} & {"tolerance-unsaid"} == rules
