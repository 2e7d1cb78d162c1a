"""What marking 100,000 past answers again costs, where an earlier key had called every third right answer wrong."""

import resource
import sys
from collections.abc import Iterator, Sequence
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from uuid import UUID

from sqlalchemy import Connection, case, func, select

from app.cli.measures import Reading
from app.grader.grade import grade
from app.grader.reply import Reply
from app.packs.library import Library
from app.packs.load import load_library
from app.questions.draw import draw
from app.services.actor import Actor
from app.services.difficulty import read_difficulty
from app.services.drills import new_drill
from app.services.practice import Graded, new_attempt
from app.services.regrading import apply, plan
from app.services.visits import guest, open_visit
from app.storage.base import table_of
from app.storage.engine import create_engine_for
from app.storage.ids import new_id
from app.storage.migrate import upgrade
from app.storage.models import Attempt, RegradedAttempt
from app.storage.queries import attempts, drills
from app.storage.queries.attempts import AttemptRow
from app.storage.queries.drills import PlaceRow
from app.storage.queries.past_answers import Past
from app.storage.unit_of_work import UnitOfWork
from app.web.settings import Settings

FAMILY = "true-to-compass"
PEOPLE, EACH = 1000, 100
DIFFERENT = 2000  # items, four times as many as a worker keeps drawn
WRONGLY = 3
START = datetime(2026, 9, 1, 14, 30, tzinfo=UTC)
ATTEMPT, REGRADED = table_of(Attempt), table_of(RegradedAttempt)
WHO = (None, "bench")


def measure(people: int = PEOPLE) -> Iterator[Reading]:
    """Yield the time of looking and of doing, the memory both took on top, and how many answers or marks were lost."""
    with TemporaryDirectory() as folder:
        settings = Settings.from_environment(Path(folder), {})
        upgrade(settings.database)
        library = load_library(settings.packs)
        with closing(UnitOfWork(create_engine_for(settings.database))) as uow:
            actors = [open_visit(uow, guest("en", START), START).actor for _ in range(people)]
            spoilt = _answer_all(uow, library, actors)
            yield from _measure(uow, library, actors[0].school_id, (people * EACH, spoilt))


def _measure(uow: UnitOfWork, library: Library, school_id: UUID, made: tuple[int, int]) -> Iterator[Reading]:
    answers, spoilt = made
    before, started = _peak_mb(), perf_counter()
    seen = plan(uow, library, school_id, Past(FAMILY))
    planned = perf_counter()
    apply(uow, library, school_id, Past(FAMILY), WHO, START + timedelta(days=30))
    done = perf_counter()
    again = plan(uow, library, school_id, Past(FAMILY))
    with uow.reader() as connection:
        kept, right = connection.execute(select(func.count(), func.sum(case((ATTEMPT.c.correct, 1), else_=0)))).one()
        both = connection.scalar(select(func.count()).select_from(REGRADED)) or 0
    yield Reading(f"regrade: look at {answers} answers", planned - started, "s")
    yield Reading(f"regrade: mark them again, {seen.to_right} changed", done - planned, "s")
    yield Reading("regrade: memory on top", _peak_mb() - before, "MB")
    lost = (answers - kept) + (spoilt - both) + seen.lost + again.changed + (answers - right)
    yield Reading("regrade: answers, marks or changes lost", lost, "", 0)


def _answer_all(uow: UnitOfWork, library: Library, actors: Sequence[Actor]) -> int:
    """Let everybody answer all rightly, and call every third answer wrong; returns how many those are."""
    drawn = _drawn(library, actors[0])
    spoilt = 0
    for number, actor in enumerate(actors):
        drill = new_drill(actor, new_id(START), None, number, START)
        chosen = [drawn[(number * EACH + place) % DIFFERENT] for place in range(EACH)]
        places = [_place(row, position) for position, row in enumerate(chosen, 1)]
        rows = [_given(row, actor, place, number) for row, place in zip(chosen, places, strict=True)]
        with uow.writer() as connection:
            drills.add_drill(connection, drill, places)
            _add(connection, rows)
        spoilt += sum(not row.correct for row in rows)
    return spoilt


def _drawn(library: Library, actor: Actor) -> Sequence[AttemptRow]:
    """Return right answers to different items, of nobody."""
    found = []
    for seed in range(DIFFERENT):
        item = draw(library, FAMILY, seed, actor.conventions, "typed")
        reply = Reply(item.key, f"{item.key:03.0f}")
        graded = Graded(item, reply, grade(library, item, reply), read_difficulty(library, FAMILY, None))
        found.append(new_attempt(library, actor, new_id(START), graded, 20_000, START))
    return found


def _place(row: AttemptRow, position: int) -> PlaceRow:
    return PlaceRow(
        new_id(START), position, row.family, row.family_version, row.pack, row.pack_version, row.seed, row.form
    )


def _given(row: AttemptRow, actor: Actor, place: PlaceRow, number: int) -> AttemptRow:
    when = START + timedelta(minutes=number + place.position)
    right = (number + place.position) % WRONGLY != 0
    whose = row._replace(id=new_id(when), drill_item_id=place.id, visit_id=actor.own_visit, answered_at=when)
    return whose._replace(correct=right, share=float(right))


def _add(connection: Connection, rows: Sequence[AttemptRow]) -> None:
    for row in rows:
        attempts.add_attempt(connection, row)


def _peak_mb() -> float:
    """Return the most memory this process has held so far."""
    unit = 1 if sys.platform == "darwin" else 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * unit / 1e6
