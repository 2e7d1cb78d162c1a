"""An instructor's page of one student, and the training record: it supports, and does not replace, the one required."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime
from typing import NamedTuple
from uuid import UUID

from sqlalchemy import Connection

from app.packs.library import Library
from app.packs.spec import Language
from app.services.actor import Actor, Role
from app.services.audit import note
from app.services.errors import Invalid, NotFound
from app.services.members import member
from app.services.messages import say
from app.services.recommendation import Checklist, checklist
from app.services.record import RecordView, record
from app.services.rehearsals import RehearsalView, get_rehearsal, list_rehearsals
from app.services.sittings import DueView, list_due
from app.storage.ids import new_id
from app.storage.models import Person, TrainingEntry
from app.storage.queries import training
from app.storage.unit_of_work import UnitOfWork

NOTE = "note"
KINDS = ("taught", "reviewed", NOTE)
RECOMMENDED = "recommended"
LONGEST_TEXT = 500
MOST_MINUTES = 480


class EntryWish(NamedTuple):
    """An entry to be added, as it was typed; `corrects` is the id of an earlier one."""

    kind: str
    day: str
    text: str
    minutes: str = ""
    corrects: UUID | None = None


class EntryView(NamedTuple):
    """An entry with what became of it: one that was corrected stays to be read."""

    row: TrainingEntry
    corrected: bool


class StudentPage(NamedTuple):
    """All that an instructor sees of a student. `entries` are the training record; `notes` are beside it."""

    person: Person
    record: RecordView
    sets: Sequence[DueView]
    rehearsals: Sequence[RehearsalView]
    entries: Sequence[EntryView]
    notes: Sequence[EntryView]
    checklist: Checklist
    taught_minutes: int


def student_page(uow: UnitOfWork, actor: Actor, library: Library, person_id: UUID, now: datetime) -> StudentPage:
    """Return the page of a student the actor looks after; NotFound and NotAllowed as `member`."""
    with uow.reader() as connection:
        person = _student(connection, actor, person_id)
        entries = training.list_entries(connection, actor.school_id, person_id)
    student = seen_as(actor, person)
    held = record(uow, student, library, now)
    sat = [get_rehearsal(uow, student, library, each.id, now) for each in list_rehearsals(uow, student, now)]
    marked = [each for each in sat if each.mark is not None]
    corrected = {each.corrects for each in entries if each.corrects}
    standing = [each for each in entries if each.id not in corrected]
    return StudentPage(
        person=person,
        record=held,
        sets=list_due(uow, student, now),
        rehearsals=marked,
        entries=tuple(EntryView(each, each.id in corrected) for each in entries if each.kind != NOTE),
        notes=tuple(EntryView(each, each.id in corrected) for each in entries if each.kind == NOTE),
        checklist=checklist(uow, actor, held, marked, standing),
        taught_minutes=sum(each.minutes or 0 for each in standing),
    )


def add_entry(uow: UnitOfWork, actor: Actor, person_id: UUID, wish: EntryWish, now: datetime) -> None:
    """Add an entry or a note, or one that corrects another of the same student; Invalid names what cannot be accepted.

    NotFound where it corrects what the student does not have; a note corrects notes alone.
    """
    if wish.kind not in KINDS:
        raise Invalid(say("entry-kind", actor.language, value=wish.kind, accepted=", ".join(KINDS)), "kind")
    day = _day(wish.day, actor.language, now.date())
    text = _text(wish.text, actor.language, "text")
    minutes = _minutes(wish.minutes, actor.language) if wish.kind == "taught" else None
    with uow.writer() as connection:
        person = _student(connection, actor, person_id)
        entries = training.list_entries(connection, actor.school_id, person_id)
        known = {each.id for each in entries if (each.kind == NOTE) == (wish.kind == NOTE)}
        if wish.corrects is not None and wish.corrects not in known:
            raise NotFound(wish.corrects)
        row = _row(actor, person, (wish.kind, day, text, minutes), now)
        training.add_entry(connection, _correcting(row, wish.corrects))
        note(connection, actor, "record-entry", person.name, now, kind=wish.kind, corrects=bool(wish.corrects))


def recommend(uow: UnitOfWork, actor: Actor, library: Library, person_id: UUID, reason: str, now: datetime) -> None:
    """Recommend a student for the written exam; what the checklist still lacks needs a written reason."""
    page = student_page(uow, actor, library, person_id, now)
    lacking = page.checklist.lacking
    text = _text(reason, actor.language, "reason") if lacking else reason.strip()[:LONGEST_TEXT]
    row = _row(actor, page.person, (RECOMMENDED, now.date(), text, None), now, {"overridden": list(lacking)})
    with uow.writer() as connection:
        training.add_entry(connection, row)
        note(connection, actor, "recommended", page.person.name, now, overridden=", ".join(lacking))


def seen_as(actor: Actor, person: Person) -> Actor:
    """Return the student as the actor who looks at their pages, in the language of whoever looks."""
    return Actor(
        role=Role.STUDENT,
        school_id=person.school_id,
        visit_id=person.visit_id,
        language=actor.language,
        conventions=actor.conventions,
        person_id=person.id,
        name=person.name,
        time_zone=actor.time_zone,
    )


def initials_of(name: str) -> str:
    """Return the first letters of a name's words."""
    return "".join(word[0].upper() for word in name.split() if word[0].isalpha())[:4]


def _row(
    actor: Actor,
    person: Person,
    what: tuple[str, date, str, int | None],
    now: datetime,
    details: dict[str, list[str]] | None = None,
) -> TrainingEntry:
    return TrainingEntry(
        person.school_id,
        new_id(now),
        person.id,
        *what,
        made_by=actor.own_person,
        made_by_name=actor.name,
        initials=initials_of(actor.name),
        made_at=now,
        details=details or {},
    )


def _correcting(row: TrainingEntry, corrects: UUID | None) -> TrainingEntry:
    return row if corrects is None else replace(row, corrects=corrects)


def _student(connection: Connection, actor: Actor, person_id: UUID) -> Person:
    person = member(connection, actor, person_id)
    if person.role != Role.STUDENT:
        raise NotFound(person_id)
    return person


def _day(text: str, language: Language, today: date) -> date:
    try:
        day = date.fromisoformat(text.strip())
    except ValueError:
        day = None
    if day is None or day > today:
        raise Invalid(say("entry-day", language, value=text, today=today.isoformat()), "day")
    return day


def _text(text: str, language: Language, field: str) -> str:
    plain = " ".join(text.split())
    if not 1 <= len(plain) <= LONGEST_TEXT:
        raise Invalid(say("entry-text", language, value=len(plain), most=LONGEST_TEXT), field)
    return plain


def _minutes(text: str, language: Language) -> int:
    plain = text.strip()
    if not (plain.isascii() and plain.isdigit() and len(plain) <= 4 and 1 <= int(plain) <= MOST_MINUTES):
        raise Invalid(say("entry-minutes", language, value=plain, most=MOST_MINUTES), "minutes")
    return int(plain)
