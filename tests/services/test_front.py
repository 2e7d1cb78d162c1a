"""The front page's question: looking leaves no trace, answering starts the drill it is the first of."""

from collections.abc import Callable
from contextlib import AbstractContextManager
from datetime import datetime
from typing import Any

import pytest
from sqlalchemy import Engine

from app.packs.library import Library
from app.questions.model import Item
from app.services.drills import LENGTH, get_drill
from app.services.errors import Conflict, Invalid
from app.services.front import FACES, answer_front, front_item
from app.services.mix import choose_items
from app.services.practice import Sent, question
from app.services.visits import find_visit, guest
from app.storage.unit_of_work import UnitOfWork
from tests.migrations.rows import count_rows
from tests.questions.engine import library
from tests.services.people import visitor

Counting = Callable[[], AbstractContextManager[Any]]
SEED = 7


def front(now: datetime, seed: int = SEED) -> Item:
    with_face = [each for each in library().families if FACES & set(library().family(each).figures)]
    return next(choose_items(library(), with_face, guest("en", now).conventions, seed))


def chosen(now: datetime, *, correct: bool) -> Sent:
    position = next(i for i, option in enumerate(front(now).options) if option.correct == correct)
    stamp = front_item(library(), guest("en", now), SEED).stamp
    return Sent({"choice": [str(position)], "stamp": [stamp]})


def test_it_begins_with_a_compass_most_often(now: datetime) -> None:
    views = [front_item(library(), guest("en", now), seed) for seed in range(20)]
    assert len({view.worded.stem for view in views}) > 10
    assert sum(any(call.name in FACES for call in view.worded.figure_calls) for view in views) > 12


def test_looking_leaves_no_trace(now: datetime, count_queries: Counting) -> None:
    with count_queries() as counted:
        views = [front_item(library(), guest(language, now), SEED) for language in ("en", "fr")]
    assert views[0].stamp == views[1].stamp
    assert views[0].worded.form == "choice"
    assert counted.statements == []


def test_answering_opens_a_visit_and_starts_the_drill(uow: UnitOfWork, now: datetime) -> None:
    outcome = answer_front(uow, guest("en", now), library(), SEED, chosen(now, correct=True), now)
    assert outcome.visit.token
    assert find_visit(uow, outcome.visit.token, now) == outcome.visit.actor
    assert (outcome.answer.position, outcome.answer.correct, outcome.answer.counted) == (1, True, True)
    _, places = get_drill(uow, outcome.visit.actor, outcome.answer.drill_id)
    assert len(places) == LENGTH
    assert (places[0].family, places[0].seed) == (front(now).family, front(now).seed)
    assert question(uow, outcome.visit.actor, library(), outcome.answer.drill_id, now).progress.position == 2


def test_sent_twice_it_is_the_same_drill_and_the_first_answer(uow: UnitOfWork, engine: Engine, now: datetime) -> None:
    alice = visitor(uow)
    first = answer_front(uow, alice, library(), SEED, chosen(now, correct=False), now)
    second = answer_front(uow, alice, library(), SEED, chosen(now, correct=True), now)
    assert first.visit.token is None
    assert second.answer.item_id == first.answer.item_id
    assert (second.answer.correct, second.answer.counted) == (False, False)
    counts = count_rows(engine)
    assert (counts["drill"], counts["attempt"]) == (1, 1)


def test_two_people_with_one_seed_have_their_own_drills(uow: UnitOfWork, now: datetime) -> None:
    drills = {
        answer_front(uow, visitor(uow), library(), SEED, chosen(now, correct=True), now).answer.drill_id
        for _ in range(2)
    }
    assert len(drills) == 2


@pytest.mark.parametrize("choice", ["", "9", "x", "-1"])
def test_unreadable_answer_leaves_no_trace(uow: UnitOfWork, engine: Engine, now: datetime, choice: str) -> None:
    with pytest.raises(Invalid):
        answer_front(uow, guest("en", now), library(), SEED, Sent({"choice": [choice]}), now)
    assert set(count_rows(engine).values()) == {0, 1}
    assert count_rows(engine)["visit"] == 0


def test_other_numbers_than_were_shown_leave_no_trace(uow: UnitOfWork, engine: Engine, now: datetime) -> None:
    with pytest.raises(Conflict):
        answer_front(uow, guest("en", now), library(), SEED, Sent({"choice": ["0"], "stamp": ["f" * 16]}), now)
    assert count_rows(engine)["visit"] == 0


def test_packs_with_nothing_to_ask_are_said(now: datetime) -> None:
    with pytest.raises(Conflict):
        front_item(Library({}, {}, library().shared, {}), guest("en", now), SEED)
