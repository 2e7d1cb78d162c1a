"""Answers are counted as they come; counting them again from the attempts gives the same."""

from datetime import date, timedelta

from sqlalchemy import delete, select

from app.services.actor import Actor
from app.services.drills import DrillWish, get_drill, start_drill
from app.services.practice import Sent, answer
from app.storage.base import table_of
from app.storage.models import WeekTally
from app.storage.queries.tallies import count_again, week_of
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, NOW, drawn, right, visitor, wrong

TALLY = table_of(WeekTally)


def practise(uow: UnitOfWork, actor: Actor) -> None:
    """Answer six conversions, every second one wrong, three days apart; the first one twice."""
    drill_id = start_drill(uow, actor, library(), DrillWish(families=CONVERSIONS, length=6), 7, NOW)
    _, places = get_drill(uow, actor, drill_id)
    for number, place in enumerate(places):
        item = drawn(place.family, place.seed, place.form, actor)
        sent = (wrong if number % 2 else right)(item)
        when = NOW + timedelta(days=3 * number)
        answer(uow, actor, library(), place.id, Sent(sent.fields, took_ms=1000 if number else None), when)
        answer(uow, actor, library(), place.id, sent, when)


def tallies(uow: UnitOfWork) -> list[tuple[object, ...]]:
    columns = (TALLY.c.family, TALLY.c.week, TALLY.c.answers, TALLY.c.correct, TALLY.c.timed, TALLY.c.took_ms)
    with uow.reader() as connection:
        return [tuple(row) for row in connection.execute(select(*columns).order_by(TALLY.c.week, TALLY.c.family))]


def test_every_answer_counts_once_in_its_week(uow: UnitOfWork) -> None:
    practise(uow, visitor(uow))
    found = tallies(uow)
    assert sum(row[2] for row in found) == 6  # type: ignore[misc] # numbers
    assert sum(row[3] for row in found) == 3  # type: ignore[misc] # numbers
    assert (sum(row[4] for row in found), sum(row[5] for row in found)) == (5, 5000)  # type: ignore[misc] # numbers
    assert {row[1] for row in found} == {date(2026, 8, 31), date(2026, 9, 7), date(2026, 9, 14)}


def test_counting_again_gives_the_same(uow: UnitOfWork) -> None:
    alice, other = visitor(uow), visitor(uow)
    practise(uow, alice)
    practise(uow, other)
    before = tallies(uow)
    with uow.writer() as connection:
        connection.execute(delete(TALLY).where(TALLY.c.visit_id == alice.visit_id))
        count_again(connection, alice.school_id, alice.own_visit, NOW)
    assert tallies(uow) == before


def test_weeks_begin_on_monday() -> None:
    assert {week_of(NOW + timedelta(days=n)) for n in range(-1, 6)} == {date(2026, 8, 31)}
    assert week_of(NOW + timedelta(days=6)) == date(2026, 9, 7)
