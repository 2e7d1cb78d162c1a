"""Where the key stands tells nothing, whichever thing is asked: the places of each ask are even."""

from collections import Counter

import pytest

from app.questions.checks.batch import LEAST_CHI_SQUARE_P, chi_square_tail
from app.questions.draw import draw
from tests.questions.engine import home, library

DRAWS = 1200


@pytest.mark.parametrize(
    ("family", "ask"),
    [("dip-from-latitude", "dip"), ("dip-from-latitude", "share"), ("slip-ball-and-turn-needle", "degrees")],
)
def test_each_ask_has_its_key_at_every_place_alike(family: str, ask: str) -> None:
    """Kept by holding what is asked: else an ask whose key is mostly small turns up when a low place is wanted."""
    items = [draw(library(), family, seed, home(), "choice") for seed in range(1, DRAWS + 1)]
    asked = [item for item in items if item.ask == ask]
    places = Counter(next(i for i, option in enumerate(item.options) if option.correct) for item in asked)
    expected = len(asked) / 4
    assert expected > 20
    chi_square = sum((places[place] - expected) ** 2 / expected for place in range(4))
    assert chi_square_tail(chi_square, 3) > LEAST_CHI_SQUARE_P, places
