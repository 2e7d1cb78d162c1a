"""The same places with other numbers: for each student, for another attempt, for another version of a sheet."""

from collections.abc import Sequence
from random import Random

from app.packs.library import Library
from app.questions.conventions import Conventions
from app.questions.draw import NoDraw, draw
from app.questions.model import Item, NotOffered
from app.services.items import find_item
from app.services.mix import LARGEST_SEED
from app.services.set_wishes import SetWish, suits
from app.storage.queries.topic_sets import SetItemRow

MOST_DRAWS = 60


def vary(library: Library, item: Item, wish: SetWish, salt: str, unlike: Sequence[Item] = ()) -> Item:
    """Return the item's family and answer form with other numbers, as this salt says, the same every time.

    As far as the family can, its key is not that of the items it must be unlike: a hand-written question has one key.
    """
    rng = Random(f"{item.seed} {salt}")
    wanted = suits(wish)
    keys = {str(each.key) for each in unlike}
    last = item
    for _ in range(MOST_DRAWS):
        try:
            drawn = draw(library, item.family, int(rng.random() * LARGEST_SEED), item.conventions, item.form)
        except (NotOffered, NoDraw):
            continue
        if wanted.takes(drawn):
            last = drawn
            if str(drawn.key) not in keys:
                break
    return last


def own_numbers(
    library: Library, items: Sequence[SetItemRow], wish: SetWish, conventions: Conventions, salt: str
) -> tuple[SetItemRow, ...]:
    """Return the places with the numbers of this salt; one the packs no longer draw stays as it is."""
    varied = []
    for place in items:
        item = find_item(library, place, conventions.as_json())
        varied.append(place._replace(seed=vary(library, item, wish, salt, (item,)).seed) if item else place)
    return tuple(varied)
