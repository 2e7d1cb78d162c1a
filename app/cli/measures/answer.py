"""What one answer costs in the whole application, session, token and transaction included, against the floor.

The floor is measured between the drills, over and over, so that whatever else the machine does meanwhile weighs on both
alike; and once after each answer, when the processor has other things at hand, as it has when an answer comes.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from itertools import count
from operator import truediv
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import process_time

import click

from app.cli.measures import Reading, cpu_ms
from app.cli.measures.floor import floor_application, poster
from app.cli.measures.visitor import Visitor, fill_form
from app.storage.migrate import upgrade
from app.web.factory import running
from app.web.question_page import AT_ONCE
from app.web.settings import Settings

DRILLS = 100  # the first half meets every kind of question, and is not counted
FLOOR_ROUNDS = 20
GOAL = 2.4
FIRST_SEED = 20_000
KINDS = {"answer": "/topics", "answer where the drill adapts": "/today"}  # where each kind of drill starts


@dataclass
class _Costs:
    """Processor times in milliseconds, one of each an answer; of `floor`, one a batch between two drills."""

    asked: list[float] = field(default_factory=list)
    answered: list[float] = field(default_factory=list)
    floor: list[float] = field(default_factory=list)
    floor_once: list[float] = field(default_factory=list)


def measure() -> Iterator[Reading]:
    """Yield, for each kind of drill, the parts of the median answer and what they are as multiples of the floor."""
    for name, start in KINDS.items():
        with _standing_ready() as (visitor, floor):
            _practise(visitor, start, floor)
            yield from _readings(name, _practise(visitor, start, floor))


@contextmanager
def _standing_ready() -> Iterator[tuple[Visitor, Callable[[], object]]]:
    """Yield a visitor of the application, and what posts an answer to the floor."""
    seeds = count(FIRST_SEED)
    with TemporaryDirectory() as folder:
        settings = Settings.from_environment(Path(folder), {})
        upgrade(settings.database)
        with (
            running(settings, draw_seed=lambda: next(seeds)) as application,
            floor_application(Path(folder) / "floor.sqlite3") as floor,
        ):
            yield Visitor(application), poster(floor, "/answer")


def _practise(visitor: Visitor, start: str, floor: Callable[[], object]) -> _Costs:
    costs = _Costs()
    for _ in range(DRILLS // 2):
        _drill(visitor, start, floor, costs)
        costs.floor.append(cpu_ms(floor, FLOOR_ROUNDS))
    return costs


def _drill(visitor: Visitor, start: str, floor: Callable[[], object], costs: _Costs) -> None:
    """Go through one drill as a browser with scripts does; an answer that was not taken is not counted."""
    action = "/drills" if start == "/topics" else start
    started = visitor.post(action, fill_form(visitor.get(start).page, action))
    path, _, position = started.location.rpartition("/")
    while (question := visitor.get(f"{path}/{position}")).status == 200:
        filled = fill_form(question.page, f"{path}/{position}")
        answer = visitor.post(f"{path}/{position}", filled | {AT_ONCE: "1"})
        position = str(int(position) + 1)
        if answer.status == 422:
            continue
        if answer.status != 200 or 'id="verdict"' not in answer.page:
            raise click.ClickException(f"an answer got {answer.status}: nothing to measure before it works")
        costs.asked.append(question.cpu_ms)
        costs.answered.append(answer.cpu_ms)
        begun = process_time()
        floor()
        costs.floor_once.append((process_time() - begun) * 1000)


def _readings(name: str, costs: _Costs) -> Iterator[Reading]:
    floor_ms = median(costs.floor)
    yield Reading(f"{name}: the floor meanwhile", floor_ms, "ms")
    yield Reading(f"{name}: with its verdict page ({len(costs.answered)})", median(costs.answered), "ms")
    yield Reading(f"{name}: question page / floor", median(costs.asked) / floor_ms, "x")
    yield Reading(f"{name}: with its verdict page / floor", median(costs.answered) / floor_ms, "x", GOAL)
    once = median(map(truediv, costs.answered, costs.floor_once))
    yield Reading(f"{name}: with its verdict page / floor once", once, "x")
