"""Worked examples of the reference page, against values worked by hand from the rule beside each."""

import re

import pytest

from app.services.reference import get_reference
from app.services.reference_examples import EXAMPLES

# By hand: M = 75 + 13, C = 88 - 2; -30 + 10 x 9 = 60 minutes; tan(reading) = -tan 70 sin 15; latitude 45 and lead 8;
# 60 x 20 / 100 and half of it; 60 x 45 / 90 and 45 x 1.609344 / 1.852; 80 - 12 and 80 - 6; 300 + 100 - 360.
# Sum 8 over 8, (5 + 3) / 2, (3 - 1) / 2, (4 - 2 - 3 + 3) / 4, (3 + 1 - 5 + 3) / 4, and 1 + 2 + .87 + .43 + .25;
# arctan 2 = 63.4 and its cosine .447; arctan 2 sqrt 3 = 73.9, .277; 187.5 - 45 and 32 x 25 / 60; 4500 less .40 x 1000,
# 14 x 30 and 14 x 27; 29.92 x 33.8639; 18000 + .70 x 1000.
# 90 / 3; 15.04 sin 45 / 4; 20 sin 60 / 100 = 9.97 degrees; 60 x 3 / 30 and 60 x 3 / 45; 4000 + 120 (30 - 7.08).
BY_HAND = {
    "conversion": {"magnetic": "088", "compass": "086"},
    "card": {"between": "5°\u00a0W", "steer": "080"},
    "annual_change": {"now": "1°\u00a000′\u00a0E"},
    "turning": {"north": "325", "south": "035"},
    "speed_change": {"north": "075", "south": "105"},
    "roll_out": {"n_right": "307", "n_left": "053", "far_right": "217", "far_left": "143", "s_right": "127",
                 "s_left": "233", "s_far_right": "037", "s_far_left": "323"},
    "rate_one": {"seconds": "30", "exact": "15.4", "percent": "15", "tenth": "17"},
    "gyro": {"north": "2.7", "south": "2.7"},
    "wind": {"heading": "080", "gs": "88", "home": "280", "cross": "17", "head": "10"},
    "quick_drift": {"most": "12", "drift": "6"},
    "time": {"minutes": "30", "miles": "39.1"},
    "doubled": {"regain": "068", "keep": "074"},
    "bearing": {"to": "040", "back": "220"},
    "one_in_sixty": {"error": "6", "closing": "4", "change": "10"},
    "cruising": {"magnetic": "188", "runway": "18"},
    "coefficients": {"a": "+1.0", "b": "+4.0", "c": "+1.0", "d": "+0.5", "e": "+0.5", "between": "+4.5"},
    "dip": {"dip": "63°", "share": "45", "steep": "74°", "weak": "28"},
    "fuel": {"endurance": "142", "leg": "13.3"},
    "settings": {"inches": "4100", "at_thirty": "4080", "at_27": "4122", "standard_hpa": "1013.2"},
    "transition": {"pressure": "18\u202f700", "level": "700"},
    "air": {"da_rule": "6750", "tas_rule": "108"},
}  # fmt: skip


@pytest.mark.parametrize("name", EXAMPLES)
def test_examples_agree_with_values_worked_by_hand(name: str) -> None:
    values = EXAMPLES[name]("en")
    assert {each: values[each] for each in BY_HAND[name]} == BY_HAND[name]


def test_both_languages_say_the_same_numbers() -> None:
    for english, french in zip(get_reference("en"), get_reference("fr"), strict=True):
        for ours, theirs in zip(english.rules, french.rules, strict=True):
            numbers = [re.findall(r"\d+", each.example.replace(",", ".")) for each in (ours, theirs)]
            assert sorted(numbers[0]) == sorted(numbers[1]), ours.example
            assert len(ours.formulas) == len(theirs.formulas)
            assert ours.source
            assert theirs.source
