"""Learning from answers: the learner model's state, moved by each answer in the answer's own transaction.

The state follows from the attempts alone: each keeps the evidence it gave, so that making the state anew gives the
same, bit for bit, whatever the packs have become.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any
from uuid import UUID

from sqlalchemy import Connection

from app.learner import evidence as model
from app.learner.difficulty import FamilyDifficulty
from app.learner.evidence import Evidence, Level, Posed, Skill
from app.learner.mastery import judge
from app.learner.recall import Recall, review
from app.packs.library import Library
from app.questions.model import LIST_FORMS, OPTION_FORMS, Item
from app.questions.wording import WordedItem
from app.storage.queries import learners
from app.storage.queries.attempts import AttemptRow
from app.storage.queries.learners import AnswerRow, KnownRow, LearnerRow, SkillRow
from app.storage.unit_of_work import UnitOfWork

# Far faster than anybody reads: a fifth of an ordinary reading time of 240 ms a word (common practice, no source).
FAST_MS_A_WORD = 50
FAST_MS = 1000


@dataclass(frozen=True, slots=True)
class SkillState:
    """One family's skill with what is kept beside it."""

    skill: Skill
    recall: Recall | None = None
    met: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    mastered: bool = False
    best: float = 0.0
    since_gain: int = 0


@dataclass(frozen=True, slots=True)
class LearnerState:
    """All that is known of a visit; a family never answered is not in `skills`."""

    level: Level = field(default_factory=Level)
    skills: Mapping[str, SkillState] = field(default_factory=dict)


def evidence_of(
    library: Library, item: Item, worded: WordedItem, took_ms: int | None, difficulty: FamilyDifficulty, day: date
) -> dict[str, Any]:
    """Return, as plain values, what an answer to an item says to the learner model, right or wrong.

    day: the date where the learner is. It is kept, so that a school that moves its clock changes no past day.
    """
    posed = posed_of(library, item, difficulty)
    return {
        "difficulty": posed.difficulty,
        "features": dict(item.solution.features),
        "options": posed.options,
        "offered": list(posed.offered),
        "listed": posed.listed,
        "known": [each.id for each in library.family(item.family).misconceptions],
        "day": day.isoformat(),
        "fast": took_ms is not None and took_ms < max(FAST_MS, FAST_MS_A_WORD * count_words(worded)),
    }


def posed_of(library: Library, item: Item, difficulty: FamilyDifficulty) -> Posed:
    """Return what the learner model has to know of an item of a family as hard as that."""
    shown = item.misconceptions
    offered = tuple(each.id for each in library.family(item.family).misconceptions if each.id in shown)
    options = len(item.options) if item.form in OPTION_FORMS else 0
    return Posed(difficulty.of(item.solution.features), options, offered, item.form in LIST_FORMS)


def count_words(worded: WordedItem) -> int:
    """Return how many words a question has to be read."""
    return sum(len(text.split()) for text in (worded.stem, *(option.text for option in worded.options)))


def learn(connection: Connection, attempt: AttemptRow, seen: KnownRow | None = None) -> None:
    """Move the state of the attempt's visit, inside the transaction that keeps the attempt.

    seen: what was known when the answer was graded; it is read again where anything has moved it since.
    """
    of = (attempt.school_id, attempt.visit_id)
    moved = _moved(seen, attempt) if seen else None
    if seen and seen.level and moved and learners.move_state(connection, seen.level, *moved):
        return
    if moved := _moved(learners.find_known(connection, *of, attempt.family), attempt):
        learners.keep_state(connection, *moved)


def _moved(known: KnownRow, attempt: AttemptRow) -> tuple[LearnerRow, list[SkillRow]] | None:
    """Return level and skill after an answer; None where it carries no evidence."""
    before = _state(known.level, (known.skill,) if known.skill else ())
    answer = AnswerRow(attempt.family, attempt.correct, attempt.misconceptions, attempt.evidence, attempt.answered_at)
    after = advance(before, answer)
    if after is before:
        return None
    skills = {attempt.family: after.skills[attempt.family]}
    return _rows((attempt.school_id, attempt.visit_id), after.level, skills, attempt.answered_at)


def find_state(connection: Connection, school_id: UUID, visit_id: UUID) -> LearnerState:
    """Return all that is known of a visit."""
    row = learners.find_learner(connection, school_id, visit_id)
    return _state(row, learners.list_skills(connection, school_id, visit_id))


def find_state_without(
    connection: Connection, school_id: UUID, visit_id: UUID, left_out: frozenset[UUID]
) -> LearnerState:
    """Return what would be known of a visit without the answers to some items."""
    state = LearnerState()
    for answer in learners.list_answers(connection, school_id, visit_id):
        if answer.drill_item_id not in left_out:
            state = advance(state, answer)
    return state


def rebuild(connection: Connection, school_id: UUID, visit_id: UUID) -> None:
    """Make a visit's state anew from its attempts."""
    state, changed_at = LearnerState(), None
    for answer in learners.list_answers(connection, school_id, visit_id):
        state = advance(state, answer)
        changed_at = answer.answered_at
    learners.forget_state(connection, school_id, visit_id)
    if changed_at is not None and state.skills:
        rows = _rows((school_id, visit_id), state.level, state.skills, changed_at)
        learners.keep_state(connection, *rows)


def rebuild_all(uow: UnitOfWork) -> int:
    """Make everybody's state anew, a transaction each; returns how many visits there were."""
    with uow.reader() as connection:
        everybody = learners.list_visits_with_answers(connection)
    for school_id, visit_id in everybody:
        with uow.writer() as connection:
            rebuild(connection, school_id, visit_id)
    return len(everybody)


def advance(state: LearnerState, answer: AnswerRow) -> LearnerState:
    """Return the state after an answer; the same state where the answer carries no evidence."""
    if answer.evidence is None:
        return state
    before = state.skills.get(answer.family) or SkillState(model.new_skill(tuple(answer.evidence["known"])))
    seen = seen_in(answer)
    level, skill = model.learn(state.level, before.skill, seen)
    after = _noted(before, level, skill, seen)
    return LearnerState(level, {**state.skills, answer.family: after})


def seen_in(answer: AnswerRow) -> Evidence:
    """Return what a kept answer with evidence says to the learner model."""
    given = answer.evidence or {}
    offered = tuple(given["offered"])
    return Evidence(
        posed=Posed(given["difficulty"], given["options"], offered, given.get("listed", False)),
        correct=answer.correct,
        at=answer.answered_at,
        shown=tuple(name for name in answer.misconceptions if name in offered),
        fast=given["fast"],
        day=date.fromisoformat(given["day"]) if "day" in given else None,
    )


def _noted(before: SkillState, level: Level, skill: Skill, seen: Evidence) -> SkillState:
    """Return the skill with its memory state, what was met, and whether it is mastered now."""
    if seen.fast:
        return SkillState(skill, before.recall, before.met, before.mastered, before.best, before.since_gain)
    mastery = judge(level, skill, seen.at, was_mastered=before.mastered)
    gained = mastery.probability > before.best
    return SkillState(
        skill=skill,
        recall=review(before.recall, correct=seen.correct, now=seen.at),
        met=_met(before.met, skill, seen),
        mastered=mastery.mastered,
        best=max(mastery.probability, before.best),
        since_gain=0 if gained else before.since_gain + 1,
    )


def _met(before: Mapping[str, Mapping[str, Any]], skill: Skill, seen: Evidence) -> Mapping[str, Mapping[str, Any]]:
    met = {name: dict(each) for name, each in before.items()}
    for name in seen.shown:
        so_far = met.get(name, {"times": 0, "highest": 0.0})
        met[name] = {"times": so_far["times"] + 1, "last": seen.at.isoformat(), "highest": so_far["highest"]}
    for name, each in met.items():
        each["highest"] = max(each["highest"], skill.misconceptions.get(name, 0.0))
    return met


def _state(row: LearnerRow | None, skills: tuple[SkillRow, ...]) -> LearnerState:
    if row is None:
        return LearnerState()
    level = Level(row.mean, row.variance)
    return LearnerState(level, {each.family: _skill_state(each) for each in skills})


def _skill_state(row: SkillRow) -> SkillState:
    skill = Skill(
        mean=row.mean,
        variance=row.variance,
        answers=row.answers,
        right=row.correct,
        last_at=row.last_at,
        typed_right=row.typed_right,
        typed_right_days=tuple(date.fromisoformat(day) for day in row.typed_right_days),
        misconceptions=row.misconceptions,
    )
    return SkillState(skill, _recall(row), row.met, row.mastered, row.best, row.since_gain)


def _recall(row: SkillRow) -> Recall | None:
    if row.due_at is None or row.reviewed_at is None or row.memory_state is None:
        return None
    return Recall(
        due=row.due_at,
        last_at=row.reviewed_at,
        stability=row.stability or 0.0,
        difficulty=row.memory_difficulty or 0.0,
        learning_step=row.learning_step,
        state=row.memory_state,
    )


def _rows(
    of: tuple[UUID, UUID], level: Level, skills: Mapping[str, SkillState], now: datetime
) -> tuple[LearnerRow, list[SkillRow]]:
    kept = [_skill_row(of, name, each, now) for name, each in skills.items()]
    return LearnerRow(*of, level.mean, level.variance, now), kept


def _skill_row(of: tuple[UUID, UUID], family: str, kept: SkillState, now: datetime) -> SkillRow:
    skill, recall = kept.skill, kept.recall
    return SkillRow(
        *of,
        family=family,
        mean=skill.mean,
        variance=skill.variance,
        answers=skill.answers,
        correct=skill.right,
        last_at=skill.last_at or now,
        typed_right=skill.typed_right,
        typed_right_days=[day.isoformat() for day in skill.typed_right_days],
        misconceptions=dict(skill.misconceptions),
        met={name: dict(each) for name, each in kept.met.items()},
        mastered=kept.mastered,
        best=kept.best,
        since_gain=kept.since_gain,
        due_at=recall.due if recall else None,
        reviewed_at=recall.last_at if recall else None,
        stability=recall.stability if recall else None,
        memory_difficulty=recall.difficulty if recall else None,
        learning_step=recall.learning_step if recall else None,
        memory_state=recall.state if recall else None,
        changed_at=skill.last_at or now,
    )
