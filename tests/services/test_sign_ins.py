from datetime import timedelta

import pytest

from app.services.actor import Role
from app.services.sign_ins import IDLE, LONGEST, close_sign_in, find_sign_in, open_sign_in
from app.services.visits import find_visit, guest, open_visit
from app.storage.queries import people
from app.storage.queries.people import LoginTaken
from app.storage.unit_of_work import UnitOfWork
from tests.services.people import NOW, SCHOOL_ONE, cast_of, sign_up


def test_signed_in_person_is_who_they_are(uow: UnitOfWork) -> None:
    alice = cast_of(uow).alice
    assert (alice.role, alice.name, alice.school_id, alice.time_zone) == (
        Role.STUDENT,
        "Alice",
        SCHOOL_ONE,
        "America/Toronto",
    )
    with uow.reader() as connection:
        kept = people.find_person(connection, SCHOOL_ONE, alice.own_person)
    assert kept is not None
    assert (kept.visit_id, kept.seen_at) == (alice.visit_id, NOW)


@pytest.mark.parametrize(("after", "holds"), [(IDLE - timedelta(seconds=1), True), (IDLE, False)])
def test_sign_in_ends_when_idle(uow: UnitOfWork, after: timedelta, holds: bool) -> None:  # noqa: FBT001 - a table
    alice = cast_of(uow).alice
    token = open_sign_in(uow, alice.school_id, alice.own_person, "a phone", NOW)
    assert (find_sign_in(uow, token, NOW + after) is not None) is holds


def test_sign_in_ends_in_the_end_however_much_it_is_used(uow: UnitOfWork) -> None:
    alice = cast_of(uow).alice
    token = open_sign_in(uow, alice.school_id, alice.own_person, "a phone", NOW)
    days = (LONGEST // timedelta(days=1)) - 1
    assert all(find_sign_in(uow, token, NOW + timedelta(days=day)) for day in range(0, days, 7))
    assert find_sign_in(uow, token, NOW + LONGEST) is None


def test_closed_sign_in_is_worthless_and_others_stay(uow: UnitOfWork) -> None:
    alice = cast_of(uow).alice
    one, other = (open_sign_in(uow, alice.school_id, alice.own_person, "a phone", NOW) for _ in range(2))
    close_sign_in(uow, one, NOW)
    assert find_sign_in(uow, one, NOW) is None
    assert find_sign_in(uow, other, NOW) == alice


def test_visit_token_signs_nobody_in_and_a_sign_in_is_no_visit(uow: UnitOfWork) -> None:
    alice = cast_of(uow).alice
    visit = open_visit(uow, guest("en", NOW), NOW).token
    token = open_sign_in(uow, alice.school_id, alice.own_person, "a phone", NOW)
    assert visit
    assert find_sign_in(uow, visit, NOW) is None
    assert find_visit(uow, token, NOW) is None


def test_login_is_unique_in_its_school_and_free_in_another(uow: UnitOfWork) -> None:
    cast = cast_of(uow)
    with pytest.raises(LoginTaken):
        sign_up(uow, SCHOOL_ONE, Role.STUDENT, "Alice")
    assert sign_up(uow, cast.charlie.school_id, Role.STUDENT, "Alice").name == "Alice"
