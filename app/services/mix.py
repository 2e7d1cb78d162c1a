"""Chooses the items of a drill: topics and answer forms mixed, no family twice in a row, the same for the same seed."""

from collections import Counter
from collections.abc import Iterator, Sequence
from random import Random
from typing import NamedTuple

from app.packs.fixed import SOLVER as FIXED
from app.packs.library import Library
from app.packs.spec import Family, Form
from app.questions.conventions import Conventions
from app.questions.draw import NoDraw, draw, offered_forms
from app.questions.model import Item, NotOffered

LARGEST_SEED = 2**31
TRIES = 40


class Suits(NamedTuple):
    """What items must be like: of these answer forms (empty: any), with this misconception among the wrong answers.

    tries: how many are drawn before the family is taken to have none.
    """

    forms: frozenset[str] = frozenset()
    misconception: str = ""
    tries: int = TRIES

    def forms_of(self, family: Family) -> Sequence[Form]:
        """Return the family's answer forms that are wanted."""
        return [form for form in offered_forms(family) if not self.forms or form in self.forms]

    def takes(self, item: Item) -> bool:
        """Whether an item is one of those wanted: a misconception must be one that an answer to it can show."""
        return not self.misconception or self.misconception in item.misconceptions


ANYTHING = Suits()


def choose_items(
    library: Library, families: Sequence[str], conventions: Conventions, seed: int, wanted: Suits = ANYTHING
) -> Iterator[Item]:
    """Yield items of these families without end, or until none of them is offered under these conventions.

    The first is an easy one with options, where there is one. Every family comes up before one comes up again; a
    hand-written question, which is the same each time, comes up once.
    """
    rng = Random(seed)
    offered = list(dict.fromkeys(families))
    used: Counter[Form] = Counter()
    last = ""
    first = True
    while offered:
        for family_id in _deck(library, offered, last, rng, easy_first=first):
            item = _draw(library, library.family(family_id), conventions, _Wanted(wanted, used), rng)
            if item is None:
                offered.remove(family_id)
                continue
            first = False
            last = family_id
            used[item.form] += 1
            if library.family(family_id).solver == FIXED:
                offered.remove(family_id)
            yield item


def _deck(library: Library, families: Sequence[str], last: str, rng: Random, *, easy_first: bool) -> list[str]:
    """Return the families once each: every topic is spread evenly from one end to the other."""
    deck = []
    for topic in dict.fromkeys(library.family(each).topic for each in families):
        members = sorted((each for each in families if library.family(each).topic == topic), key=lambda _: rng.random())
        start = rng.random()
        deck += [((place + start) / len(members), family_id) for place, family_id in enumerate(members)]
    order = [family_id for _, family_id in sorted(deck)]
    opener = next((each for each in order if _is_opener(library.family(each))), None) if easy_first else None
    if opener:
        order.remove(opener)
        order.insert(0, opener)
    elif order[0] == last:
        order.append(order.pop(0))
    return order


def _is_opener(family: Family) -> bool:
    return family.grade == "easy" and "choice" in offered_forms(family)


def _draw(library: Library, family: Family, conventions: Conventions, wanted: "_Wanted", rng: Random) -> Item | None:
    """Return a suiting item in the answer form the drill has least of; None where the family makes none."""
    used = wanted.used.copy()
    for _ in range(wanted.suits.tries):
        seed = int(rng.random() * LARGEST_SEED)
        item = _draw_once(library, family, conventions, _Wanted(wanted.suits, used), seed)
        if item is None or wanted.suits.takes(item):
            return item
        used[item.form] += 1  # it does not suit: the next one is drawn in another form
    return None


def _draw_once(library: Library, family: Family, conventions: Conventions, wanted: "_Wanted", seed: int) -> Item | None:
    forms = sorted(wanted.suits.forms_of(family), key=lambda form: (wanted.used[form], form != "choice"))
    for form in forms:
        try:
            return draw(library, family.id, seed, conventions, form)
        except NotOffered:
            return None
        except NoDraw:
            continue
    return None


class _Wanted(NamedTuple):
    suits: Suits
    used: Counter[Form]
