"""Counting how good the questions are, once a night: only the answers that came since the last count are read."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any
from uuid import UUID

from app.grader.reply import Reply
from app.packs.library import Library
from app.physics.angles import difference
from app.services.items import find_item, stamp_of
from app.services.own_library import school_library
from app.storage.models import FamilyQuality
from app.storage.queries import quality
from app.storage.queries.quality import CountedAttempt, SumsRow
from app.storage.unit_of_work import UnitOfWork

# An answer's id is made before its transaction ends: what is younger than this waits for the next count.
SETTLED_AFTER = timedelta(minutes=5)
LONGEST_S = 600
MOST_VALUES = 200


@dataclass(slots=True)
class _Counts:
    times: Counter[str] = field(default_factory=Counter)
    offered: Counter[str] = field(default_factory=Counter)
    chosen: Counter[str] = field(default_factory=Counter)
    unmatched: Counter[str] = field(default_factory=Counter)

    def add(self, library: Library, attempt: CountedAttempt) -> None:
        """Count one answer."""
        if attempt.took_ms is not None:
            self.times[str(min(LONGEST_S, round(attempt.took_ms / 1000)))] += 1
        if attempt.evidence and attempt.evidence["options"]:
            self.offered.update(attempt.evidence["offered"])
            self.chosen.update(attempt.misconceptions)
        elif attempt.form == "typed" and not attempt.correct and not attempt.misconceptions:
            gap = gap_from_key(library, attempt)
            if gap is not None:
                self.unmatched[gap] += 1

    def onto(self, before: FamilyQuality | None) -> dict[str, Any]:
        """Return these counts added to the kept ones."""
        found: dict[str, Any] = {}
        for name in _Counts.__slots__:
            kept: dict[str, int] = getattr(before, name) if before else {}
            found[name] = dict((Counter(kept) + getattr(self, name)).most_common())
        found["unmatched"] = dict(Counter(found["unmatched"]).most_common(MOST_VALUES))
        return found


def count_all(uow: UnitOfWork, library: Library, now: datetime) -> int:
    """Count every school; returns how many answers were new."""
    with uow.reader() as connection:
        schools = quality.list_all_schools(connection)
    return sum(count_school(uow, school_library(uow, school_id, library), school_id, now) for school_id in schools)


def count_school(uow: UnitOfWork, library: Library, school_id: UUID, now: datetime) -> int:
    """Count the answers of a school that came since its last count; returns how many they were."""
    with uow.reader() as connection:
        last = quality.find_last_counted(connection, school_id)
    counts: defaultdict[str, _Counts] = defaultdict(_Counts)
    new = 0
    for attempt in _attempts_after(uow, school_id, last, now - SETTLED_AFTER):
        counts[attempt.family].add(library, attempt)
        last = attempt.id
        new += 1
    _keep(uow, school_id, counts, (last, now))
    return new


def count_family_again(uow: UnitOfWork, library: Library, school_id: UUID, family: str, now: datetime) -> None:
    """Count all answers to a family again that have been counted, after their marks have changed."""
    with uow.reader() as connection:
        last = quality.find_last_counted(connection, school_id)
    if last == quality.NOTHING_YET:
        return
    counts, after = _Counts(), quality.NOTHING_YET
    while True:
        with uow.reader() as connection:
            batch = quality.list_counted_attempts(connection, school_id, family, (after, last))
        for attempt in batch:
            counts.add(library, attempt)
        if len(batch) < quality.BATCH:
            break
        after = batch[-1].id
    _keep(uow, school_id, {family: counts}, (last, now), anew=family)


def _keep(
    uow: UnitOfWork, school_id: UUID, counts: Mapping[str, _Counts], run: tuple[UUID, datetime], anew: str = ""
) -> None:
    """Keep counts on top of the kept ones, those of `anew` in their place; `run`: (the last attempt counted, when)."""
    from app.services.set_quality import judge_sets  # noqa: PLC0415 - brings numpy: a server that only asks needs none

    last, now = run
    with uow.reader() as connection:
        sums = quality.sum_families(connection, school_id)
        before = {row.family: row for row in quality.list_qualities(connection, school_id) if row.family != anew}
        sets = tuple(judge_sets(school_id, quality.list_set_marks(connection, school_id), now))
    nothing = _Counts()
    rows = [_row(school_id, each, counts.get(each.family, nothing).onto(before.get(each.family)), now) for each in sums]
    with uow.writer() as connection:
        quality.forget_qualities(connection, school_id)
        for row in rows:
            quality.keep_quality(connection, row)
        for of_set in sets:
            quality.keep_set_quality(connection, of_set)
        quality.keep_run(connection, school_id, last, now)


def gap_from_key(library: Library, attempt: CountedAttempt) -> str | None:
    """Return how a typed number differs from the key; None where the item is no longer drawn as it was shown."""
    item = find_item(library, attempt, attempt.conventions)
    value = Reply.from_json(attempt.answer).value
    if item is None or stamp_of(item) != attempt.shown["stamp"] or not isinstance(value, int | float):
        return None
    gap = difference(value, item.key) if item.value.kind == "heading" else value - item.key
    return f"{gap:+.4g}"


def _attempts_after(uow: UnitOfWork, school_id: UUID, last: UUID, until: datetime) -> Iterator[CountedAttempt]:
    while True:
        with uow.reader() as connection:
            batch = quality.list_next_attempts(connection, school_id, last, until)
        yield from batch
        if len(batch) < quality.BATCH:
            return
        last = batch[-1].id


def _row(school_id: UUID, sums: SumsRow, counts: dict[str, Any], now: datetime) -> FamilyQuality:
    return FamilyQuality(school_id=school_id, counted_at=now, **sums._asdict(), **counts)
