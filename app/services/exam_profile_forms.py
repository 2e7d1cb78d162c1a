"""Changing a school's own exam profile: what its form sends, read and checked as a whole."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from app.packs.library import Library
from app.packs.spec import Text
from app.services.actor import Actor
from app.services.audit import note
from app.services.errors import Conflict, Invalid, NotFound
from app.services.exam_profiles import MOST_MINUTES, MOST_OPTIONS, MOST_QUESTIONS, ExamProfile, ExamSection
from app.services.messages import say
from app.storage.queries import exam_profiles
from app.storage.unit_of_work import UnitOfWork

LONGEST, LONGEST_NOTE = 120, 500
MOST_SECTIONS = 12
Fields = Mapping[str, Sequence[str]]


class OwnProfile(NamedTuple):
    """A school's own profile with the version that a change has to name."""

    id: UUID
    profile: ExamProfile
    version: int


def get_own_profile(uow: UnitOfWork, actor: Actor, profile_id: UUID) -> OwnProfile:
    """Return one of the school's own profiles; NotFound for another school's."""
    with uow.reader() as connection:
        row = exam_profiles.find_profile(connection, actor.school_id, profile_id)
    if row is None:
        raise NotFound(profile_id)
    return OwnProfile(profile_id, ExamProfile.model_validate(row.profile), row.version)


def change_profile(
    uow: UnitOfWork, actor: Actor, library: Library, which: tuple[UUID, int], fields: Fields, now: datetime
) -> None:
    """Change a profile, (id, version last seen). Invalid names the field; Conflict when somebody was quicker."""
    own = get_own_profile(uow, actor, which[0])
    changed = _Reader(own.profile, actor, library, fields).read(now)
    with uow.writer() as connection:
        of = (actor.school_id, own.id)
        if not exam_profiles.change_profile(connection, of, which[1], changed.model_dump(mode="json"), now):
            raise Conflict(say("exam-changed", actor.language))
        note(connection, actor, "exam-profile-changed", changed.name.of(actor.language), now)


class _Reader(NamedTuple):
    before: ExamProfile
    actor: Actor
    library: Library
    fields: Fields

    def read(self, now: datetime) -> ExamProfile:
        sections = tuple(self._section(number) for number in range(MOST_SECTIONS) if self._first(f"title_{number}"))
        questions = self._number("questions", 1, MOST_QUESTIONS)
        together = sum(section.questions for section in sections)
        if together != questions:
            raise self._fail("exam-sections", "questions", value=together, total=questions)
        if not any(section.asked for section in sections):
            raise self._fail("exam-asks-nothing", "asked_0", value=0)
        return ExamProfile(
            id=self.before.id,
            name=self._text("name", self.before.name),
            questions=questions,
            minutes=self._number("minutes", 1, MOST_MINUTES),
            pass_percent=self._number("pass_percent", 0, 100),
            options=self._number("options", 2, MOST_OPTIONS),
            tools=self._text("tools", self.before.tools, LONGEST_NOTE),
            source=self._line("source", LONGEST),
            seen="school",
            checked=now.date(),
            note=self._text("note", self.before.note, LONGEST_NOTE) if self._first("note") else None,
            sections=sections,
        )

    def _section(self, number: int) -> ExamSection:
        before = self.before.sections[number] if number < len(self.before.sections) else None
        asked = self._number(f"asked_{number}", 0, MOST_QUESTIONS)
        topics = tuple(each for each in self.fields.get(f"topics_{number}", ()) if each in self.library.packs)
        kinds = tuple(each.strip() for each in self._first(f"kinds_{number}").split(",") if each.strip())
        for kind in kinds:
            if kind not in self.library.families:
                raise self._fail("exam-family", f"kinds_{number}", value=kind)
        title = self._text(f"title_{number}", before.title if before else None)
        if asked and not (topics or kinds):
            raise self._fail("exam-no-topic", f"asked_{number}", value=title.of(self.actor.language))
        return ExamSection(
            id=f"section-{number + 1}",
            title=title,
            questions=self._number(f"questions_{number}", 1, MOST_QUESTIONS),
            asked=asked,
            pass_percent=self._number(f"pass_{number}", 0, 100),
            covered_percent=self._number(f"covered_{number}", 0, 100),
            topics=topics,
            families=kinds,
        )

    def _first(self, name: str) -> str:
        return " ".join(next(iter(self.fields.get(name, ())), "").split())

    def _number(self, name: str, least: int, most: int) -> int:
        typed = self._first(name)
        if not (typed.isascii() and typed.isdigit() and len(typed) <= len(str(most)) and least <= int(typed) <= most):
            raise self._fail("exam-number", name, value=typed, least=least, most=most)
        return int(typed)

    def _line(self, name: str, most: int) -> str:
        typed = self._first(name)
        if not typed or len(typed) > most or not typed.isprintable():
            raise self._fail("exam-text", name, value=typed, most=most)
        return typed

    def _text(self, name: str, before: Text | None, most: int = LONGEST) -> Text:
        """Return a text: in both languages as before where it was not changed, else the same in both."""
        typed = self._line(name, most)
        return before if before and before.of(self.actor.language) == typed else Text(en=typed, fr=typed)

    def _fail(self, code: str, field: str, **values: object) -> Invalid:
        return Invalid(say(code, self.actor.language, **values), field)
