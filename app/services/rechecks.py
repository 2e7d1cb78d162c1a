"""A topic set made from a weak spot for the students behind it, and later what has become of it: before and after.

Before is what was known of each student when the set was made; after is what they answered of the same kind of
question since, in the set or elsewhere. Both are of the same students: those who have answered again.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from sqlalchemy import Connection

from app.insight.rechecks import Share, Verdict, carried, right, verdict
from app.insight.weak_spots import HELD_FROM, SkillCount
from app.learner.evidence import Skill
from app.packs.library import Library
from app.services.actor import Actor
from app.services.class_access import taught_class
from app.services.class_picture import Known, Period, check_period, known_of_class, period_counts
from app.services.errors import Invalid, NotAllowed, NotFound
from app.services.messages import say
from app.services.set_wishes import SetWish
from app.services.today import misconception_words
from app.services.topic_sets import SetSettings, choose_new_set, keep_new_set
from app.storage.models import Recheck, SchoolClass
from app.storage.queries import classes, rechecks
from app.storage.queries.rechecks import StudentRow, ThenRow
from app.storage.unit_of_work import UnitOfWork

ALL_ANSWERS = Period()
COUNTS = (1, 2, 4, 6, 10)
USUAL_COUNT = 6


class Spot(NamedTuple):
    """A row of the weak spots: a family in a period, or one misconception in it."""

    family: str
    misconception: str = ""
    period: Period = ALL_ANSWERS


class SpotView(NamedTuple):
    """A weak spot to be made a set from: its words, whom the set is for and the figures of now.

    students: how many stand behind the row; `people` are fewer where only some carry the misconception.
    """

    row: SchoolClass
    spot: Spot
    name: str
    students: int
    people: Mapping[UUID, str]
    then: Sequence[ThenRow]
    now: Share


class RecheckView(NamedTuple):
    """What has become of a weak spot.

    all_before is of everybody the set is for, before and after of those who have answered again (None: nobody has).
    waiting: names of those who have not. held and holds: who likely carried the misconception then, and does now.
    """

    row: Recheck
    set_title: str
    class_name: str
    name: str
    all_before: Share
    before: Share | None
    after: Share | None
    verdict: Verdict
    waiting: Sequence[str]
    held: Sequence[str]
    holds: Sequence[str]
    people: Sequence[UUID]


def spot_view(uow: UnitOfWork, actor: Actor, library: Library, class_id: UUID, spot: Spot, now: datetime) -> SpotView:
    """Return a weak spot with those behind it; NotFound for one there is not, Invalid for a period there is not."""
    check_period(spot.period, actor)
    name = _name(library, actor, spot.family, spot.misconception)
    if name is None:
        raise NotFound(spot)
    with uow.reader() as connection:
        row = taught_class(connection, actor, class_id)
        behind = _behind(connection, actor, class_id, spot, now)
        names = {each.person_id: each.name for each in classes.list_students(connection, actor.school_id, class_id)}
    then = [each for each in behind if each.chance is None or each.chance >= HELD_FROM]
    people = {each.person_id: names[each.person_id] for each in then}
    return SpotView(row, spot, name, len(behind), people, then, _before(then))


def make_recheck(
    uow: UnitOfWork,
    actor: Actor,
    library: Library,
    asked: tuple[UUID, Spot, str, int],
    seed: int,
    now: datetime,
) -> UUID:
    """Make a set (class, weak spot, title, count) of fresh numbers and keep where it came from; returns the set's id.

    Invalid where nobody is behind the row any more, or names what cannot be.
    """
    class_id, spot, title, count = asked
    view = spot_view(uow, actor, library, class_id, spot, now)
    if not view.then:
        raise Invalid(say("recheck-nobody", actor.language, value=view.name), "")
    mistake = f"{spot.family}/{spot.misconception}" if spot.misconception else ""
    wish = SetWish(families=(spot.family,), misconception=mistake, count=count)
    made = choose_new_set(uow, actor, library, (wish, SetSettings(title)), seed, now)
    kept = Recheck(actor.school_id, made[0].id, class_id, spot.family, spot.misconception or None, view.students, now)
    with uow.writer() as connection:
        keep_new_set(connection, actor, made, now)
        rechecks.add_recheck(connection, kept, view.then)
    return kept.topic_set_id


def list_class_rechecks(uow: UnitOfWork, actor: Actor, library: Library, class_id: UUID) -> Sequence[RecheckView]:
    """Return what has become of the weak spots of a class that sets were made from, the latest first."""
    with uow.reader() as connection:
        row = taught_class(connection, actor, class_id)
        found = rechecks.list_of_class(connection, actor.school_id, class_id)
        return tuple(_views(connection, actor, library, found, row.name))


def find_recheck(uow: UnitOfWork, actor: Actor, library: Library, set_id: UUID) -> RecheckView | None:
    """Return what has become of the weak spot a set was made from; None when it is none of the actor's classes'."""
    with uow.reader() as connection:
        found = rechecks.find_of_set(connection, actor.school_id, set_id)
        if found is None:
            return None
        try:
            row = taught_class(connection, actor, found[0].class_id)
        except (NotAllowed, NotFound):
            return None
        return next(_views(connection, actor, library, [found], row.name))


def _name(library: Library, actor: Actor, family: str, misconception: str | None) -> str | None:
    if misconception:
        return misconception_words(library, family, misconception, actor)
    return library.family(family).title.of(actor.language) if family in library.families else None


def _behind(connection: Connection, actor: Actor, class_id: UUID, spot: Spot, now: datetime) -> Sequence[ThenRow]:
    """Return everybody behind a row, by name: who answered the family, with the misconception's chance if asked for."""
    sums: dict[UUID, tuple[int, int]] = {
        count.visit_id: (count.answers, count.correct)
        for count in period_counts(connection, actor, class_id, spot.period, now)
        if count.family == spot.family
    }
    known = known_of_class(connection, actor, class_id) if spot.misconception else {}
    rows = []
    for student in classes.list_students(connection, actor.school_id, class_id):
        if not spot.misconception and student.visit_id in sums:
            rows.append(ThenRow(student.person_id, None, *sums[student.visit_id]))
        elif spot.misconception:
            skill, _ = known.get(student.visit_id, Known()).skills.get(spot.family, (Skill(), ()))
            if spot.misconception in skill.misconceptions and skill.answers:
                chance = skill.misconceptions[spot.misconception]
                rows.append(ThenRow(student.person_id, chance, skill.answers, skill.right))
    return rows


def _views(
    connection: Connection,
    actor: Actor,
    library: Library,
    found: Sequence[tuple[Recheck, str]],
    class_name: str,
) -> Iterator[RecheckView]:
    students: defaultdict[UUID, list[StudentRow]] = defaultdict(list)
    for each in rechecks.list_students(connection, actor.school_id, [row.topic_set_id for row, _ in found]):
        students[each.topic_set_id].append(each)
    for row, title in found:
        name = _name(library, actor, row.family, row.misconception)
        if name is not None:
            yield _view(row, (title, class_name, name), students[row.topic_set_id])


def _view(row: Recheck, words: tuple[str, str, str], students: Sequence[StudentRow]) -> RecheckView:
    again = [each for each in students if each.answers_since]
    before, after = _before(again), _after(row, again)
    return RecheckView(
        row,
        *words,
        all_before=_before(students),
        before=before if again else None,
        after=after if again else None,
        verdict=verdict(before, after),
        waiting=tuple(each.name for each in students if not each.answers_since),
        held=tuple(each.name for each in again if (each.chance or 0) >= HELD_FROM),
        holds=tuple(each.name for each in again if _chance_now(row, each) >= HELD_FROM),
        people=tuple(each.person_id for each in students),
    )


def _before(students: Sequence[ThenRow] | Sequence[StudentRow]) -> Share:
    answers = tuple(each.answers for each in students)
    chances = [each.chance for each in students if each.chance is not None]
    if chances:
        return carried(chances, sum(answers))
    return right(SkillCount("", answers, sum(each.correct for each in students)))


def _after(row: Recheck, students: Sequence[StudentRow]) -> Share:
    answers = tuple(each.answers_since for each in students)
    if row.misconception:
        return carried([_chance_now(row, each) for each in students], sum(answers))
    return right(SkillCount("", answers, sum(each.correct_since for each in students)))


def _chance_now(row: Recheck, student: StudentRow) -> float:
    return student.misconceptions.get(row.misconception or "", 0.0)
