"""Keys as whoever teaches reads them: in the order and with the numbers of the printed sheet."""

import pytest

from app.questions.draw import draw
from app.questions.wording import word_item
from app.services.keyed_items import keyed_item
from tests.questions.engine import home, library


@pytest.mark.parametrize(("family", "form"), [("northern-airspace-reference", "groups"), ("term-match", "match")])
def test_a_sort_is_marked_line_by_line_with_the_numbers_of_its_groups(family: str, form: str) -> None:
    drawn = (draw(library(), family, seed, home(), form) for seed in range(1, 50))  # type: ignore[arg-type]
    item = next(each for each in drawn if list(each.key) != [option.value for option in each.options])
    worded = word_item(library(), item, "en")
    groups = [code for code, _ in worded.groups]
    expected = []
    for shown, option in zip(worded.options, item.options, strict=True):
        number = groups.index(item.key[option.value])
        expected.append(f"{shown.text} → {number + 1} = {worded.groups[number][1]}")
    assert keyed_item(library(), item, 1, "en").key == tuple(expected)
