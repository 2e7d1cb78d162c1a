"""What a school sets for everybody in it: its name, language and time zone, house rules, retention and bars.

Every change is made at the version somebody looked at, and stands in the log.
"""

from collections.abc import Mapping
from datetime import datetime
from typing import Any, NamedTuple

from app.packs.spec import LANGUAGES, Language
from app.services.actor import Actor
from app.services.audit import note
from app.services.errors import Conflict, Invalid, NotFound
from app.services.homes import HomeWish, conventions_for
from app.services.messages import say
from app.services.schools import check_time_zone, checked_name
from app.storage.models import School
from app.storage.queries import schools
from app.storage.queries.schools import SchoolChanged
from app.storage.unit_of_work import UnitOfWork

# Days after which records of a kind go; a kind the school has not set is kept.
RETENTION_DAYS = (30, 3650)
RETENTION_KINDS = ("answers", "left-people", "reports", "notes")


class Bar(NamedTuple):
    """What is asked before anybody is recommended: lowest and highest value, and where it starts."""

    least: int
    most: int
    usual: int


BARS: Mapping[str, Bar] = {
    "section_percent": Bar(50, 100, 80),
    "rehearsals": Bar(0, 10, 2),
}


def get_school(uow: UnitOfWork, actor: Actor) -> School:
    """Return the actor's school."""
    with uow.reader() as connection:
        found = schools.find_school(connection, actor.school_id)
    if found is None:
        raise NotFound(actor.school_id)
    return found


def bar_of(school: School, name: str) -> int:
    """Return a bar of a school, the usual one where it has set none."""
    return int(school.bars.get(name, BARS[name].usual))


def name_school(uow: UnitOfWork, actor: Actor, version: int, names: tuple[str, str, str], now: datetime) -> None:
    """Keep (name, language, time zone) of the school; Invalid names what cannot be accepted."""
    name, language, time_zone = names
    if language not in LANGUAGES:
        raise Invalid(say("language", actor.language, value=language), "language")
    check_time_zone(time_zone, actor.language)
    changes = {"name": checked_name(name, actor.language, "name"), "language": language, "time_zone": time_zone}
    _change(uow, actor, version, changes, now)


def set_house_rules(uow: UnitOfWork, actor: Actor, version: int, wish: HomeWish, now: datetime) -> None:
    """Set home place and house rules of everybody's new drills; those that have begun keep theirs."""
    _change(uow, actor, version, {"conventions": conventions_for(wish, actor.language).as_json()}, now)


def free_house_rules(uow: UnitOfWork, actor: Actor, version: int, now: datetime) -> None:
    """Leave home place and house rules to everybody again."""
    _change(uow, actor, version, {"conventions": {}}, now)


def set_retention(uow: UnitOfWork, actor: Actor, version: int, days: Mapping[str, str], now: datetime) -> None:
    """Set for how many days each kind of record is kept; an empty text keeps it."""
    kept = {
        kind: _whole(days.get(kind, ""), RETENTION_DAYS, kind, actor.language)
        for kind in RETENTION_KINDS
        if days.get(kind, "").strip()
    }
    _change(uow, actor, version, {"retention": kept}, now)


def set_bars(uow: UnitOfWork, actor: Actor, version: int, values: Mapping[str, str], now: datetime) -> None:
    """Set what is asked before anybody is recommended for the written exam."""
    bars = {
        name: _whole(values.get(name, ""), (bar.least, bar.most), name, actor.language) for name, bar in BARS.items()
    }
    _change(uow, actor, version, {"bars": bars}, now)


def _change(uow: UnitOfWork, actor: Actor, version: int, changes: Mapping[str, Any], now: datetime) -> None:
    before = get_school(uow, actor)
    told = {name: str(value)[:200] for name, value in changes.items() if getattr(before, name) != value}
    try:
        with uow.writer() as connection:
            schools.change_school(connection, actor.school_id, version, changes)
            note(connection, actor, "school-changed", before.name, now, **told)
    except SchoolChanged as error:
        raise Conflict(say("school-changed", actor.language)) from error


def _whole(text: str, bounds: tuple[int, int], field: str, language: Language) -> int:
    plain = text.strip()
    least, most = bounds
    if not (plain.isascii() and plain.isdigit() and len(plain) <= 5 and least <= int(plain) <= most):
        raise Invalid(say("whole-number", language, value=plain, least=least, most=most), field)
    return int(plain)
