"""Measuring how difficult the kinds of questions are, once a night, from a school's latest answers.

What was answered keeps the difficulty it was judged with; what is measured is in force for the answers to come.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from datetime import datetime
from uuid import UUID

from app.learner.calibration import Calibrated, PooledAnswer, calibrate
from app.packs.library import Library
from app.services.learning import LearnerState, advance, seen_in
from app.services.own_library import school_library
from app.services.withdrawals import still_withdrawn
from app.storage.models import MeasuredDifficulty
from app.storage.queries import learners, measured, quality, withdrawals
from app.storage.unit_of_work import UnitOfWork

MOST_POOLED = 1000  # answers of a family in whole courses; more would change nothing that shows

Course = Sequence[PooledAnswer]


def measure_all(uow: UnitOfWork, library: Library, now: datetime) -> int:
    """Measure in every school; returns how many difficulties are in force."""
    with uow.reader() as connection:
        schools = quality.list_all_schools(connection)
    return sum(measure_school(uow, school_library(uow, school_id, library), school_id, now) for school_id in schools)


def measure_school(uow: UnitOfWork, library: Library, school_id: UUID, now: datetime) -> int:
    """Measure a school's kinds of questions anew; one it withdrew or nobody answered goes by its grade."""
    with uow.reader() as connection:
        gone = still_withdrawn(library, withdrawals.list_withdrawals(connection, school_id))
    courses = _courses(uow, school_id, set(library.families) - set(gone))
    rows = [
        _row(school_id, name, calibrate(library.family(name).grade, _misconceptions(library, name), of_family), now)
        for name, of_family in sorted(courses.items())
    ]
    with uow.writer() as connection:
        measured.replace_measured(connection, school_id, rows)
    return len(rows)


def _courses(uow: UnitOfWork, school_id: UUID, families: set[str]) -> Mapping[str, list[Course]]:
    """Return learners' answers by family, with the level that was known before each: the latest learners' first.

    A family with answers enough takes no more; whoever answered only such ones is not read. So what is held and what
    is read stay within a bound, however many have answered.
    """
    courses: defaultdict[str, list[Course]] = defaultdict(list)
    wanting = dict.fromkeys(families, MOST_POOLED)
    with uow.reader() as connection:
        visits = measured.list_visits(connection, school_id)
    for visit_id in visits:
        with uow.reader() as connection:
            asked = measured.families_of(connection, school_id, visit_id) & wanting.keys()
        of_visit: defaultdict[str, list[PooledAnswer]] = defaultdict(list)
        for family, answer in _answers(uow, school_id, visit_id) if asked else ():
            of_visit[family].append(answer)
        for family in asked & of_visit.keys():
            courses[family].append(of_visit[family])
            wanting[family] -= len(of_visit[family])
            if wanting[family] <= 0:
                del wanting[family]
        if not wanting:
            break
    return courses


def _answers(uow: UnitOfWork, school_id: UUID, visit_id: UUID) -> Iterator[tuple[str, PooledAnswer]]:
    """Yield what a learner answered, without what was too fast to have been read."""
    with uow.reader() as connection:
        rows = learners.list_answers(connection, school_id, visit_id)
    state = LearnerState()
    for row in rows:
        if row.evidence is not None and not row.evidence["fast"]:
            yield row.family, PooledAnswer(state.level, seen_in(row), row.evidence.get("features", {}))
        state = advance(state, row)


def _misconceptions(library: Library, family_id: str) -> tuple[str, ...]:
    return tuple(each.id for each in library.family(family_id).misconceptions)


def _row(school_id: UUID, family: str, found: Calibrated, now: datetime) -> MeasuredDifficulty:
    return MeasuredDifficulty(
        school_id, family, asdict(found.difficulty), found.error, found.answers, found.learners, measured_at=now
    )
