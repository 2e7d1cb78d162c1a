"""How good the questions are: counted once a night, read from what was counted."""

from datetime import datetime, timedelta
from uuid import UUID

import numpy as np
import pytest
from sqlalchemy import select

from app.insight.item_quality import RestSums, rest_correlation
from app.services.actor import Actor
from app.services.drills import DrillWish, get_drill, start_drill
from app.services.errors import NotFound
from app.services.practice import Sent, answer
from app.services.quality import family_quality, list_quality
from app.services.quality_count import count_all, count_school
from app.services.sittings import start_sitting
from app.services.topic_sets import SetSettings
from app.storage.base import table_of
from app.storage.models import Attempt, FamilyQuality
from app.storage.queries import quality
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, NOW, Cast, cast_of, drawn, make_class, right, wrong
from tests.services.sitting import assigned, sit

FAMILY = CONVERSIONS[0]
NIGHT = NOW + timedelta(days=60)
ATTEMPT = table_of(Attempt)


@pytest.fixture
def cast(uow: UnitOfWork) -> Cast:
    return cast_of(uow)


def practise(
    uow: UnitOfWork, actor: Actor, marks: str, families: tuple[str, ...] = CONVERSIONS, start: datetime = NOW
) -> None:
    """Answer as the marks say: + right, - by a misconception, o typed ten degrees beside the key where one types."""
    drill_id = start_drill(uow, actor, library(), DrillWish(families=families, length=len(marks)), 5, start)
    _, places = get_drill(uow, actor, drill_id)
    for number, (mark, place) in enumerate(zip(marks, places, strict=True)):
        item = drawn(place.family, place.seed, place.form, actor)
        sent = right(item) if mark == "+" else wrong(item)
        if mark == "o" and item.form == "typed":
            sent = Sent({"value": [f"{(item.key + 100) % 360 or 360:03.0f}"]})
        when = start + timedelta(minutes=number)
        answer(uow, actor, library(), place.id, Sent(sent.fields, took_ms=1000 * (number + 2)), when)


def kept(uow: UnitOfWork, actor: Actor, family: str = FAMILY) -> FamilyQuality:
    with uow.reader() as connection:
        row = quality.find_quality(connection, actor.school_id, family)
    assert row is not None
    return row


def raw(uow: UnitOfWork, school_id: UUID) -> list[tuple[UUID, str, bool]]:
    with uow.reader() as connection:
        columns = (ATTEMPT.c.visit_id, ATTEMPT.c.family, ATTEMPT.c.correct)
        return [tuple(row) for row in connection.execute(select(*columns).where(ATTEMPT.c.school_id == school_id))]


def test_correlation_from_tallies_is_that_of_every_answer(uow: UnitOfWork, cast: Cast) -> None:
    for actor, marks in ((cast.alice, "+++-++-+++"), (cast.bob, "---+-+----"), (cast.ingrid, "+-+-++--+-")):
        practise(uow, actor, marks)
    count_all(uow, library(), NIGHT)
    answers = raw(uow, cast.alice.school_id)
    for family in CONVERSIONS:
        x, r = [], []
        for visit, _, correct in (each for each in answers if each[1] == family):
            rest = [each[2] for each in answers if each[0] == visit and each[1] != family]
            x.append(correct)
            r.append(sum(rest) / len(rest))
        row = kept(uow, cast.alice, family)
        sums = RestSums(row.rest_answers, row.rest_correct, row.rest_sum, row.rest_squares, row.rest_products)
        assert rest_correlation(sums) == pytest.approx(np.corrcoef(x, r)[0, 1], abs=1e-9)
        assert (row.answers, row.correct) == (len(x), sum(x))


def test_counting_night_by_night_is_counting_at_once(uow: UnitOfWork, cast: Cast) -> None:
    practise(uow, cast.alice, "+o-o+o-o")
    assert count_school(uow, library(), cast.alice.school_id, NIGHT) == 8
    assert count_school(uow, library(), cast.alice.school_id, NIGHT) == 0
    practise(uow, cast.bob, "-o-o+o-+", start=NOW + timedelta(days=1))
    assert count_school(uow, library(), cast.alice.school_id, NIGHT) == 8
    by_night = [kept(uow, cast.alice, family) for family in CONVERSIONS]
    with uow.writer() as connection:
        for table in (quality.QUALITY, quality.RUN):
            connection.execute(table.delete())
    assert count_all(uow, library(), NIGHT) == 16
    assert [kept(uow, cast.alice, family) for family in CONVERSIONS] == by_night
    assert [sum(row.times.values()) for row in by_night] == [row.answers for row in by_night] == [8, 8]
    assert {gap for row in by_night for gap in row.unmatched} == {"+100"}
    assert any(row.chosen for row in by_night)


def test_answer_on_its_way_waits_for_the_next_count(uow: UnitOfWork, cast: Cast) -> None:
    practise(uow, cast.alice, "+")
    assert count_school(uow, library(), cast.alice.school_id, NOW + timedelta(minutes=1)) == 0
    assert count_school(uow, library(), cast.alice.school_id, NIGHT) == 1


def test_page_lists_the_worst_first_and_judges_nothing_under_thirty(uow: UnitOfWork, cast: Cast) -> None:
    practise(uow, cast.alice, "-" * 40, (FAMILY,))
    practise(uow, cast.alice, "+" * 20, (CONVERSIONS[1],))
    assert list_quality(uow, cast.ingrid, library()).counted_at is None
    count_all(uow, library(), NIGHT)
    found = list_quality(uow, cast.ingrid, library())
    assert [(line.family, line.judged) for line in found.lines] == [(FAMILY, True), (CONVERSIONS[1], False)]
    assert "too-hard" in found.lines[0].quality.flags
    assert found.lines[1].quality.flags == ()
    assert found.lines[0].median_s is not None
    assert [line.quality.rest for line in found.lines] == [None, None]
    assert list_quality(uow, cast.ingrid, library(), "wind").lines == []


def test_another_school_counts_for_itself(uow: UnitOfWork, cast: Cast) -> None:
    practise(uow, cast.alice, "+-")
    count_all(uow, library(), NIGHT)
    assert list_quality(uow, cast.dora, library()).lines == []
    assert family_quality(uow, cast.dora, library(), FAMILY).line is None
    with pytest.raises(NotFound):
        family_quality(uow, cast.dora, library(), "no-such-family")


def test_set_with_the_same_numbers_has_its_reliability(uow: UnitOfWork, cast: Cast) -> None:
    class_id = make_class(uow, "Evening", cast.ingrid, cast.alice, cast.bob)
    assignment = assigned(uow, cast.ingrid, SetSettings(title="Turns"), class_id)
    for student, marks in ((cast.alice, "+++-"), (cast.bob, "---+")):
        sit(uow, student, start_sitting(uow, student, library(), assignment, NOW), marks, NOW)
    count_all(uow, library(), NIGHT)
    (found,) = list_quality(uow, cast.selma, library()).sets
    assert (found.title, found.row.students, len(found.row.items)) == ("Turns", 2, 4)
    # Two people, totals 3 and 1: item variances 4 x .5, of totals 2, so 4/3 (1 - 2/2) = 0.
    assert found.row.reliability == pytest.approx(0)
    assert not found.judged  # of two students nothing is shown
    assert [item["share"] for item in found.row.items] == [0.5] * 4
