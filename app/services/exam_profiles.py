"""Exam profiles: what an exam is like and which of its sections our topics serve. Built in, or a school's own copy."""

import tomllib
from collections.abc import Sequence
from datetime import date, datetime
from functools import cache
from math import ceil
from pathlib import Path
from typing import Annotated, Literal, Self
from uuid import UUID

from pydantic import Field, model_validator

from app.packs.library import Library
from app.packs.spec import Filled, Id, Spec, Text
from app.services.actor import Actor
from app.services.audit import note
from app.services.errors import NotFound
from app.storage import models
from app.storage.ids import new_id
from app.storage.queries import exam_profiles
from app.storage.unit_of_work import UnitOfWork

BUILT_IN = Path(__file__).with_suffix(".toml")
MOST_QUESTIONS, MOST_MINUTES, MOST_OPTIONS = 200, 480, 6
Percent = Annotated[int, Field(ge=0, le=100)]


class ExamSection(Spec):
    """A section of an exam: how many questions it has and how many a rehearsal asks.

    pass_percent: 0 where it has no mark of its own. covered_percent: about how much of it our topics cover, by our own
    estimate.
    """

    id: Id
    title: Text
    questions: Annotated[int, Field(ge=1, le=MOST_QUESTIONS)]
    asked: Annotated[int, Field(ge=0, le=MOST_QUESTIONS)]
    pass_percent: Percent
    covered_percent: Percent
    topics: tuple[Id, ...] = ()
    families: tuple[Id, ...] = ()

    @model_validator(mode="after")
    def _asks_of_something(self) -> Self:
        if self.asked and not (self.topics or self.families):
            raise ValueError(f"section {self.id} asks questions of no topic")
        return self


class ExamProfile(Spec):
    """An exam as a record, with where its figures were seen and when they were checked.

    options: as many a choice of a rehearsal has at most.
    """

    id: Id
    name: Text
    questions: Annotated[int, Field(ge=1, le=MOST_QUESTIONS)]
    minutes: Annotated[int, Field(ge=1, le=MOST_MINUTES)]
    pass_percent: Percent
    options: Annotated[int, Field(ge=2, le=MOST_OPTIONS)]
    tools: Text
    source: Filled
    seen: Literal["official", "secondary", "school"]
    checked: date
    note: Text | None = None
    sections: Annotated[tuple[ExamSection, ...], Field(min_length=1)]

    @model_validator(mode="after")
    def _adds_up(self) -> Self:
        if sum(section.questions for section in self.sections) != self.questions:
            raise ValueError(f"the sections of {self.id} do not add up to {self.questions}")
        if not self.asked:
            raise ValueError(f"a rehearsal of {self.id} would ask nothing")
        return self

    @property
    def own(self) -> bool:
        """Whether it is a school's own copy."""
        return all(self.id != built_in.id for built_in in built_in_profiles())

    @property
    def asked(self) -> int:
        """How many questions a rehearsal asks."""
        return sum(section.asked for section in self.sections)

    @property
    def rehearsal_minutes(self) -> int:
        """How long a rehearsal takes: the exam's time for as many questions."""
        return ceil(self.minutes * self.asked / self.questions)

    @property
    def covered_percent(self) -> int:
        """About how much of the whole exam our topics cover."""
        return round(sum(each.covered_percent * each.questions for each in self.sections) / self.questions)

    def families_of(self, section: ExamSection, library: Library) -> tuple[str, ...]:
        """Return the families a section asks of: those it names, and those of its topics no other section names."""
        elsewhere = {family for each in self.sections if each is not section for family in each.families}
        of_topics = (
            family for topic in section.topics if topic in library.packs for family in library.packs[topic].families
        )
        wanted = dict.fromkeys((*section.families, *(each for each in of_topics if each not in elsewhere)))
        return tuple(each for each in wanted if each in library.families)


@cache
def built_in_profiles() -> tuple[ExamProfile, ...]:
    """Return the profiles that come with the program."""
    return tuple(ExamProfile.model_validate(each) for each in tomllib.loads(BUILT_IN.read_text("utf-8"))["profiles"])


def list_profiles(uow: UnitOfWork, actor: Actor) -> Sequence[ExamProfile]:
    """Return the school's own profiles, then the built-in ones."""
    with uow.reader() as connection:
        own = exam_profiles.list_profiles(connection, actor.school_id)
    return (*(ExamProfile.model_validate(row.profile) for row in own), *built_in_profiles())


def get_profile(uow: UnitOfWork, actor: Actor, profile_id: str) -> ExamProfile:
    """Return a profile by its id; NotFound for another school's."""
    for profile in list_profiles(uow, actor):
        if profile.id == profile_id:
            return profile
    raise NotFound(profile_id)


def copy_profile(uow: UnitOfWork, actor: Actor, profile_id: str, now: datetime) -> UUID:
    """Make the school a copy of a profile, to be changed; returns its id."""
    copied = get_profile(uow, actor, profile_id)
    own_id = new_id(now)
    own = copied.model_copy(update={"id": str(own_id)})
    with uow.writer() as connection:
        kept = models.ExamProfile(actor.school_id, own_id, own.model_dump(mode="json"), now, now)
        exam_profiles.add_profile(connection, kept)
        note(connection, actor, "exam-profile-copied", copied.name.of(actor.language), now)
    return own_id


def remove_profile(uow: UnitOfWork, actor: Actor, profile_id: UUID, now: datetime) -> None:
    """Take a profile of the school's own away; rehearsals keep their copy. NotFound for another school's."""
    with uow.writer() as connection:
        row = exam_profiles.find_profile(connection, actor.school_id, profile_id)
        if row is None:
            raise NotFound(profile_id)
        exam_profiles.remove_profile(connection, actor.school_id, profile_id)
        name = ExamProfile.model_validate(row.profile).name.of(actor.language)
        note(connection, actor, "exam-profile-removed", name, now)
