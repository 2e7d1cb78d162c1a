"""What a class's weak spots cost at a million answers and at ten, and what counting them as they come saves.

The minimal SQL reads, with the bare driver, the rows the page is made of: the counts and the skills of the class. The
statistics of a school's questions are summed once from the tallies, as the nightly command does, and once from the
attempts.
"""

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing
from datetime import UTC, datetime
from math import inf
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from uuid import UUID

import click
from sqlalchemy import text

from app.cli.measures import Reading, cpu_ms
from app.cli.measures.many_answers import ANSWERS_EACH, CLASS_SIZE, fill
from app.cli.measures.visitor import Visitor, fill_form
from app.cli.packs import open_library
from app.services.accounts import NewPerson, add_account
from app.services.actor import Role
from app.services.passwords import Argon2
from app.storage.engine import create_engine_for
from app.storage.ids import new_id
from app.storage.migrate import upgrade
from app.storage.models import School, SchoolClass
from app.storage.queries import classes, quality, schools
from app.storage.queries.quality import SumsRow
from app.storage.unit_of_work import UnitOfWork
from app.web.factory import running
from app.web.settings import Settings

SIZES = (1_000_000, 10_000_000)
ROUNDS = 5
GOAL_PAGE, GOAL_GROWTH, GOAL_SUMS, GOAL_DIFFERENCE = 8.0, 1.6, 0.35, 1e-9
CODE, LOGIN, PASSWORD = "many", "ingrid", "nine slow gyroscopes"
NOW = datetime(2026, 9, 3, 12, tzinfo=UTC)
MEMBERS = """WHERE school_id = :school AND visit_id IN (
    SELECT visit_id FROM enrolment e JOIN person p ON p.school_id = e.school_id AND p.id = e.person_id
    WHERE e.school_id = :school AND e.class_id = :class)"""
COUNTS = "SELECT visit_id, family, sum(answers), sum(correct) FROM week_tally {} GROUP BY visit_id, family"
SKILLS = "SELECT visit_id, family, mean, answers, correct, last_at, misconceptions, met FROM learner_skill {}"
RAW_SUMS = """
WITH cell AS (
    SELECT visit_id, family, count(*) AS answers, sum(correct) AS correct, count(took_ms) AS timed,
        sum(took_ms) AS took_ms
    FROM attempt WHERE school_id = :school_id GROUP BY visit_id, family),
total AS (SELECT visit_id, sum(answers) AS answers, sum(correct) AS correct FROM cell GROUP BY visit_id),
rest AS (
    SELECT cell.*, total.answers > cell.answers AS other,
        1.0 * (total.correct - cell.correct) / nullif(total.answers - cell.answers, 0) AS share
    FROM cell JOIN total USING (visit_id))
SELECT family, sum(answers), sum(correct), sum(timed), sum(took_ms), sum(iif(other, answers, 0)),
    sum(iif(other, correct, 0)), sum(iif(other, answers * share, 0)), sum(iif(other, answers * share * share, 0)),
    sum(iif(other, correct * share, 0))
FROM rest GROUP BY family"""


def measure() -> Iterator[Reading]:
    """Yield the page against its minimal SQL at each size, its growth, and the sums against the attempts."""
    yield from measure_sizes(SIZES)


def measure_sizes(sizes: Sequence[int]) -> Iterator[Reading]:
    """Yield the readings at these numbers of answers, the smallest first."""
    with TemporaryDirectory() as folder:
        settings = Settings.from_environment(Path(folder), {})
        upgrade(settings.database)
        school_id, class_id = _school(settings)
        pages, filled = [], 0
        for size in sizes:
            fill(
                Path(settings.database),
                open_library(),
                (school_id.hex, class_id.hex),
                range(filled, size // ANSWERS_EACH),
            )
            filled = size // ANSWERS_EACH
            page_ms, sql_ms = _page_ms(settings, class_id), _sql_ms(settings, school_id, class_id)
            pages.append(page_ms)
            yield Reading(f"class page: {size:,} answers", page_ms, "ms")
            yield Reading(f"class page: its minimal SQL, {size:,}", sql_ms, "ms")
            yield Reading("class page: page / minimal SQL", page_ms / sql_ms, "x", GOAL_PAGE)
        yield Reading("class page: largest / smallest", pages[-1] / pages[0], "x", GOAL_GROWTH)
        yield from _sums(settings, school_id)


def _school(settings: Settings) -> tuple[UUID, UUID]:
    """Add a school with an instructor who can sign in and their class; return the ids of school and class."""
    school_id, class_id = new_id(NOW), new_id(NOW)
    who = NewPerson(Role.INSTRUCTOR, "Ingrid", LOGIN, "en", Argon2().hash(PASSWORD))
    with _opened(settings) as uow, uow.writer() as connection:
        schools.add_school(connection, School(school_id, CODE, "Many Answers", "en", "America/Toronto", NOW))
        classes.add_class(connection, SchoolClass(school_id, class_id, "Evening", NOW))
        teacher = add_account(connection, school_id, who, NOW)
        classes.add_instructor(connection, school_id, class_id, teacher.id, NOW)
    return school_id, class_id


def _opened(settings: Settings) -> "closing[UnitOfWork]":
    """Open the database, to be closed again: it is filled by a connection of its own."""
    return closing(UnitOfWork(create_engine_for(settings.database)))


def _page_ms(settings: Settings, class_id: UUID) -> float:
    """Return the processor time of the page, asked for by its signed-in instructor."""
    with running(settings, lambda: NOW) as application:
        visitor = Visitor(application)
        form = fill_form(visitor.get("/sign-in").page, "/sign-in")
        visitor.post("/sign-in", form | {"school": CODE, "login": LOGIN, "password": PASSWORD})
        address = f"/classes/{class_id}/weak-spots"
        answered = visitor.get(address)
        if answered.status != 200 or f"{CLASS_SIZE} of {CLASS_SIZE} students" not in answered.page:
            raise click.ClickException(f"the page answered {answered.status}: nothing to measure before it works")
        return cpu_ms(lambda: visitor.get(address), ROUNDS)


def _sql_ms(settings: Settings, school_id: UUID, class_id: UUID) -> float:
    of = {"school": school_id.hex, "class": class_id.hex}
    with closing(sqlite3.connect(settings.database)) as driver:
        return cpu_ms(
            lambda: [driver.execute(each.format(MEMBERS), of).fetchall() for each in (COUNTS, SKILLS)], ROUNDS
        )


def _sums(settings: Settings, school_id: UUID) -> Iterator[Reading]:
    """Yield what the statistics of all questions take from the tallies, from the attempts, and how far they differ."""
    with _opened(settings) as uow, uow.reader() as connection:
        started = perf_counter()
        kept = quality.sum_families(connection, school_id)
        tallied = perf_counter()
        raw = [SumsRow(*row) for row in connection.execute(text(RAW_SUMS), {"school_id": school_id.hex})]
        counted = perf_counter()
    yield Reading("question sums: from the tallies", tallied - started, "s")
    yield Reading("question sums: from the attempts", counted - tallied, "s")
    yield Reading("question sums: tallies / attempts", (tallied - started) / (counted - tallied), "x", GOAL_SUMS)
    yield Reading("question sums: largest difference", _difference(kept, raw), "", GOAL_DIFFERENCE)


def _difference(kept: Sequence[SumsRow], raw: Sequence[SumsRow]) -> float:
    """Return the largest relative difference of any figure of any family; infinite where the families differ."""
    left, right = ({row.family: row[1:] for row in rows} for rows in (kept, raw))
    if left.keys() != right.keys():
        return inf
    pairs = (pair for name in left for pair in zip(left[name], right[name], strict=True))
    return max(abs(float(a) - float(b)) / max(abs(float(b)), 1.0) for a, b in pairs)
