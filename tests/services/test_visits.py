from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import select

from app.services.actor import Role
from app.services.errors import Invalid, NotFound
from app.services.homes import HomeWish
from app.services.visits import (
    IDLE,
    LONGEST,
    TOUCH_EVERY,
    close_visit,
    find_visit,
    guest,
    open_visit,
    set_home,
    set_language,
)
from app.storage.base import table_of
from app.storage.models import VISITORS_SCHOOL_ID, Visit
from app.storage.unit_of_work import UnitOfWork
from tests.services.people import charlie

Counting = Callable[[], AbstractContextManager[Any]]


def opened(uow: UnitOfWork, now: datetime) -> str:
    token = open_visit(uow, guest("en", now), now).token
    assert token
    return token


def test_guest_is_a_visitor_at_the_default_home_to_whom_nothing_belongs(now: datetime) -> None:
    actor = guest("fr", now)
    assert (actor.role, actor.school_id, actor.language) == (Role.VISITOR, VISITORS_SCHOOL_ID, "fr")
    assert actor.conventions.region == "ca-south"
    assert not actor.conventions.beyond_rules
    with pytest.raises(NotFound):
        _ = actor.own_visit


def test_token_finds_its_visit(uow: UnitOfWork, now: datetime) -> None:
    visit = open_visit(uow, guest("fr", now), now)
    assert visit.token
    assert find_visit(uow, visit.token, now) == visit.actor


def test_whoever_has_a_visit_keeps_it(uow: UnitOfWork, now: datetime) -> None:
    visit = open_visit(uow, guest("fr", now), now)
    assert open_visit(uow, visit.actor, now) == replace(visit, token=None)


def test_token_itself_is_nowhere_in_the_database(uow: UnitOfWork, now: datetime, database: Path) -> None:
    token = opened(uow, now)
    with uow.reader() as connection:
        row = connection.execute(select(table_of(Visit))).one()
    assert token not in str(row)
    for file in database.parent.iterdir():
        assert token.encode() not in file.read_bytes()


@pytest.mark.parametrize("token", ["", "x", "é" * 64, "A" * 64, "A" * 63 + "!", "A" * 10_000, "=" * 64])
def test_unknown_and_broken_tokens_find_nothing(uow: UnitOfWork, now: datetime, token: str) -> None:
    opened(uow, now)
    assert find_visit(uow, token, now) is None


def test_visits_of_two_schools_stay_apart(uow: UnitOfWork, now: datetime) -> None:
    assert charlie(uow).school_id != open_visit(uow, guest("en", now), now).actor.school_id


def test_idle_visit_expires(uow: UnitOfWork, now: datetime) -> None:
    token = opened(uow, now)
    assert find_visit(uow, token, now + IDLE - timedelta(seconds=1))
    assert find_visit(uow, opened(uow, now), now + IDLE) is None


def test_use_keeps_a_visit_alive_but_not_for_ever(uow: UnitOfWork, now: datetime) -> None:
    token = opened(uow, now)
    for day in range(0, LONGEST.days, 10):
        assert find_visit(uow, token, now + timedelta(days=day))
    assert find_visit(uow, token, now + LONGEST) is None


def test_use_is_noted_at_most_once_a_minute(uow: UnitOfWork, now: datetime, count_queries: Counting) -> None:
    token = opened(uow, now)
    with count_queries() as counted:
        find_visit(uow, token, now + TOUCH_EVERY - timedelta(seconds=1))
    assert (len(counted.queries), counted.commits) == (1, 0)
    with count_queries() as counted:
        find_visit(uow, token, now + TOUCH_EVERY)
    assert (len(counted.queries), counted.commits) == (2, 1)
    with count_queries() as counted:
        find_visit(uow, token, now + TOUCH_EVERY + timedelta(seconds=1))
    assert (len(counted.queries), counted.commits) == (1, 0)


def test_closed_visit_is_found_no_more(uow: UnitOfWork, now: datetime) -> None:
    token = opened(uow, now)
    actor = find_visit(uow, token, now)
    assert actor
    close_visit(uow, actor, now)
    assert find_visit(uow, token, now) is None


def test_language_is_kept(uow: UnitOfWork, now: datetime) -> None:
    visit = open_visit(uow, guest("en", now), now)
    changed = set_language(uow, visit.actor, "fr")
    assert visit.token
    assert find_visit(uow, visit.token, now) == changed == replace(visit.actor, language="fr")


def test_guest_changes_language_and_leaves_without_a_trace(
    uow: UnitOfWork, now: datetime, count_queries: Counting
) -> None:
    with count_queries() as counted:
        assert set_language(uow, guest("en", now), "fr") == guest("fr", now)
        close_visit(uow, guest("en", now), now)
    assert counted.statements == []


def test_home_is_kept(uow: UnitOfWork, now: datetime) -> None:
    visit = open_visit(uow, guest("en", now), now)
    moved = set_home(uow, visit.actor, HomeWish(date(2026, 9, 1), place_id="tussockdown"), now)
    assert moved.token is None
    assert moved.actor.conventions.hemisphere == "south"
    assert visit.token
    assert find_visit(uow, visit.token, now) == moved.actor


def test_guest_with_a_home_of_their_own_gets_a_visit(uow: UnitOfWork, now: datetime) -> None:
    moved = set_home(uow, guest("en", now), HomeWish(date(2026, 9, 1), place_id="tussockdown"), now)
    assert moved.token
    assert find_visit(uow, moved.token, now) == moved.actor


def test_refused_home_keeps_nothing(uow: UnitOfWork, now: datetime, count_queries: Counting) -> None:
    wish = HomeWish(date(2026, 9, 1), latitude_deg=95.0, longitude_deg=0.0)
    with count_queries() as counted, pytest.raises(Invalid):
        set_home(uow, guest("en", now), wish, now)
    assert counted.statements == []
