"""What one answer costs in the whole application, session, token and transaction included, against the floor."""

from collections.abc import Iterator
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

import click

from app.cli.measures import Reading, cpu_ms
from app.cli.measures.floor import ROUNDS, floor_application, poster
from app.cli.measures.visitor import Visitor, fill_form
from app.storage.migrate import upgrade
from app.web.factory import create_app
from app.web.settings import Settings

DRILLS = 100  # the first half compiles every text that families have
GOAL = 2.4


def measure() -> Iterator[Reading]:
    """Yield the median answer, its verdict page, and both together as a multiple of the floor."""
    with TemporaryDirectory() as folder:
        settings = Settings.from_environment(Path(folder), {})
        upgrade(settings.database)
        visitor = Visitor(create_app(settings))
        taken = [pair for _ in range(DRILLS) for pair in drill(visitor)]
        pairs = taken[len(taken) // 2 :]
        floor_ms = cpu_ms(poster(floor_application(Path(folder) / "floor.sqlite3"), "/answer"), ROUNDS)
    answer_ms, verdict_ms = (median(each) for each in zip(*pairs, strict=True))
    whole_ms = median(map(sum, pairs))
    yield Reading(f"answer: kept and graded ({len(pairs)})", answer_ms, "ms")
    yield Reading("answer: its verdict page", verdict_ms, "ms")
    yield Reading("answer: kept and graded / floor", answer_ms / floor_ms, "x")
    yield Reading("answer: with its verdict page / floor", whole_ms / floor_ms, "x", GOAL)


def drill(visitor: Visitor) -> Iterator[tuple[float, float]]:
    """Start a drill and yield, for each answer that was taken, the cost of the answer and of its verdict page."""
    start = visitor.post("/drills", fill_form(visitor.get("/topics").page, "/drills"))
    path, _, position = start.location.rpartition("/")
    while (question := visitor.get(f"{path}/{position}")).status == 200:
        answer = visitor.post(f"{path}/{position}", fill_form(question.page, f"{path}/{position}"))
        if answer.status == 303:
            verdict = visitor.get(answer.location)
            if verdict.status != 200:
                raise click.ClickException(
                    f"a verdict page answered {verdict.status}: nothing to measure before it works"
                )
            yield answer.cpu_ms, verdict.cpu_ms
        position = str(int(position) + 1)
