"""Filling in the texts of packs."""

import pytest

from app.packs.templates import FILTERS as ALLOWED
from app.questions.filling import FILTERS, fill

WORDS = {"east": "Osier", "right": "droite", "left": "gauche", "north-east": "nord-est"}


def filled(source: str, **values: object) -> str:
    return fill(source, "fr", values, lambda code: WORDS[str(code)])


@pytest.mark.parametrize(
    ("source", "value", "expected"),
    [
        ("{{ a }}", 2.5, "2.5"),
        ("{{ a | exact }} kt", 2.5, "2,5 kt"),
        ("{{a|heading}}/{{ a | heading }}", 7, "007/007"),
        ("{{ a | word }}.", "east", "Osier."),
        ("{{ a | lr }}", -1, "gauche"),
        ("{{ a | point }}", 44.0, "nord-est"),
        ("nothing\n", 0, "nothing\n"),
    ],
)
def test_value_passes_its_filters(source: str, value: object, expected: str) -> None:
    assert filled(source, a=value) == expected


def test_name_without_a_value_is_an_error() -> None:
    with pytest.raises(KeyError, match="b"):
        filled("{{ a }} {{ b }}", a=1)


def test_value_is_not_read_as_a_text() -> None:
    assert filled("{{ a }}", a="{{ b }}") == "{{ b }}"


def test_packs_may_use_exactly_the_filters_there_are() -> None:
    assert set(FILTERS) == ALLOWED
