"""How ready somebody is for an exam: in words, by section, today or on a day, from what practice has shown."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta
from math import ceil
from typing import NamedTuple

from app.learner.difficulty import FamilyDifficulty
from app.learner.evidence import Level, Skill, aged
from app.learner.readiness import LEAST_ANSWERS_A_SKILL, Asked, Section, Words, readiness
from app.packs.library import Library
from app.services.actor import Actor
from app.services.difficulty import list_difficulties
from app.services.errors import Conflict, Invalid
from app.services.exam_profiles import ExamProfile, ExamSection
from app.services.learning import LearnerState, find_state
from app.services.messages import say
from app.services.withdrawals import offered
from app.storage.unit_of_work import UnitOfWork

FARTHEST = timedelta(days=730)
MOST_NEXT = 5


class KindView(NamedTuple):
    """A kind of question to practise."""

    id: str
    title: str


class SectionReadiness(NamedTuple):
    """A section that is rehearsed here; missing: its kinds with too few answers to say anything."""

    title: str
    words: Words
    kinds: int
    missing: int
    next: tuple[KindView, ...]


class ReadinessView(NamedTuple):
    """Readiness for a profile; on: the day it is for, None for today. limiting: the section to work on first."""

    profile: ExamProfile
    words: Words
    on: date | None
    sections: tuple[SectionReadiness, ...]
    limiting: SectionReadiness


def ready_for(
    uow: UnitOfWork, actor: Actor, library: Library, profile: ExamProfile, when: tuple[str, datetime]
) -> ReadinessView:
    """Return how ready the actor is for a profile; when: (the day as typed, or nothing for today; now).

    Invalid for what is no day from today to two years ahead.
    """
    typed, now = when
    on = read_day(typed, actor, now)
    today = actor.day_of(now)
    moment = now if on is None else now + (on - today)
    library = offered(uow, actor, library)
    state, difficulties = _known(uow, actor, library)
    skills = {name: aged(each.skill, moment) for name, each in state.skills.items()}
    blueprints = ((each, _blueprint(library, profile, each, difficulties)) for each in profile.sections if each.asked)
    asked = {section: blueprint for section, blueprint in blueprints if blueprint.asked}
    if not asked:
        raise Conflict(say("nothing-offered", actor.language, place=actor.conventions.place))
    whole = readiness(state.level, skills, tuple(asked.values()), _least(profile.pass_percent, profile.asked))
    chances = {
        section.id: readiness(state.level, skills, (blueprint,), _section_least(profile, section))
        for section, blueprint in asked.items()
    }
    views = {
        section.id: _section(library, actor, section, blueprint, (state.level, skills), chances[section.id].words)
        for section, blueprint in asked.items()
    }
    first = min(views, key=lambda name: (not views[name].missing, chances[name].chance))
    return ReadinessView(profile, whole.words, on, tuple(views.values()), views[first])


def read_day(typed: str, actor: Actor, now: datetime) -> date | None:
    """Return the day somebody typed; nothing is None."""
    if not typed.strip():
        return None
    today = actor.day_of(now)
    try:
        day = date.fromisoformat(typed.strip())
    except ValueError:
        day = date.min
    if not today <= day <= today + FARTHEST:
        example = (today + timedelta(days=30)).isoformat()
        raise Invalid(say("readiness-day", actor.language, value=typed, example=example), "on")
    return day


def spread(questions: int, families: Sequence[str]) -> Mapping[str, int]:
    """Return how many questions fall on each family, as evenly as whole questions can; those with none are left out."""
    count = len(families)
    shares = {name: (i + 1) * questions // count - i * questions // count for i, name in enumerate(families)}
    return {name: share for name, share in shares.items() if share}


def _known(uow: UnitOfWork, actor: Actor, library: Library) -> tuple[LearnerState, Mapping[str, FamilyDifficulty]]:
    with uow.reader() as connection:
        difficulties = list_difficulties(connection, actor.school_id, library)
        if actor.visit_id is None:
            return LearnerState(), difficulties
        return find_state(connection, actor.school_id, actor.visit_id), difficulties


def _blueprint(
    library: Library, profile: ExamProfile, section: ExamSection, difficulties: Mapping[str, FamilyDifficulty]
) -> Section:
    """Return the section as the learner model reads it: which families, how many questions, how hard."""
    shares = spread(section.asked, profile.families_of(section, library))
    asked = tuple(Asked(name, share, profile.options, difficulties[name].plain) for name, share in shares.items())
    return Section(section.id, asked, _least(section.pass_percent, section.asked))


def _section_least(profile: ExamProfile, section: ExamSection) -> int:
    """Return the least number right: the section's own mark, or the exam's where it has none."""
    return _least(section.pass_percent or profile.pass_percent, section.asked)


def _least(percent: int, questions: int) -> int:
    return ceil(percent * questions / 100)


def _section(
    library: Library,
    actor: Actor,
    section: ExamSection,
    blueprint: Section,
    known: tuple[Level, Mapping[str, Skill]],
    words: Words,
) -> SectionReadiness:
    skills = known[1]
    families = [asked.family for asked in blueprint.asked]
    missing = [name for name in families if skills.get(name, Skill()).answers < LEAST_ANSWERS_A_SKILL]
    weakest = missing or sorted(families, key=lambda name: skills[name].mean - skills[name].misconceived)
    return SectionReadiness(
        title=section.title.of(actor.language),
        words=words,
        kinds=len(families),
        missing=len(missing),
        next=tuple(KindView(name, library.family(name).title.of(actor.language)) for name in weakest[:MOST_NEXT]),
    )
