"""A visitor's drills, copied into an account: same items and verdicts, keys of their own, counted once."""

from uuid import UUID

from app.services import learning
from app.services.actor import Actor
from app.services.drills import DrillWish, start_drill
from app.services.practice import answer, question
from app.services.review import summary
from app.services.taking_along import take_along
from app.storage.queries import drills
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, NOW, cast_of, drawn, right, visitor, wrong


def practise(uow: UnitOfWork, actor: Actor) -> UUID:
    """Start a drill of three and answer two: one wrong, one right."""
    drill_id = start_drill(uow, actor, library(), DrillWish(families=CONVERSIONS, length=3), 5, NOW)
    for number in range(2):
        view = question(uow, actor, library(), drill_id, NOW)
        with uow.reader() as connection:
            place = drills.list_places(connection, actor.school_id, drill_id)[number]
        item = drawn(place.family, place.seed, place.form, actor)
        answer(uow, actor, library(), view.item_id, right(item) if number else wrong(item), NOW)
    return drill_id


def test_drills_and_answers_come_along_once(uow: UnitOfWork) -> None:
    alice, guest = cast_of(uow).alice, visitor(uow)
    old = practise(uow, guest)
    assert take_along(uow, guest, alice, NOW) == 2
    with uow.reader() as connection:
        found = drills.find_latest_open(connection, alice.school_id, alice.own_visit, NOW)
    assert found is not None
    assert found != old
    view, before = summary(uow, alice, library(), found, NOW), summary(uow, guest, library(), old, NOW)
    assert view.progress.drill_id == found
    assert (view.right, view.answered, view.length) == (before.right, before.answered, before.length) == (1, 2, 3)
    assert view.misconceptions == before.misconceptions


def test_tallies_and_learner_follow(uow: UnitOfWork) -> None:
    alice, guest = cast_of(uow).alice, visitor(uow)
    practise(uow, guest)
    take_along(uow, guest, alice, NOW)
    with uow.reader() as connection:
        theirs = learning.find_state(connection, guest.school_id, guest.own_visit)
        hers = learning.find_state(connection, alice.school_id, alice.own_visit)
    assert hers.skills == theirs.skills


def test_only_a_visitor_has_something_to_take(uow: UnitOfWork) -> None:
    cast = cast_of(uow)
    assert take_along(uow, cast.bob, cast.alice, NOW) == 0
