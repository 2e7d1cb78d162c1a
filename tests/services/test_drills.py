from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any
from uuid import uuid4

import pytest

from app.packs.library import Library
from app.services.drills import (
    LENGTH,
    DrillWish,
    drill_again,
    find_open_drill,
    get_drill,
    list_topics,
    start_drill,
)
from app.services.errors import Conflict, Invalid, NotFound
from app.services.homes import HomeWish
from app.services.practice import answer
from app.services.visits import guest, set_home
from app.storage.queries.drills import MOST_PLACES
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, charlie, drawn, right, visitor, wrong

Counting = Callable[[], AbstractContextManager[Any]]
TWO_FAMILIES = DrillWish(families=CONVERSIONS, length=4)


def test_topics_are_listed_in_both_languages() -> None:
    english, french = list_topics(library(), "en"), list_topics(library(), "fr")
    assert [topic.id for topic in english] == list(library().packs)
    assert all(e.title != f.title and e.families > 0 for e, f in zip(english, french, strict=True))


def test_drill_keeps_what_its_items_are_drawn_from(uow: UnitOfWork, now: datetime) -> None:
    alice = visitor(uow)
    drill, places = get_drill(uow, alice, start_drill(uow, alice, library(), DrillWish(), 7, now))
    assert (drill.topic, drill.seed, drill.started_at) == (None, 7, now)
    assert drill.conventions == alice.conventions.as_json()
    assert [place.position for place in places] == list(range(1, 11))
    for place in places:
        item = drawn(place.family, place.seed, place.form, alice)
        assert (item.version, item.pack, item.pack_version) == (place.family_version, place.pack, place.pack_version)
        assert place.correct is None


def test_same_seed_chooses_the_same_items_for_two_people(uow: UnitOfWork, now: datetime) -> None:
    alice, bob = visitor(uow), visitor(uow)
    kept = [get_drill(uow, who, start_drill(uow, who, library(), DrillWish(), 7, now))[1] for who in (alice, bob)]
    assert [(p.family, p.seed, p.form) for p in kept[0]] == [(p.family, p.seed, p.form) for p in kept[1]]


def test_topic_keeps_to_itself(uow: UnitOfWork, now: datetime) -> None:
    alice = visitor(uow)
    drill_id = start_drill(uow, alice, library(), DrillWish(topic="datum", length=12), 1, now)
    drill, places = get_drill(uow, alice, drill_id)
    assert drill.topic == "datum"
    assert {place.pack for place in places} == {"datum"}


@pytest.mark.parametrize("length", [0, -1, MOST_PLACES + 1, 10**9])
def test_length_out_of_range_is_named(uow: UnitOfWork, now: datetime, length: int) -> None:
    with pytest.raises(Invalid) as caught:
        start_drill(uow, visitor(uow), library(), DrillWish(length=length), 1, now)
    assert caught.value.field == "length"
    assert f"{length} questions; it has from 1 to 50" in caught.value.message


@pytest.mark.parametrize("wish", [DrillWish(topic="astrology"), DrillWish(families=("true-to-compass", "tea-leaves"))])
def test_unknown_topic_or_family_is_not_found(uow: UnitOfWork, now: datetime, wish: DrillWish) -> None:
    with pytest.raises(NotFound):
        start_drill(uow, visitor(uow), library(), wish, 1, now)


def test_nothing_offered_is_said(uow: UnitOfWork, now: datetime) -> None:
    bare = Library({}, {}, library().shared, {})
    with pytest.raises(Conflict, match="None of these questions is offered at Otterlea"):
        start_drill(uow, visitor(uow), bare, DrillWish(), 1, now)


def test_guest_has_no_drills(uow: UnitOfWork, now: datetime) -> None:
    with pytest.raises(NotFound):
        start_drill(uow, guest("en", now), library(), DrillWish(), 1, now)
    with pytest.raises(NotFound):
        get_drill(uow, guest("en", now), uuid4())
    assert find_open_drill(uow, guest("en", now), now) is None


def test_drill_of_somebody_else_is_not_found(uow: UnitOfWork, now: datetime) -> None:
    alice, bob = visitor(uow), visitor(uow)
    drill_id = start_drill(uow, alice, library(), TWO_FAMILIES, 1, now)
    in_school_two = replace(alice, school_id=charlie(uow).school_id)
    for stranger in (bob, charlie_of(uow), in_school_two):
        with pytest.raises(NotFound):
            get_drill(uow, stranger, drill_id)
        with pytest.raises(NotFound):
            drill_again(uow, stranger, library(), drill_id, 1, now)


def charlie_of(uow: UnitOfWork) -> Any:
    return replace(visitor(uow), visit_id=uuid4())


def test_starting_takes_one_commit(uow: UnitOfWork, now: datetime, count_queries: Counting) -> None:
    alice = visitor(uow)
    with count_queries() as counted:
        start_drill(uow, alice, library(), DrillWish(), 1, now)
    assert (len(counted.queries), counted.commits) == (2 + LENGTH, 1)  # what the school has withdrawn, drill, items


def test_moving_home_leaves_a_started_drill_alone(uow: UnitOfWork, now: datetime) -> None:
    alice = visitor(uow)
    before = start_drill(uow, alice, library(), TWO_FAMILIES, 1, now)
    moved = set_home(uow, alice, HomeWish(date(2026, 9, 1), place_id="tussockdown"), now).actor
    after = start_drill(uow, moved, library(), TWO_FAMILIES, 1, now)
    assert get_drill(uow, moved, before)[0].conventions == alice.conventions.as_json()
    assert get_drill(uow, moved, after)[0].conventions == moved.conventions.as_json()


def test_missed_families_come_again_with_fresh_numbers(uow: UnitOfWork, now: datetime) -> None:
    alice = visitor(uow)
    drill_id = start_drill(uow, alice, library(), TWO_FAMILIES, 1, now)
    _, places = get_drill(uow, alice, drill_id)
    for place in places:
        item = drawn(place.family, place.seed, place.form, alice)
        sent = wrong(item) if place.family == "compass-to-true" else right(item)
        answer(uow, alice, library(), place.id, sent, now)
    _, again = get_drill(uow, alice, drill_again(uow, alice, library(), drill_id, 2, now))
    assert {place.family for place in again} == {"compass-to-true"}
    assert len(again) == 3
    assert not {place.seed for place in again} & {place.seed for place in places}


def test_nothing_missed_leaves_nothing_to_repeat(uow: UnitOfWork, now: datetime) -> None:
    alice = visitor(uow)
    drill_id = start_drill(uow, alice, library(), TWO_FAMILIES, 1, now)
    with pytest.raises(Conflict, match="nothing to drill again"):
        drill_again(uow, alice, library(), drill_id, 2, now)


def test_latest_open_drill_is_found_until_it_is_finished(uow: UnitOfWork, now: datetime) -> None:
    alice = visitor(uow)
    assert find_open_drill(uow, alice, now) is None
    first = start_drill(uow, alice, library(), replace(TWO_FAMILIES, length=1), 1, now)
    second = start_drill(uow, alice, library(), replace(TWO_FAMILIES, length=1), 2, now + timedelta(minutes=1))
    assert find_open_drill(uow, alice, now) == second
    assert find_open_drill(uow, visitor(uow), now) is None
    place = get_drill(uow, alice, second)[1][0]
    answer(uow, alice, library(), place.id, right(drawn(place.family, place.seed, place.form, alice)), now)
    assert find_open_drill(uow, alice, now) == first
