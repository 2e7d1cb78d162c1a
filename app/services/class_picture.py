"""A class's weak spots: what it gets wrong together, by kind of question and by named misconception, and who."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from typing import NamedTuple
from uuid import UUID

from sqlalchemy import Connection

from app.insight.distributions import change
from app.insight.weak_spots import HeldMisconception, SkillCount, WeakSpot, held_misconceptions, weak_spots
from app.learner.evidence import Level, Skill
from app.learner.mastery import likely_right
from app.packs.library import Library
from app.services.actor import Actor
from app.services.class_access import taught_class
from app.services.errors import Invalid
from app.services.messages import say
from app.services.today import misconception_words
from app.storage.models import SchoolClass
from app.storage.queries import class_figures, classes
from app.storage.queries.class_figures import CountRow
from app.storage.queries.classes import StudentRow
from app.storage.queries.tallies import week_of
from app.storage.unit_of_work import UnitOfWork

PERIODS = (1, 4, 12, 52)  # weeks
LEAST_FOR_TREND = 10
FIRST_WEEK = date(2000, 1, 3)


@dataclass(frozen=True, slots=True)
class Known:
    """What the learner model knows of a student: by family, the skill and the misconceptions ever met."""

    level: Level = field(default_factory=Level)
    skills: dict[str, tuple[Skill, frozenset[str]]] = field(default_factory=dict)


class Period(NamedTuple):
    """What the figures are of: the latest weeks (None: all there are), or the sittings of one topic set."""

    weeks: int | None = None
    topic_set_id: UUID | None = None


class SpotLine(NamedTuple):
    """A kind of question, or a topic, in this class.

    `right` answers of `spot.answers`; `trend` is the change in points since before the latest week: 0 where chance
    alone could have made it, None where there are too few answers to tell.
    """

    id: str
    title: str
    topic: str
    spot: WeakSpot
    right: int
    trend: int | None


class Cell(NamedTuple):
    """One student in one topic: the estimate of being right, by the learner model, and the answers behind it."""

    estimate: float | None
    answers: int


class StudentLine(NamedTuple):
    """A student's row of the table: a cell a topic."""

    person_id: UUID
    name: str
    cells: Sequence[Cell]


class HeldLine(NamedTuple):
    """A named misconception, the `mistake` of a family, with who likely holds it."""

    family: str
    mistake: str
    name: str
    family_title: str
    topic: str
    held: HeldMisconception
    holders: Sequence[str]


class ClassPicture(NamedTuple):
    """All that the page shows; `answered` students have answered anything of late."""

    row: SchoolClass
    students: int
    answered: int
    topics: Sequence[SpotLine]
    families: Sequence[SpotLine]
    held: Sequence[HeldLine]
    table: Sequence[StudentLine]
    headings: Sequence[str]


def class_picture(
    uow: UnitOfWork, actor: Actor, library: Library, class_id: UUID, period: Period, now: datetime
) -> ClassPicture:
    """Return the picture of a class; NotFound and NotAllowed as `taught_class`, Invalid for a period there is not."""
    check_period(period, actor)
    with uow.reader() as connection:
        row = taught_class(connection, actor, class_id)
        students = classes.list_students(connection, actor.school_id, class_id)
        counts = period_counts(connection, actor, class_id, period, now)
        known = known_of_class(connection, actor, class_id)
    counts = [count for count in counts if count.family in library.families]
    return ClassPicture(
        row=row,
        students=len(students),
        answered=len({count.visit_id for count in counts}),
        topics=tuple(_spots(counts, {f.id: f.topic for f in library.families.values()}, _topic_lines(library, actor))),
        families=tuple(_spots(counts, {f: f for f in library.families}, _family_lines(library, actor))),
        held=tuple(_held(library, students, known, actor)),
        table=tuple(_table(library, students, known, now)),
        headings=tuple(pack.title.of(actor.language) for pack in library.packs.values()),
    )


def held_in_class(uow: UnitOfWork, actor: Actor, library: Library, class_id: UUID) -> tuple[HeldLine, ...]:
    """Return the misconceptions that a class likely holds, as in its picture; NotFound and NotAllowed as there."""
    with uow.reader() as connection:
        taught_class(connection, actor, class_id)
        students = classes.list_students(connection, actor.school_id, class_id)
        known = known_of_class(connection, actor, class_id)
    return tuple(_held(library, students, known, actor))


def check_period(period: Period, actor: Actor) -> None:
    """Refuse a period there is not."""
    if period.weeks is not None and period.weeks not in PERIODS:
        raise Invalid(say("period", actor.language, value=period.weeks, accepted=", ".join(map(str, PERIODS))), "weeks")


def period_counts(
    connection: Connection, actor: Actor, class_id: UUID, period: Period, now: datetime
) -> Sequence[CountRow]:
    """Return what each student of a class answered of each family in a period."""
    if period.topic_set_id is not None:
        return class_figures.list_counts_of_set(connection, actor.school_id, class_id, period.topic_set_id)
    this_week = week_of(now)
    since = this_week - timedelta(weeks=period.weeks - 1) if period.weeks else FIRST_WEEK
    return class_figures.list_counts(connection, actor.school_id, class_id, since, this_week)


def known_of_class(connection: Connection, actor: Actor, class_id: UUID) -> Mapping[UUID, Known]:
    """Return what is known of each student of a class who answered anything, by their visit."""
    levels = class_figures.list_levels(connection, actor.school_id, class_id)
    known = {row.visit_id: Known(Level(row.mean, row.variance)) for row in levels}
    for row in class_figures.list_known(connection, actor.school_id, class_id):
        known[row.visit_id].skills[row.family] = (row.skill, row.met)
    return known


def _topic_lines(library: Library, actor: Actor) -> Mapping[str, tuple[str, str]]:
    return {pack.id: (pack.title.of(actor.language), pack.id) for pack in library.packs.values()}


def _family_lines(library: Library, actor: Actor) -> Mapping[str, tuple[str, str]]:
    return {family.id: (family.title.of(actor.language), family.topic) for family in library.families.values()}


@dataclass(slots=True)
class _Sums:
    """What a class answered of one family or topic: the answers of each student, and the sums of all."""

    by_student: dict[UUID, int] = field(default_factory=dict)
    correct: int = 0
    recent: int = 0
    recent_correct: int = 0


def _spots(
    counts: Sequence[CountRow], group_of: Mapping[str, str], words: Mapping[str, tuple[str, str]]
) -> Iterator[SpotLine]:
    """Yield every group with answers, the weakest first."""
    groups: defaultdict[str, _Sums] = defaultdict(_Sums)
    for count in counts:
        sums, visit_id = groups[group_of[count.family]], count.visit_id
        sums.by_student[visit_id] = sums.by_student.get(visit_id, 0) + count.answers
        sums.correct += count.correct
        sums.recent += count.recent_answers
        sums.recent_correct += count.recent_correct
    skills = [SkillCount(group, tuple(sums.by_student.values()), sums.correct) for group, sums in groups.items()]
    for spot in weak_spots(skills):
        title, topic = words[spot.skill]
        sums = groups[spot.skill]
        yield SpotLine(spot.skill, title, topic, spot, sums.correct, _trend(sums))


def _trend(sums: _Sums) -> int | None:
    """Return the change of the share right of the latest week against before, as `SpotLine` tells."""
    recent = sums.recent_correct, sums.recent
    before = sums.correct - sums.recent_correct, sum(sums.by_student.values()) - sums.recent
    if min(before[1], recent[1]) < LEAST_FOR_TREND:
        return None
    low, high = change(before, recent)
    return 0 if low <= 0 <= high else round(100 * (recent[0] / recent[1] - before[0] / before[1]))


def _held(
    library: Library, students: Sequence[StudentRow], known: Mapping[UUID, Known], actor: Actor
) -> Iterator[HeldLine]:
    """Yield the misconceptions that anybody showed and somebody likely holds."""
    skills = {str(student.person_id): known.get(student.visit_id, Known()).skills for student in students}
    shown = {(family, name) for of in skills.values() for family, (_, met) in of.items() for name in met}
    chances: defaultdict[str, dict[str, float]] = defaultdict(dict)
    for family, name in shown:
        for person, of in skills.items():
            if family in of and name in of[family][0].misconceptions:
                chances[f"{family}/{name}"][person] = of[family][0].misconceptions[name]
    names = {str(student.person_id): student.name for student in students}
    for held in held_misconceptions(chances):
        family, _, name = held.misconception.partition("/")
        words = misconception_words(library, family, name, actor)
        if words is not None:
            spec = library.family(family)
            title = spec.title.of(actor.language)
            yield HeldLine(family, name, words, title, spec.topic, held, tuple(names[each] for each in held.holders))


def _table(
    library: Library, students: Sequence[StudentRow], known: Mapping[UUID, Known], now: datetime
) -> Iterator[StudentLine]:
    for student in students:
        of = known.get(student.visit_id, Known())
        cells = []
        for pack in library.packs.values():
            skills = [of.skills[each][0] for each in pack.families if each in of.skills]
            likely = [likely_right(of.level, skill, now) for skill in skills if skill.answers]
            estimate = sum(likely) / len(likely) if likely else None
            cells.append(Cell(estimate, sum(skill.answers for skill in skills)))
        yield StudentLine(student.person_id, student.name, tuple(cells))
