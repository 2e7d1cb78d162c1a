"""A set made from a weak spot: for those behind it, with fresh numbers, and what has become of it."""

from collections.abc import Sequence
from datetime import timedelta
from uuid import UUID

import pytest

from app.services.actor import Actor
from app.services.class_picture import Period
from app.services.errors import Invalid, NotAllowed, NotFound
from app.services.rechecks import Spot, find_recheck, list_class_rechecks, make_recheck, spot_view
from app.services.retention import erase_person
from app.services.topic_sets import get_set
from app.storage.queries import retention
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import NOW, Cast, make_class
from tests.services.test_class_picture import STRONG, WEAK, answer_all, cast, evening, pupils

__all__ = ["cast", "evening", "pupils"]

SIGN = Spot(WEAK, "forward-sign")
MADE, LATER = NOW + timedelta(days=1), NOW + timedelta(days=3)


def make(uow: UnitOfWork, actor: Actor, class_id: UUID, spot: Spot, count: int = 6) -> UUID:
    return make_recheck(uow, actor, library(), (class_id, spot, "Signs again", count), 11, MADE)


def test_is_for_those_who_carry_it_and_holds_the_figures_of_the_day(
    uow: UnitOfWork, cast: Cast, evening: UUID, pupils: Sequence[Actor]
) -> None:
    view = spot_view(uow, cast.ingrid, library(), evening, SIGN, MADE)
    assert set(view.people.values()) == {pupil.name for pupil in pupils[:4]}
    assert (view.students, view.now.students) == (7, 4)
    assert view.now.few
    set_id = make(uow, cast.ingrid, evening, SIGN)
    made = get_set(uow, cast.ingrid, library(), set_id)
    assert {row.family for row, _ in made.places} == {WEAK}
    assert all("forward-sign" in dict(item.wrong_values()) for _, item in made.places if item)
    kept = find_recheck(uow, cast.ingrid, library(), set_id)
    assert kept is not None
    assert (kept.all_before, kept.after, kept.verdict) == (view.now, None, "too-few")
    assert set(kept.people) == set(view.people)


def test_before_and_after_are_of_those_who_answered_again(
    uow: UnitOfWork, cast: Cast, evening: UUID, pupils: Sequence[Actor]
) -> None:
    for pupil in pupils[4:]:
        answer_all(uow, pupil, WEAK, 12, "forward-sign", NOW + timedelta(hours=5))
    set_id = make(uow, cast.ingrid, evening, SIGN)
    for pupil in pupils[1:]:
        answer_all(uow, pupil, WEAK, 12, when=LATER)
    view = find_recheck(uow, cast.ingrid, library(), set_id)
    assert view is not None
    assert view.before is not None
    assert view.after is not None
    assert (view.before.students, view.after.students, view.after.answers) == (6, 6, 72)
    assert view.after.estimate < 0.1
    assert view.before.estimate > 0.8
    assert view.verdict == "lower"
    assert view.waiting == (pupils[0].name,)
    assert (set(view.held), view.holds) == ({pupil.name for pupil in pupils[1:]}, ())


def test_same_mistake_again_shows_no_change(
    uow: UnitOfWork, cast: Cast, evening: UUID, pupils: Sequence[Actor]
) -> None:
    set_id = make(uow, cast.ingrid, evening, SIGN)
    for pupil in pupils[:4]:
        answer_all(uow, pupil, WEAK, 6, "forward-sign", when=LATER)
    view = find_recheck(uow, cast.ingrid, library(), set_id)
    assert view is not None
    assert view.verdict == "open"
    assert len(view.holds) == 4


def test_a_kind_of_question_counts_what_was_right(
    uow: UnitOfWork, cast: Cast, evening: UUID, pupils: Sequence[Actor]
) -> None:
    for pupil in pupils[4:]:
        answer_all(uow, pupil, WEAK, 12, "forward-sign", NOW + timedelta(hours=5))
    set_id = make(uow, cast.ingrid, evening, Spot(WEAK, period=Period(weeks=4)))
    for pupil in pupils:
        answer_all(uow, pupil, WEAK, 12, when=LATER)
    (view,) = list_class_rechecks(uow, cast.ingrid, library(), evening)
    assert view.row.topic_set_id == set_id
    assert view.before is not None
    assert view.after is not None
    assert (view.before.students, view.after.students) == (7, 7)
    assert view.before.estimate < view.after.estimate == 1
    assert view.verdict == "higher"
    assert not view.held


def test_other_kinds_of_questions_say_nothing(
    uow: UnitOfWork, cast: Cast, evening: UUID, pupils: Sequence[Actor]
) -> None:
    make(uow, cast.ingrid, evening, SIGN)
    for pupil in pupils:
        answer_all(uow, pupil, STRONG, 6, when=LATER)
    (view,) = list_class_rechecks(uow, cast.ingrid, library(), evening)
    assert view.after is None


def test_who_is_erased_leaves_both_sides(uow: UnitOfWork, cast: Cast, evening: UUID, pupils: Sequence[Actor]) -> None:
    set_id = make(uow, cast.ingrid, evening, SIGN)
    erase_person(uow, cast.selma, pupils[1].own_person, pupils[1].name.lower(), LATER)
    view = find_recheck(uow, cast.ingrid, library(), set_id)
    assert view is not None
    assert pupils[1].name not in view.waiting
    assert view.all_before.students == 3


def test_goes_with_the_answers_it_tells_of(uow: UnitOfWork, cast: Cast, evening: UUID) -> None:
    set_id = make(uow, cast.ingrid, evening, SIGN)
    with uow.writer() as connection:
        retention.remove(connection, cast.ingrid.school_id, "answers", LATER, LATER)
    assert find_recheck(uow, cast.ingrid, library(), set_id) is None
    assert get_set(uow, cast.ingrid, library(), set_id).places


def test_what_cannot_be_is_refused(uow: UnitOfWork, cast: Cast, evening: UUID) -> None:
    other = make_class(uow, "New", cast.ingrid)
    with pytest.raises(Invalid, match="Nobody is behind"):
        make(uow, cast.ingrid, other, SIGN)
    with pytest.raises(Invalid, match="latest 5 weeks"):
        make(uow, cast.ingrid, evening, Spot(WEAK, period=Period(weeks=5)))
    with pytest.raises(Invalid, match="0 questions"):
        make(uow, cast.ingrid, evening, SIGN, 0)
    for spot in (Spot("no-such-family"), Spot(WEAK, "no-such-mistake")):
        with pytest.raises(NotFound):
            make(uow, cast.ingrid, evening, spot)


def test_only_who_teaches_the_class(uow: UnitOfWork, cast: Cast, evening: UUID) -> None:
    with pytest.raises(NotAllowed):
        make(uow, cast.alice, evening, SIGN)
    with pytest.raises(NotFound):
        make(uow, cast.dora, evening, SIGN)
    set_id = make(uow, cast.selma, evening, SIGN)
    assert find_recheck(uow, cast.dora, library(), set_id) is None
    assert find_recheck(uow, cast.alice, library(), set_id) is None
