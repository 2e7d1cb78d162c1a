"""Verdicts and summaries of Alice's drill of four conversions."""

from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import replace
from datetime import datetime
from typing import Any
from uuid import UUID, uuid4

import pytest
from sqlalchemy import update

from app.services.actor import Actor
from app.services.drills import DrillWish, get_drill, start_drill
from app.services.errors import Conflict, NotFound
from app.services.practice import Sent, answer
from app.services.progress import Mark
from app.services.review import SummaryView, VerdictView, summary, verdict
from app.services.visits import guest
from app.storage.base import table_of
from app.storage.models import Attempt
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, NOW, charlie, drawn, right, visitor, wrong

Counting = Callable[[], AbstractContextManager[Any]]


class Drill:
    """Alice with a drill of four conversions."""

    def __init__(self, uow: UnitOfWork, now: datetime) -> None:
        self.uow, self.now = uow, now
        self.alice = visitor(uow)
        self.id = start_drill(uow, self.alice, library(), DrillWish(families=CONVERSIONS, length=4), 1, now)
        self.places = get_drill(uow, self.alice, self.id)[1]

    def answer(self, position: int, how: Callable[..., Sent]) -> UUID:
        place = self.places[position - 1]
        item = drawn(place.family, place.seed, place.form, self.alice)
        return answer(self.uow, self.alice, library(), place.id, how(item), self.now).item_id

    def verdict(self, item_id: UUID, actor: Actor | None = None) -> VerdictView:
        return verdict(self.uow, actor or self.alice, library(), item_id, NOW)

    def summary(self, actor: Actor | None = None) -> SummaryView:
        return summary(self.uow, actor or self.alice, library(), self.id, NOW)


@pytest.fixture
def drill(uow: UnitOfWork, now: datetime) -> Drill:
    return Drill(uow, now)


def unmatched(item: Any) -> Sent:
    """An answer that no misconception explains."""
    taken = {item.key, *(wrong.value for _, wrong in item.wrong_values())}
    return Sent({"value": [f"{next(h for h in range(1, 361) if h not in taken):03d}"]})


class TestVerdict:
    def test_wrong_answer_is_explained(self, drill: Drill) -> None:
        view = drill.verdict(drill.answer(1, wrong))
        assert (view.correct, view.share) == (False, 0.0)
        assert view.explained
        assert view.explained.explanation.findings[0].remedy
        assert view.explained.explanation.working
        assert view.progress.marks[0] == Mark.MISSED
        assert (view.progress.position, view.progress.next_position) == (1, 2)

    def test_right_answer_is_explained_too(self, drill: Drill) -> None:
        view = drill.verdict(drill.answer(2, right))
        assert view.explained
        assert (view.correct, view.explained.explanation.correct) == (True, True)
        assert view.explained.explanation.findings == ()
        assert view.progress.marks[1] == Mark.KEY

    def test_answer_that_matches_nothing_says_so(self, drill: Drill) -> None:
        position = next(place.position for place in drill.places if place.form == "typed")
        view = drill.verdict(drill.answer(position, unmatched))
        assert view.explained
        assert view.explained.explanation.unmatched

    def test_language_can_change_afterwards(self, drill: Drill) -> None:
        item_id = drill.answer(1, wrong)
        english, french = drill.verdict(item_id), drill.verdict(item_id, replace(drill.alice, language="fr"))
        assert english.explained
        assert french.explained
        assert english.explained.item.stamp == french.explained.item.stamp
        assert english.explained.explanation.headline != french.explained.explanation.headline
        assert english.shown == french.shown

    def test_strangers_and_guests_find_nothing(self, drill: Drill, uow: UnitOfWork, now: datetime) -> None:
        item_id = drill.answer(1, wrong)
        for stranger in (visitor(uow), charlie(uow), guest("en", now)):
            with pytest.raises(NotFound):
                drill.verdict(item_id, stranger)
        with pytest.raises(NotFound):
            drill.verdict(uuid4())

    def test_item_without_an_answer_tells_nothing(self, drill: Drill) -> None:
        with pytest.raises(Conflict, match="no answer yet"):
            drill.verdict(drill.places[0].id)

    def test_revised_question_shows_what_was_kept(self, drill: Drill) -> None:
        item_id = drill.answer(1, wrong)
        families = dict(library().families)
        del families[drill.places[0].family]
        view = verdict(drill.uow, drill.alice, replace(library(), families=families), item_id, NOW)
        assert view.explained is None
        assert view.shown["question"]
        assert view.correct is False

    def test_verdict_that_no_longer_holds_is_not_explained(self, drill: Drill) -> None:
        """A corrected key: the numbers are the same, but today's grader disagrees with what was kept."""
        item_id = drill.answer(1, wrong)
        with drill.uow.writer() as connection:
            connection.execute(update(table_of(Attempt)).values(correct=True))
        view = drill.verdict(item_id)
        assert (view.correct, view.explained) == (True, None)

    def test_looking_takes_two_statements_and_writes_nothing(self, drill: Drill, count_queries: Counting) -> None:
        item_id = drill.answer(1, wrong)
        with count_queries() as counted:
            drill.verdict(item_id)
        assert (len(counted.queries), counted.commits) == (2, 0)


class TestSummary:
    def test_counts_and_marks(self, drill: Drill) -> None:
        for position, how in ((1, wrong), (2, right), (3, wrong)):
            drill.answer(position, how)
        view = drill.summary()
        assert (view.right, view.answered, view.length) == (1, 3, 4)
        assert [item.mark for item in view.items] == [Mark.MISSED, Mark.KEY, Mark.MISSED, Mark.TO_COME]
        assert [(tally.topic, tally.right, tally.answered) for tally in view.topics] == [("datum", 1, 3)]
        assert view.missed == tuple(dict.fromkeys((drill.places[0].family, drill.places[2].family)))
        assert not view.progress.finished

    def test_misconceptions_are_counted_with_their_remedies(self, drill: Drill) -> None:
        drill.answer(1, wrong)
        met = drill.summary().misconceptions
        assert met
        assert {tally.family for tally in met} == {drill.places[0].family}
        for tally in met:
            spec = library().family(tally.family).misconception(tally.id)
            assert (tally.name, tally.count) == (spec.name.en, 1)
            assert tally.remedy

    def test_same_misconception_twice_is_one_line(self, drill: Drill) -> None:
        first = drill.answer(1, wrong)
        with drill.uow.writer() as connection:
            connection.execute(update(table_of(Attempt)).values(misconceptions=["v-sign"]))
        drill.answer(3, wrong)
        with drill.uow.writer() as connection:
            connection.execute(update(table_of(Attempt)).values(misconceptions=["v-sign"]))
        assert first == drill.places[0].id
        counts = {(tally.family, tally.id): tally.count for tally in drill.summary().misconceptions}
        same_family = drill.places[0].family == drill.places[2].family
        assert sorted(counts.values()) == ([2] if same_family else [1, 1])

    def test_empty_drill_has_an_empty_summary(self, drill: Drill) -> None:
        view = drill.summary()
        assert (view.right, view.answered, view.topics, view.misconceptions, view.missed) == (0, 0, (), (), ())
        assert {item.mark for item in view.items} == {Mark.TO_COME}

    def test_both_languages_tell_the_same(self, drill: Drill) -> None:
        drill.answer(1, wrong)
        english, french = drill.summary(), drill.summary(replace(drill.alice, language="fr"))
        assert [item.mark for item in english.items] == [item.mark for item in french.items]
        assert english.topics[0].title != french.topics[0].title
        assert english.misconceptions[0].remedy != french.misconceptions[0].remedy

    def test_withdrawn_family_goes_by_its_id(self, drill: Drill) -> None:
        drill.answer(1, wrong)
        family = drill.places[0].family
        families = {name: spec for name, spec in library().families.items() if name != family}
        packs = {name: pack for name, pack in library().packs.items() if name != "datum"}
        view = summary(drill.uow, drill.alice, replace(library(), families=families, packs=packs), drill.id, NOW)
        assert view.items[0].family_title == family
        assert view.topics[0].title == "datum"
        assert (view.misconceptions, view.missed) == ((), ())

    def test_strangers_find_nothing(self, drill: Drill, uow: UnitOfWork, now: datetime) -> None:
        for stranger in (visitor(uow), charlie(uow), guest("en", now)):
            with pytest.raises(NotFound):
                drill.summary(stranger)

    def test_looking_takes_three_statements_and_writes_nothing(self, drill: Drill, count_queries: Counting) -> None:
        drill.answer(1, wrong)
        with count_queries() as counted:
            drill.summary()
        assert (len(counted.queries), counted.commits) == (3, 0)
