"""Which items a drill holds. The packs are the real ones; what must hold does not depend on what they contain."""

from collections import Counter
from dataclasses import replace
from datetime import date
from itertools import islice, pairwise

import pytest

from app.packs.library import Library
from app.questions.model import Item, NotOffered, Redraw, Solution
from app.questions.solvers import registry
from app.services.adaptive import OPEN_FORMS
from app.services.homes import HomeWish, conventions_for
from app.services.items import find_item
from app.services.mix import Suits, choose_items
from tests.questions.engine import home, library
from tests.services.people import CONVERSIONS

SEEDS = range(1, 11)


def chosen(seed: int, count: int = 10, families: tuple[str, ...] = ()) -> list[Item]:
    wanted = families or tuple(library().families)
    return list(islice(choose_items(library(), wanted, home(), seed), count))


@pytest.mark.parametrize("seed", SEEDS)
def test_no_family_comes_twice_in_a_row(seed: int) -> None:
    assert all(a.family != b.family for a, b in pairwise(chosen(seed, 25)))


def test_same_seed_gives_the_same_items_and_another_seed_others() -> None:
    print_of = [[(i.family, i.seed, i.form, dict(i.parameters)) for i in chosen(seed)] for seed in (1, 1, 2)]
    assert print_of[0] == print_of[1] != print_of[2]


def test_a_shorter_drill_is_the_beginning_of_a_longer_one() -> None:
    """The front page draws one item only, and must show the one the drill begins with."""
    assert [(i.family, i.seed, i.form) for i in chosen(3, 1)] == [(i.family, i.seed, i.form) for i in chosen(3)[:1]]


@pytest.mark.parametrize("seed", SEEDS)
def test_first_item_is_an_easy_one_with_options(seed: int) -> None:
    first = chosen(seed, 1)[0]
    assert library().family(first.family).grade == "easy"
    assert first.form == "choice"


@pytest.mark.parametrize("seed", SEEDS)
def test_every_offered_family_comes_before_one_comes_again(seed: int) -> None:
    families = {item.family for item in chosen(seed, 100)}
    assert {item.family for item in chosen(seed, len(families))} == families


@pytest.mark.parametrize("seed", SEEDS)
def test_forms_are_mixed_where_families_allow(seed: int) -> None:
    forms = Counter(item.form for item in chosen(seed, 10, CONVERSIONS))
    assert forms == {"choice": 5, "typed": 5}


def test_topics_are_spread() -> None:
    """Over any stretch of a deck a topic has its share, give or take one item."""
    deck = chosen(5, len({item.family for item in chosen(5, 100)}))
    sizes = Counter(item.pack for item in deck)
    half = Counter(item.pack for item in deck[: len(deck) // 2])
    assert all(abs(half[topic] - size / 2) <= 1.5 for topic, size in sizes.items())


def test_one_family_alone_repeats_with_fresh_numbers() -> None:
    items = chosen(1, 5, ("true-to-compass",))
    assert [item.family for item in items] == ["true-to-compass"] * 5
    assert len({item.seed for item in items}) == 5


def test_a_hand_written_question_comes_once() -> None:
    written = tuple(name for name, family in library().families.items() if family.solver == "fixed")
    assert sorted(item.family for item in chosen(1, 50, written)) == sorted(written)
    beside = Counter(item.family for item in chosen(1, 20, (*CONVERSIONS, written[0])))
    assert beside[written[0]] == 1
    assert beside.total() == 20


def test_family_named_twice_counts_once() -> None:
    items = chosen(1, 4, ("true-to-compass", "compass-to-true", "true-to-compass"))
    assert Counter(item.family for item in items) == {"true-to-compass": 2, "compass-to-true": 2}


@pytest.fixture(params=[NotOffered("", "not-offered-beyond-rules"), Redraw("no fair question")], ids=["place", "draw"])
def refusing(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> Library:
    """The packs with one family whose solver never makes a question."""

    def refuse(*_: object) -> Solution:
        raise request.param

    monkeypatch.setitem(registry._SOLVERS, "refuse", refuse)
    families = dict(library().families)
    families["true-to-compass"] = families["true-to-compass"].model_copy(update={"solver": "refuse"})
    return replace(library(), families=families)


def test_what_is_not_offered_here_is_left_out(refusing: Library) -> None:
    items = list(islice(choose_items(refusing, CONVERSIONS, home(), 1), 4))
    assert [item.family for item in items] == ["compass-to-true"] * 4


def test_nothing_offered_gives_no_items(refusing: Library) -> None:
    assert list(choose_items(refusing, ("true-to-compass",), home(), 1)) == []


def test_kept_item_that_is_not_offered_any_more_is_not_found(refusing: Library) -> None:
    item = next(choose_items(library(), ("true-to-compass",), home(), 1))
    assert find_item(refusing, item, home().as_json()) is None
    assert find_item(library(), item, home().as_json()) == item


def test_weak_field_leaves_enough_to_practise() -> None:
    weak = conventions_for(HomeWish(date(2026, 9, 1), place_id="lastcairn"), "en")
    items = list(islice(choose_items(library(), tuple(library().families), weak, 1), 25))
    assert len(items) == 25
    assert {item.conventions for item in items} == {weak}


def test_no_families_give_no_items() -> None:
    assert list(choose_items(library(), (), home(), 1)) == []


def test_misconception_is_found_in_whatever_wanted_form_can_show_it() -> None:
    wish = Suits(OPEN_FORMS, "altimeter-mirrored")  # its family sorts, too, which never shows it
    found = islice(choose_items(library(), ("pitot-static-blockage",), home(), 5, wish), 3)
    assert [item.form for item in found] == ["typed"] * 3
