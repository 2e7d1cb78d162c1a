"""How good the questions of a school are, for its pages: the worst first, each figure with what is behind it."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import NamedTuple

from app.insight.distributions import wilson
from app.insight.item_quality import (
    LEAST_FOR_FLAGS,
    LEAST_FOR_OPTIONS,
    AnswersToFamily,
    Flag,
    Quality,
    RestSums,
    judge_family,
)
from app.insight.weak_spots import FEW_STUDENTS
from app.learner.difficulty import GRADES
from app.packs.library import Library
from app.packs.spec import Family
from app.services.actor import Actor
from app.services.errors import NotFound
from app.services.today import misconception_words
from app.storage import models
from app.storage.models import MeasuredDifficulty, SetQuality
from app.storage.queries import quality
from app.storage.queries.measured import find_measured
from app.storage.unit_of_work import UnitOfWork

# The order in which flags call for somebody to look.
WORST: Sequence[Flag] = (
    "negative-discrimination",
    "too-hard",
    "weak-discrimination",
    "unexplained-value",
    "idle-option",
    "too-easy",
)


class QualityLine(NamedTuple):
    """A kind of question in one school; `fixed`: written by hand. Nothing is judged unless `judged`."""

    family: str
    title: str
    topic: str
    fixed: bool
    quality: Quality
    low: float
    high: float
    rest_answers: int
    timed: int
    median_s: int | None
    mean_s: float | None

    @property
    def judged(self) -> bool:
        """Whether there are answers enough to judge by."""
        return self.quality.answers >= LEAST_FOR_FLAGS


class SetLine(NamedTuple):
    """A topic set with the same numbers for all: KR-20 with its interval, and its items with their families' titles."""

    title: str
    row: SetQuality
    titles: Sequence[str]

    @property
    def judged(self) -> bool:
        """Whether enough students stand behind KR-20 to show it."""
        return self.row.reliability is not None and self.row.students >= FEW_STUDENTS


class QualityList(NamedTuple):
    """All kinds of questions with answers, the worst first; `counted_at` is None before the first count."""

    lines: Sequence[QualityLine]
    topics: Sequence[tuple[str, str]]
    sets: Sequence[SetLine]
    counted_at: datetime | None


class OptionLine(NamedTuple):
    """A misconception among the options: how often shown and taken, and whether that can be judged."""

    id: str
    name: str
    offered: int
    chosen: int
    judged: bool
    idle: bool


class DifficultyLine(NamedTuple):
    """How hard its author took a kind of question to be, and how hard it is, on the grades' scale of logits.

    low, high: where the measured value lies in two cases of three. measured: None while nothing was measured.
    """

    grade: str
    graded: float
    measured: MeasuredDifficulty | None
    low: float
    high: float

    @property
    def nearest(self) -> str:
        """The grade that lies nearest to what was measured."""
        at = self.measured.difficulty["plain"] if self.measured else self.graded
        return min(GRADES, key=lambda grade: abs(GRADES[grade] - at))


class FamilyQuality(NamedTuple):
    """One kind of question in full; `line` is None while nobody has answered it."""

    family: str
    title: str
    topic_title: str
    version: int
    line: QualityLine | None
    options: Sequence[OptionLine]
    difficulty: DifficultyLine


def list_quality(uow: UnitOfWork, actor: Actor, library: Library, topic: str = "") -> QualityList:
    """Return the figures of the actor's school, of all topics or one."""
    with uow.reader() as connection:
        rows = quality.list_qualities(connection, actor.school_id)
        sets = quality.list_set_qualities(connection, actor.school_id)
        counted_at = quality.find_run(connection, actor.school_id)
    lines = [_line(library.family(row.family), row, actor) for row in rows if row.family in library.families]
    shown = [line for line in lines if not topic or line.topic == topic]
    topics = [(pack.id, pack.title.of(actor.language)) for pack in library.packs.values()]
    held = {line.topic for line in lines}
    return QualityList(
        lines=sorted(shown, key=_badness),
        topics=[each for each in topics if each[0] in held],
        sets=[
            SetLine(title, row, [_title(library, each["family"], actor) for each in row.items]) for row, title in sets
        ],
        counted_at=counted_at,
    )


def family_quality(uow: UnitOfWork, actor: Actor, library: Library, family_id: str) -> FamilyQuality:
    """Return one kind of question in full; NotFound for one there is not."""
    family = library.families.get(family_id)
    if family is None:
        raise NotFound(family_id)
    with uow.reader() as connection:
        row = quality.find_quality(connection, actor.school_id, family_id)
        found = find_measured(connection, actor.school_id, family_id)
    line = _line(family, row, actor) if row else None
    return FamilyQuality(
        family=family_id,
        title=family.title.of(actor.language),
        topic_title=library.pack_of(family_id).title.of(actor.language),
        version=family.version,
        line=line,
        options=_options(library, row, line.quality.idle, actor) if row and line else (),
        difficulty=_difficulty(family, found),
    )


def _difficulty(family: Family, found: MeasuredDifficulty | None) -> DifficultyLine:
    graded = GRADES[family.grade]
    at, error = (found.difficulty["plain"], found.error) if found else (graded, 0.0)
    return DifficultyLine(family.grade, graded, found, at - error, at + error)


def _line(family: Family, row: models.FamilyQuality, actor: Actor) -> QualityLine:
    rest = RestSums(row.rest_answers, row.rest_correct, row.rest_sum, row.rest_squares, row.rest_products)
    figures = AnswersToFamily(
        family=family.id,
        answers=row.answers,
        right=row.correct,
        rest=rest,
        chosen=row.chosen,
        offered=row.offered,
        unmatched=row.unmatched,
    )
    low, high = wilson(row.correct, row.answers)
    return QualityLine(
        family=family.id,
        title=family.title.of(actor.language),
        topic=family.topic,
        fixed=family.solver == "fixed",
        quality=judge_family(figures),
        low=low,
        high=high,
        rest_answers=row.rest_answers,
        timed=row.timed,
        median_s=_median(row.times),
        mean_s=row.took_ms / 1000 / row.timed if row.timed else None,
    )


def _median(times: Mapping[str, int]) -> int | None:
    """Return the lower median of whole seconds that are counted."""
    half = (sum(times.values()) + 1) // 2
    seen = 0
    for second in sorted(times, key=int):
        seen += times[second]
        if seen >= half:
            return int(second)
    return None


def _badness(line: QualityLine) -> tuple[int, int, float, str]:
    flags = line.quality.flags
    worst = min((WORST.index(flag) for flag in flags), default=len(WORST))
    return worst if line.judged else len(WORST) + 1, -len(flags), line.quality.share_right, line.family


def _options(library: Library, row: models.FamilyQuality, idle: Sequence[str], actor: Actor) -> Sequence[OptionLine]:
    lines = [
        OptionLine(
            id=name,
            name=misconception_words(library, row.family, name, actor) or name,
            offered=offered,
            chosen=row.chosen.get(name, 0),
            judged=offered >= LEAST_FOR_OPTIONS,
            idle=name in idle,
        )
        for name, offered in row.offered.items()
    ]
    return sorted(lines, key=lambda line: (-line.chosen / line.offered, line.name))


def _title(library: Library, family_id: str, actor: Actor) -> str:
    family = library.families.get(family_id)
    return family.title.of(actor.language) if family else family_id
