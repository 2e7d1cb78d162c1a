"""Asking and answering. Alice's drill holds four conversions; Bob is another visitor, Charlie is of school Two."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import AbstractContextManager
from dataclasses import replace
from datetime import datetime
from typing import Any
from uuid import UUID, uuid4

import pytest
from sqlalchemy import Engine, select

from app.packs.library import Library
from app.packs.spec import LANGUAGES
from app.questions.model import Item
from app.services.actor import Actor
from app.services.drills import DrillWish, get_drill, start_drill
from app.services.errors import Conflict, Invalid, NotFound
from app.services.practice import LONGEST_MS, Sent, answer, question
from app.services.progress import Mark
from app.services.visits import guest, set_language
from app.storage.base import table_of
from app.storage.models import Attempt
from app.storage.queries.attempts import AttemptRow, find_attempt
from app.storage.unit_of_work import UnitOfWork
from tests.migrations.rows import count_rows
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, charlie, drawn, right, visitor, wrong

Counting = Callable[[], AbstractContextManager[Any]]


@pytest.fixture
def alice(uow: UnitOfWork) -> Actor:
    return visitor(uow)


@pytest.fixture
def drill_id(uow: UnitOfWork, alice: Actor, now: datetime) -> UUID:
    return start_drill(uow, alice, library(), DrillWish(families=CONVERSIONS, length=4), 1, now)


def item_at(uow: UnitOfWork, alice: Actor, drill_id: UUID, position: int) -> tuple[UUID, Item]:
    place = get_drill(uow, alice, drill_id)[1][position - 1]
    return place.id, drawn(place.family, place.seed, place.form, alice)


def kept(uow: UnitOfWork, alice: Actor, item_id: UUID) -> AttemptRow:
    with uow.reader() as connection:
        attempt = find_attempt(connection, alice.school_id, alice.own_visit, item_id)
    assert attempt
    return attempt


def revised(family_id: str) -> Library:
    """The packs after a family's range of numbers has been changed."""
    family = library().families[family_id]
    narrow = family.parameters["deviation_deg"].model_copy(update={"low": 7.0, "high": 8.0})
    changed = family.model_copy(update={"version": 2, "parameters": {**family.parameters, "deviation_deg": narrow}})
    return replace(library(), families={**library().families, family_id: changed})


def without(family_id: str) -> Library:
    return replace(library(), families={k: v for k, v in library().families.items() if k != family_id})


class TestQuestion:
    def test_first_unanswered_item_comes_by_itself(
        self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime
    ) -> None:
        assert question(uow, alice, library(), drill_id, now).progress.position == 1
        item_id, item = item_at(uow, alice, drill_id, 1)
        answer(uow, alice, library(), item_id, right(item), now)
        view = question(uow, alice, library(), drill_id, now)
        assert (view.progress.position, view.answered, view.progress.next_position) == (2, False, 2)
        marks = list(view.progress.marks)
        assert marks == [Mark.KEY, Mark.HERE, Mark.TO_COME, Mark.TO_COME]

    def test_answered_item_says_so_and_keeps_its_mark(
        self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime
    ) -> None:
        item_id, item = item_at(uow, alice, drill_id, 2)
        answer(uow, alice, library(), item_id, wrong(item), now)
        view = question(uow, alice, library(), drill_id, now, 2)
        assert view.answered
        assert (view.progress.marks[1], view.progress.position) == (Mark.MISSED, 2)

    def test_finished_drill_shows_its_last_item(
        self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime
    ) -> None:
        for position in range(1, 5):
            item_id, item = item_at(uow, alice, drill_id, position)
            answer(uow, alice, library(), item_id, right(item), now)
        view = question(uow, alice, library(), drill_id, now)
        assert (view.progress.position, view.answered, view.progress.finished) == (4, True, True)

    def test_item_is_the_one_the_engine_draws(
        self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime
    ) -> None:
        _, item = item_at(uow, alice, drill_id, 3)
        view = question(uow, alice, library(), drill_id, now, 3).item
        assert (view.family, view.topic, view.place) == (item.family, item.pack, "Otterlea")
        assert view.worded.form == item.form
        assert len(view.worded.options) == len(item.options)

    def test_switching_language_keeps_item_and_numbers(
        self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime
    ) -> None:
        english = question(uow, alice, library(), drill_id, now, 1)
        french = question(uow, set_language(uow, alice, "fr"), library(), drill_id, now, 1)
        assert french.item_id == english.item_id
        assert french.item.stamp == english.item.stamp
        assert french.item.worded.question != english.item.worded.question
        assert french.item.worded.figure_calls == english.item.worded.figure_calls

    def test_looking_writes_nothing(
        self, uow: UnitOfWork, engine: Engine, alice: Actor, drill_id: UUID, count_queries: Counting, now: datetime
    ) -> None:
        before = count_rows(engine)
        with count_queries() as counted:
            question(uow, alice, library(), drill_id, now)
        assert (len(counted.queries), counted.commits) == (2, 0)
        assert count_rows(engine) == before

    @pytest.mark.parametrize("position", [5, -1, 10**9])
    def test_position_outside_the_drill_is_not_found(
        self, uow: UnitOfWork, alice: Actor, drill_id: UUID, position: int, now: datetime
    ) -> None:
        with pytest.raises(NotFound):
            question(uow, alice, library(), drill_id, now, position)

    def test_strangers_find_nothing(self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime) -> None:
        item_id, item = item_at(uow, alice, drill_id, 1)
        for stranger in (visitor(uow), charlie(uow), guest("en", now)):
            with pytest.raises(NotFound):
                question(uow, stranger, library(), drill_id, now)
            with pytest.raises(NotFound):
                answer(uow, stranger, library(), item_id, right(item), now)
        with pytest.raises(NotFound):
            question(uow, alice, library(), uuid4(), now)

    def test_withdrawn_question_is_said(self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime) -> None:
        _, item = item_at(uow, alice, drill_id, 1)
        with pytest.raises(Conflict, match="no longer offered"):
            question(uow, alice, without(item.family), drill_id, now, 1)


class TestAnswer:
    def test_right_answer_counts(self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime) -> None:
        item_id, item = item_at(uow, alice, drill_id, 1)
        outcome = answer(uow, alice, library(), item_id, right(item), now)
        assert (outcome.drill_id, outcome.item_id, outcome.position) == (drill_id, item_id, 1)
        assert (outcome.correct, outcome.counted) == (True, True)

    @pytest.mark.parametrize("position", [1, 2, 3, 4])
    def test_everything_about_it_is_kept(
        self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime, position: int
    ) -> None:
        item_id, item = item_at(uow, alice, drill_id, position)
        sent = replace(wrong(item), took_ms=8400)
        answer(uow, alice, library(), item_id, sent, now)
        attempt = kept(uow, alice, item_id)
        assert (attempt.family, attempt.family_version, attempt.pack, attempt.pack_version) == (
            (item.family, item.version, item.pack, item.pack_version)
        )
        assert (attempt.seed, attempt.form, attempt.ask) == (item.seed, item.form, item.ask)
        assert attempt.parameters == dict(item.parameters)
        assert attempt.conventions == alice.conventions.as_json()
        assert (attempt.correct, attempt.share, attempt.took_ms, attempt.answered_at) == (False, 0.0, 8400, now)
        assert attempt.first_misconception == attempt.misconceptions[0]
        assert attempt.first_misconception in dict(item.wrong_values())

    def test_what_was_shown_is_kept_in_its_language(
        self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime
    ) -> None:
        reader = set_language(uow, alice, "fr")
        view = question(uow, reader, library(), drill_id, now, 1)
        item_id, item = item_at(uow, alice, drill_id, 1)
        answer(uow, reader, library(), item_id, right(item), now)
        shown = kept(uow, alice, item_id).shown
        assert shown["question"] == view.item.worded.question
        assert [option["text"] for option in shown["options"]] == [o.text for o in view.item.worded.options]
        assert [figure["name"] for figure in shown["figures"]] == [c.name for c in view.item.worded.figure_calls]
        assert shown["stamp"] == view.item.stamp
        assert "<svg" not in str(shown)

    @pytest.mark.parametrize("second", [right, wrong])
    def test_second_answer_gets_the_first_verdict_and_does_not_count(
        self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime, second: Callable[[Item], Sent]
    ) -> None:
        item_id, item = item_at(uow, alice, drill_id, 1)
        answer(uow, alice, library(), item_id, wrong(item), now)
        before = kept(uow, alice, item_id)
        outcome = answer(uow, alice, library(), item_id, second(item), now)
        assert (outcome.correct, outcome.counted) == (False, False)
        assert kept(uow, alice, item_id) == before

    def test_answer_takes_five_statements_and_one_commit(
        self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime, count_queries: Counting
    ) -> None:
        """With the visit that the web looks up first that is six, all that is allowed; the very first takes 7."""
        item_id, item = item_at(uow, alice, drill_id, 2)
        answer(uow, alice, library(), item_id, right(item), now)
        item_id, item = item_at(uow, alice, drill_id, 1)
        with count_queries() as counted:
            answer(uow, alice, library(), item_id, right(item), now)
        assert (len(counted.queries), counted.commits) == (5, 1)

    @pytest.mark.parametrize("text", ["361", "-5", "abc", "36O", "", "9" * 10_000_000])
    def test_unreadable_reply_is_named_and_nothing_kept(
        self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime, text: str
    ) -> None:
        position = next(p for p in (1, 2) if item_at(uow, alice, drill_id, p)[1].form == "typed")
        item_id, item = item_at(uow, alice, drill_id, position)
        for language in LANGUAGES:
            with pytest.raises(Invalid) as caught:
                answer(uow, replace(alice, language=language), library(), item_id, Sent({"value": [text]}), now)
            assert caught.value.field == "value"
            assert len(caught.value.message) < 200
        assert answer(uow, alice, library(), item_id, right(item), now).counted

    def test_other_numbers_than_were_shown_do_not_count(
        self, uow: UnitOfWork, engine: Engine, alice: Actor, drill_id: UUID, now: datetime
    ) -> None:
        view = question(uow, alice, library(), drill_id, now, 1)
        item_id, item = item_at(uow, alice, drill_id, 1)
        sent = Sent({**right(item).fields, "stamp": [view.item.stamp]})
        later = revised(item.family)
        assert question(uow, alice, later, drill_id, now, 1).item.stamp != view.item.stamp
        with pytest.raises(Conflict, match="has been revised"):
            answer(uow, alice, later, item_id, sent, now)
        assert count_rows(engine)["attempt"] == 0
        assert answer(uow, alice, library(), item_id, sent, now).counted

    def test_forged_stamp_does_not_count(self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime) -> None:
        item_id, item = item_at(uow, alice, drill_id, 1)
        with pytest.raises(Conflict):
            answer(uow, alice, library(), item_id, Sent({**right(item).fields, "stamp": ["0" * 16]}), now)

    def test_answer_to_the_revised_question_keeps_its_version(
        self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime
    ) -> None:
        item_id, item = item_at(uow, alice, drill_id, 1)
        later = revised(item.family)
        stamp = question(uow, alice, later, drill_id, now, 1).item.stamp
        sent = Sent({"choice": ["0"], "value": ["045"], "stamp": [stamp]})
        answer(uow, alice, later, item_id, sent, now)
        assert kept(uow, alice, item_id).family_version == 2

    @pytest.mark.parametrize(
        ("given", "expected"), [(0, 0), (LONGEST_MS, LONGEST_MS), (-1, None), (LONGEST_MS + 1, None), (None, None)]
    )
    def test_time_that_cannot_be_is_left_out(
        self, uow: UnitOfWork, alice: Actor, drill_id: UUID, now: datetime, given: int | None, expected: int | None
    ) -> None:
        item_id, item = item_at(uow, alice, drill_id, 1)
        answer(uow, alice, library(), item_id, replace(right(item), took_ms=given), now)
        assert kept(uow, alice, item_id).took_ms == expected

    def test_same_answer_from_eight_threads_counts_once(
        self, uow: UnitOfWork, engine: Engine, alice: Actor, drill_id: UUID, now: datetime
    ) -> None:
        for position in range(1, 5):
            item_id, item = item_at(uow, alice, drill_id, position)
            sent = [right(item) if turn % 2 else wrong(item) for turn in range(8)]
            with ThreadPoolExecutor(8) as threads:
                outcomes = list(threads.map(lambda s, i=item_id: answer(uow, alice, library(), i, s, now), sent))
            counted = [outcome for outcome in outcomes if outcome.counted]
            assert len(counted) == 1
            assert {outcome.correct for outcome in outcomes} == {counted[0].correct}
            assert kept(uow, alice, item_id).correct == counted[0].correct
        assert count_rows(engine)["attempt"] == 4

    def test_many_people_at_once_lose_nothing(self, uow: UnitOfWork, now: datetime) -> None:
        def practise(seed: int) -> int:
            bob = visitor(uow)
            drill = start_drill(uow, bob, library(), DrillWish(families=CONVERSIONS, length=4), seed, now)
            places = get_drill(uow, bob, drill)[1]
            sent = [(place.id, right(drawn(place.family, place.seed, place.form, bob))) for place in places]
            return sum(answer(uow, bob, library(), item_id, each, now).counted for item_id, each in sent)

        with ThreadPoolExecutor(8) as threads:
            assert list(threads.map(practise, range(16))) == [4] * 16
        with uow.reader() as connection:
            rows = connection.execute(select(table_of(Attempt).c.correct)).scalars().all()
        assert rows == [True] * 64
