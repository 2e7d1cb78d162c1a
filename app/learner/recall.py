"""When a skill should be reviewed, by FSRS-6. It says when, never whether somebody knows it."""

from dataclasses import dataclass
from datetime import UTC, datetime

from fsrs import Card, Rating, Scheduler, State

DESIRED_RECALL = 0.9


@dataclass(frozen=True, slots=True)
class Recall:
    """The memory state of one skill; `due` is when its review falls due."""

    due: datetime
    last_at: datetime
    stability: float
    difficulty: float
    learning_step: int | None
    state: int


def review(recall: Recall | None, *, correct: bool, now: datetime) -> Recall:
    """Return the memory state after a review at `now` (aware); intervals are not scattered, so they can be repeated."""
    if now.tzinfo is None:
        raise ValueError(f"{now.isoformat()} has no time zone")
    rating = Rating.Good if correct else Rating.Again
    card, _ = _scheduler().review_card(_card(recall, now), rating, now.astimezone(UTC))
    return Recall(
        due=card.due,
        last_at=now,
        stability=float(card.stability or 0.0),
        difficulty=float(card.difficulty or 0.0),
        learning_step=card.step,
        state=int(card.state),
    )


def recall_chance(recall: Recall, now: datetime) -> float:
    """Return the chance that the skill is still remembered, from 0 to 1."""
    return float(_scheduler().get_card_retrievability(_card(recall, now), now.astimezone(UTC)))


def _scheduler() -> Scheduler:
    return Scheduler(desired_retention=DESIRED_RECALL, enable_fuzzing=False)


def _card(recall: Recall | None, now: datetime) -> Card:
    if recall is None:
        return Card(card_id=1, due=now.astimezone(UTC))
    return Card(
        card_id=1,
        state=State(recall.state),
        step=recall.learning_step,
        stability=recall.stability,
        difficulty=recall.difficulty,
        due=recall.due,
        last_review=recall.last_at.astimezone(UTC),
    )
