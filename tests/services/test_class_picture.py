"""A class's weak spots: counted from its own students alone, with names behind each misconception."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from uuid import UUID

import pytest

from app.services.actor import Actor, Role
from app.services.class_misses import family_misses
from app.services.class_picture import ClassPicture, Period, class_picture
from app.services.drills import DrillWish, get_drill, start_drill
from app.services.errors import Invalid, NotAllowed, NotFound
from app.services.practice import Sent, answer
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.questions.replies import right_answer
from tests.services.people import NOW, SCHOOL_ONE, Cast, cast_of, drawn, make_class, sign_up
from tests.services.tallied import tally

WEAK, STRONG = "compass-to-true", "true-to-compass"
SLOW_MS = 60_000


def answer_all(
    uow: UnitOfWork, actor: Actor, family: str, count: int, misconception: str = "", when: datetime = NOW
) -> None:
    """Answer items of a family: rightly, or all by one misconception where it can be typed."""
    drill_id = start_drill(uow, actor, library(), DrillWish(families=(family,), length=count), 3, when)
    _, places = get_drill(uow, actor, drill_id)
    for number, place in enumerate(places):
        item = drawn(place.family, place.seed, place.form, actor)
        fields = right_answer(item)
        if misconception and misconception in item.solution.wrong:
            value = dict(item.wrong_values())[misconception].value
            at = next((i for i, each in enumerate(item.options) if each.value == value), None)
            fields = {"value": f"{value:03.0f}"} if not item.options else {"choice": str(at)} if at is not None else {}
        if fields:
            lists = {name: [value] for name, value in fields.items()}
            answer(uow, actor, library(), place.id, Sent(lists, SLOW_MS), when + timedelta(minutes=number))


@pytest.fixture
def cast(uow: UnitOfWork) -> Cast:
    return cast_of(uow)


@pytest.fixture
def pupils(uow: UnitOfWork, cast: Cast) -> Sequence[Actor]:
    """Seven students of Ingrid's class: four take the wrong sign, three are right; Bob, of another class, is wrong."""
    names = [f"Pupil{number}" for number in range(1, 7)]
    pupils = [cast.alice, *(sign_up(uow, SCHOOL_ONE, Role.STUDENT, name) for name in names)]
    for number, pupil in enumerate(pupils):
        answer_all(uow, pupil, WEAK, 6, "forward-sign" if number < 4 else "")
        answer_all(uow, pupil, STRONG, 6)
    answer_all(uow, cast.bob, STRONG, 6, "forward-sign")
    return pupils


@pytest.fixture
def evening(uow: UnitOfWork, cast: Cast, pupils: Sequence[Actor]) -> UUID:
    return make_class(uow, "Evening", cast.ingrid, *pupils)


def picture_of(uow: UnitOfWork, actor: Actor, class_id: UUID, period: Period | None = None) -> ClassPicture:
    return class_picture(uow, actor, library(), class_id, period or Period(), NOW)


def test_weakest_comes_first_with_what_is_behind_it(uow: UnitOfWork, cast: Cast, evening: UUID) -> None:
    picture = picture_of(uow, cast.ingrid, evening)
    assert [line.id for line in picture.families] == [WEAK, STRONG]
    weak, strong = (line.spot for line in picture.families)
    assert weak.low < weak.estimate < weak.high
    assert weak.estimate < strong.estimate
    assert (weak.students, strong.students) == (7, 7)
    assert (picture.students, picture.answered) == (7, 7)
    assert [line.id for line in picture.topics] == ["datum"]


def test_misconception_has_its_names(uow: UnitOfWork, cast: Cast, evening: UUID, pupils: Sequence[Actor]) -> None:
    held = {(line.family, line.mistake): line for line in picture_of(uow, cast.ingrid, evening).held}
    line = held[(WEAK, "forward-sign")]
    assert set(line.holders) == {pupil.name for pupil in pupils[:4]}
    assert line.held.students == 7
    assert not line.held.few
    assert "Bob" not in {name for each in held.values() for name in each.holders}


def test_every_student_has_a_row_with_a_cell_a_topic(uow: UnitOfWork, cast: Cast, evening: UUID) -> None:
    picture = picture_of(uow, cast.ingrid, evening)
    assert len(picture.table) == 7
    assert {len(line.cells) for line in picture.table} == {len(library().packs)}
    alice = next(line for line in picture.table if line.name == "Alice")
    assert [cell.answers > 0 for cell in alice.cells] == [pack == "datum" for pack in library().packs]


def test_period_and_trend(uow: UnitOfWork, cast: Cast, evening: UUID, pupils: Sequence[Actor]) -> None:
    later = NOW + timedelta(days=21)
    for pupil in pupils:
        answer_all(uow, pupil, WEAK, 6, when=later)
    spots = class_picture(uow, cast.ingrid, library(), evening, Period(), later).families
    trend = {line.id: line.trend for line in spots}
    assert trend[STRONG] is None
    assert (trend[WEAK] or 0) > 20
    this_week = class_picture(uow, cast.ingrid, library(), evening, Period(weeks=1), later).families
    assert [(line.id, line.spot.answers) for line in this_week] == [(WEAK, 42)]
    with pytest.raises(Invalid, match="latest 5 weeks"):
        picture_of(uow, cast.ingrid, evening, Period(weeks=5))


@pytest.mark.parametrize(
    ("before", "latest", "said"),
    [((9, 3), (40, 30), None), ((20, 10), (10, 7), 0), ((100, 50), (100, 80), 30), ((100, 80), (100, 50), -30)],
)
def test_a_change_is_named_only_where_chance_would_rarely_make_it(
    uow: UnitOfWork, cast: Cast, before: tuple[int, int], latest: tuple[int, int], said: int | None
) -> None:
    day = make_class(uow, "Day", cast.ingrid, cast.alice)
    assert cast.alice.visit_id
    for counted, when in ((before, NOW - timedelta(days=14)), (latest, NOW)):
        tally(uow, SCHOOL_ONE, [cast.alice.visit_id], WEAK, counted, when)
    (line,) = picture_of(uow, cast.ingrid, day).families
    assert line.trend == said
    assert (line.right, line.spot.answers) == (before[1] + latest[1], before[0] + latest[0])


def test_what_is_behind_a_row_is_shown_as_it_was(uow: UnitOfWork, cast: Cast, evening: UUID) -> None:
    view = family_misses(uow, cast.ingrid, library(), evening, WEAK)
    assert view.missed
    assert all(each.given and each.misconceptions and each.question for each in view.missed)
    assert all(each.right and each.right != each.given for each in view.missed)
    first = view.mistakes[0]
    assert (first.misconception, first.students) == ("forward-sign", 4)
    assert first.times == sum(first.name in each.misconceptions for each in view.missed)
    one_mistake = family_misses(uow, cast.ingrid, library(), evening, WEAK, "forward-sign")
    assert 0 < len(one_mistake.missed) <= len(view.missed)
    assert all(one_mistake.misconception in each.misconceptions for each in one_mistake.missed)
    for family, mistake in (("no-such-family", ""), (WEAK, "no-such-mistake")):
        with pytest.raises(NotFound):
            family_misses(uow, cast.ingrid, library(), evening, family, mistake)


def test_empty_class_has_an_empty_picture(uow: UnitOfWork, cast: Cast) -> None:
    picture = picture_of(uow, cast.ingrid, make_class(uow, "New", cast.ingrid, cast.bob))
    assert (picture.students, picture.answered, len(picture.families), len(picture.held)) == (1, 0, 0, 0)


def test_only_who_teaches_it_sees_it(uow: UnitOfWork, cast: Cast, evening: UUID) -> None:
    assert picture_of(uow, cast.selma, evening).students == 7
    with pytest.raises(NotAllowed):
        picture_of(uow, cast.alice, evening)
    with pytest.raises(NotFound):
        picture_of(uow, cast.dora, evening)
