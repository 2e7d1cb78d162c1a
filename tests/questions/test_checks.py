"""Checks over a batch of draws: a family that repeats itself is warned of, unless it says why it must; sums add up."""

from dataclasses import replace
from typing import Any

from app.packs.library import Library
from app.questions.checks.findings import Findings
from app.questions.checks.item import check_item
from app.questions.checks.run import FamilyReport, check_family
from app.questions.draw import draw
from tests.questions.engine import home, library

ID = "true-to-compass"
NARROW = {"true_deg": {"choices": [100]}, "variation_deg": {"choices": [12]}, "deviation_deg": {"choices": [3]}}


def changed(**fields: Any) -> Library:
    """Return the packs with one family changed."""
    packs = library()
    family = packs.family(ID)
    narrow = type(family).model_validate(family.model_dump() | fields)
    return replace(packs, families={**packs.families, ID: narrow})


def report(packs: Library) -> FamilyReport:
    return check_family(packs, ID, [home(-35.3, 149.2, "au")], 60)


def rules(packs: Library) -> set[str]:
    return {issue.rule for issue in report(packs).issues}


def test_a_family_that_repeats_itself_is_warned_of_or_says_why() -> None:
    few = {"parameters": library().family(ID).model_dump()["parameters"] | NARROW}
    assert "few-distinct" in rules(changed(**few))
    declared = report(changed(**few, few="One heading is all there is."))
    assert "few-distinct" not in {issue.rule for issue in declared.issues}
    assert declared.few == "One heading is all there is."


def test_a_sum_that_misses_is_an_error() -> None:
    working = {name: line.model_dump() for name, line in library().family(ID).working.items()}
    spoilt = {name: line | {"sum": "1 + 1 = 3"} for name, line in working.items()}
    assert "sum-off" not in rules(library())
    assert "sum-off" in rules(changed(working=spoilt))


def test_a_wrong_option_with_nothing_behind_it_is_an_error() -> None:
    item = draw(library(), "accel-indication", 1, home())
    nameless = replace(item, options=tuple(replace(option, misconceptions=()) for option in item.options))
    for each, found in ((item, False), (nameless, True)):
        findings = Findings("some/family.toml")
        check_item(library(), each, lambda: item, findings)
        assert findings.has("option-unnamed") is found


def test_a_misconception_that_no_answer_can_show_is_warned_of() -> None:
    known = [each.model_dump() for each in library().family(ID).misconceptions]
    spared = report(changed(misconceptions=[*known, known[0] | {"id": "spare"}]))
    assert [issue.what for issue in spared.issues if "misconception" in issue.what] == [
        "misconception 'spare' could be shown by none of 60 draws"
    ]
    slips_alone = check_family(library(), "hemisphere-flip", [home()], 60).issues
    assert not any("'variation-flips'" in issue.what for issue in slips_alone)


def test_an_item_shows_the_misconceptions_of_its_options_or_all_that_typing_can_meet() -> None:
    offered, typed = (draw(library(), ID, 1, home(), form) for form in ("choice", "typed"))
    assert typed.misconceptions == set(typed.solution.wrong)
    assert offered.misconceptions == {name for option in offered.options for name in option.misconceptions}
    assert offered.misconceptions < set(offered.solution.wrong)
