"""Classes of a school side by side on the same topics: what each likely knows, how far apart its students are."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime, timedelta
from typing import NamedTuple
from uuid import UUID

from sqlalchemy import Connection

from app.insight.cohorts import Unlike, Work, spread, unlike
from app.insight.weak_spots import FEW_STUDENTS, SkillCount, WeakSpot, weak_spots
from app.packs.library import Library
from app.packs.spec import Language
from app.services.actor import Actor
from app.services.class_access import taught_class
from app.services.class_picture import PERIODS, Period, period_counts
from app.services.errors import Invalid, NotFound
from app.services.messages import say
from app.storage.models import SchoolClass
from app.storage.queries import class_figures, classes
from app.storage.queries.class_figures import CountRow
from app.storage.queries.tallies import week_of
from app.storage.unit_of_work import UnitOfWork

LEAST_CLASSES, MOST_CLASSES = 2, 4
WEEKS_SHOWN = 12
SEEN_DAYS = (7, 30)


class Wish(NamedTuple):
    """Which classes to compare, of which latest weeks as sent ("": all answers), and the families of which topic."""

    class_ids: Sequence[UUID]
    weeks: str = ""
    topic: str = ""


class Figure(NamedTuple):
    """One class in one topic or family; `spread` is between its students, None for too few answers."""

    spot: WeakSpot
    spread: float | None
    work: Work


class Line(NamedTuple):
    """A topic or a family: a figure a class (None: too few students) and why they are unlike."""

    id: str
    title: str
    figures: tuple[Figure | None, ...]
    unlike: tuple[Unlike, ...]


class Activity(NamedTuple):
    """Students seen in the latest SEEN_DAYS, and answers in each of the latest weeks."""

    seen: tuple[int, ...]
    weekly: tuple[int, ...]


class Cohort(NamedTuple):
    """A class of the comparison; no activity is told of fewer than FEW_STUDENTS."""

    row: SchoolClass
    students: int
    activity: Activity | None


class Comparison(NamedTuple):
    """All that the page shows, of one topic (its title) or of all (""); `weeks` are the Mondays of the activity."""

    topic: str
    cohorts: tuple[Cohort, ...]
    lines: tuple[Line, ...]
    weeks: tuple[date, ...]

    @property
    def busiest(self) -> int:
        """The most answers of any class in any week: all pictures have its scale."""
        return max((max(each.activity.weekly) for each in self.cohorts if each.activity), default=0)


def compare(uow: UnitOfWork, actor: Actor, library: Library, wish: Wish, now: datetime) -> Comparison:
    """Return classes side by side.

    NotFound and NotAllowed as `taught_class`, and NotFound for a topic there is not; Invalid for too few or too many
    classes and for a period there is not.
    """
    class_ids = _checked(wish.class_ids, actor.language)
    period = Period(_weeks(wish.weeks, actor.language))
    if wish.topic and wish.topic not in library.packs:
        raise NotFound(wish.topic)
    with uow.reader() as connection:
        cohorts = tuple(_cohort(connection, actor, class_id, now) for class_id in class_ids)
        counts = [period_counts(connection, actor, class_id, period, now) for class_id in class_ids]
    group_of = {each.id: each.id if wish.topic else each.topic for each in library.families.values()}
    figures = [_figures([count for count in some if count.family in group_of], group_of) for some in counts]
    topic = library.packs[wish.topic].title.of(actor.language) if wish.topic else ""
    return Comparison(topic, cohorts, tuple(_lines(library, wish.topic, figures, actor.language)), _mondays(now))


def _checked(class_ids: Sequence[UUID], language: Language) -> tuple[UUID, ...]:
    once = tuple(dict.fromkeys(class_ids))
    if not LEAST_CLASSES <= len(once) <= MOST_CLASSES:
        words = say("cohorts", language, value=len(once), least=LEAST_CLASSES, most=MOST_CLASSES)
        raise Invalid(words, "class")
    return once


def _weeks(text: str, language: Language) -> int | None:
    accepted = {str(weeks): weeks for weeks in PERIODS}
    if text and text not in accepted:
        raise Invalid(say("period", language, value=text, accepted=", ".join(accepted)), "weeks")
    return accepted.get(text)


def _mondays(now: datetime) -> tuple[date, ...]:
    return tuple(week_of(now) - timedelta(weeks=back) for back in reversed(range(WEEKS_SHOWN)))


def _cohort(connection: Connection, actor: Actor, class_id: UUID, now: datetime) -> Cohort:
    row = taught_class(connection, actor, class_id)
    students = classes.list_students(connection, actor.school_id, class_id)
    if len(students) < FEW_STUDENTS:
        return Cohort(row, len(students), None)
    mondays = _mondays(now)
    weekly = class_figures.weekly_answers(connection, actor.school_id, class_id, mondays[0])
    moments = [student.seen_at for student in students if student.seen_at]
    seen = tuple(sum(now - moment <= timedelta(days=days) for moment in moments) for days in SEEN_DAYS)
    return Cohort(row, len(students), Activity(seen, tuple(weekly.get(monday, 0) for monday in mondays)))


def _figures(counts: Sequence[CountRow], group_of: Mapping[str, str]) -> dict[str, Figure]:
    """Return a class's figures by topic or family; those with too few students behind them are left out."""
    by_student: defaultdict[str, defaultdict[UUID, list[int]]] = defaultdict(lambda: defaultdict(lambda: [0, 0]))
    families: defaultdict[str, set[str]] = defaultdict(set)
    for count in counts:
        group = group_of[count.family]
        families[group].add(count.family)
        sums = by_student[group][count.visit_id]
        sums[0] += count.answers
        sums[1] += count.correct
    skills = []
    for group, students in by_student.items():
        answers, right = zip(*students.values(), strict=True)
        skills.append(SkillCount(group, answers, sum(right)))
    return {
        spot.skill: Figure(
            spot,
            spread([(answers, right) for answers, right in by_student[spot.skill].values()]),
            Work(frozenset(families[spot.skill]), spot.answers / spot.students),
        )
        for spot in weak_spots(skills)
        if not spot.few
    }


def _lines(library: Library, topic: str, figures: Sequence[Mapping[str, Figure]], language: Language) -> Iterator[Line]:
    """Yield every topic, or every family of one, in the order of the packs: the same for all classes."""
    titles = (
        {each: library.family(each).title for each in library.packs[topic].families}
        if topic
        else {pack.id: pack.title for pack in library.packs.values()}
    )
    for group, title in titles.items():
        row = tuple(some.get(group) for some in figures)
        yield Line(group, title.of(language), row, unlike([figure.work for figure in row if figure]))
