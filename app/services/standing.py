"""How somebody stands with what was assigned: not started, in progress or done; late or not; the best score."""

from collections.abc import Sequence
from datetime import datetime
from enum import StrEnum
from typing import NamedTuple

from app.storage.queries.sittings import CountedSitting


class Stage(StrEnum):
    """How far a student is."""

    NOT_STARTED = "not-started"
    IN_PROGRESS = "in-progress"
    DONE = "done"


class Standing(NamedTuple):
    """How a student stands.

    due_at: the time that holds for this student, None where there is none; joined_late: they came after it, so that
    they are never late. done_at: when the first sitting ended. percent: of the best sitting that has ended.
    """

    stage: Stage
    due_at: datetime | None
    joined_late: bool
    late: bool
    done_at: datetime | None
    percent: float | None


def ended_at(sitting: CountedSitting, now: datetime) -> datetime | None:
    """Return when a sitting ended: handed in, or out of time; None while it goes on."""
    if sitting.finished_at is not None:
        return sitting.finished_at
    return sitting.ends_at if sitting.ends_at is not None and now >= sitting.ends_at else None


def percent_of(sitting: CountedSitting) -> float | None:
    """Return the right answers of all questions, in per cent: what was not answered is not right.

    None where all its questions were set aside.
    """
    return 100 * sitting.right / sitting.length if sitting.length else None


def standing(
    due: tuple[datetime | None, datetime | None], joined_at: datetime, sat: Sequence[CountedSitting], now: datetime
) -> Standing:
    """Return how a student stands; `due` is everybody's time and the student's own extension."""
    for_all, extended = due
    joined_late = for_all is not None and extended is None and joined_at > for_all
    due_at = None if joined_late else extended or for_all
    ends = [ended for each in sat if (ended := ended_at(each, now)) is not None]
    done_at = min(ends, default=None)
    stage = Stage.DONE if ends else Stage.IN_PROGRESS if sat else Stage.NOT_STARTED
    late = due_at is not None and (done_at or now) > due_at
    percents = [percent_of(each) for each in sat if ended_at(each, now) is not None]
    best = max((each for each in percents if each is not None), default=None)
    return Standing(stage, due_at, joined_late, late, done_at, best)
