"""Past answers to a kind of question: what marking them again or setting them aside would change, and doing it.

What a page shows is done only as shown: whoever confirms names the fingerprint of what they saw.
"""

from collections import Counter
from collections.abc import Sequence
from datetime import date, datetime, timedelta
from typing import NamedTuple
from zoneinfo import ZoneInfo

from app.grader.explain import reply_in_words
from app.grader.grade import Grade
from app.grader.reply import Reply
from app.packs.library import Library
from app.services import regrading
from app.services.actor import Actor, Role
from app.services.errors import Conflict, Invalid, NotAllowed, NotFound
from app.services.items import find_item
from app.services.messages import say
from app.services.regrading import Change, Regrade, mark_again
from app.services.setting_aside import Aside, Deed, answers_to, list_moved, move
from app.storage.queries import past_answers
from app.storage.queries.past_answers import DoneRow, GivenRow, Past, VersionRow
from app.storage.queries.regrading import GradedRow, MarkRow
from app.storage.unit_of_work import UnitOfWork

MOST_AT_ONCE = 2000
COMMANDS = {Deed.MARK: "regrade", Deed.SET_ASIDE: "set-aside", Deed.COUNT: "set-aside --take-back"}
SAMPLE = 10


class Asked(NamedTuple):
    """What a form asks for, as it sends it: a version or nothing, first and last day or nothing, and what to do."""

    family: str
    version: str = ""
    since: str = ""
    until: str = ""
    deed: str = ""


class Sample(NamedTuple):
    """One answer with its mark of then and of now; `name` is empty for somebody without an account."""

    name: str
    answered_at: datetime
    question: str
    language: str
    given: str
    before: GradedRow
    after: Grade


class Touched(NamedTuple):
    """Whom and what a change touches: people, how many without an account, (set, answers), answers in rehearsals."""

    names: Sequence[str]
    nameless: int
    sets: Sequence[tuple[str, int]]
    in_rehearsals: int


class Look(NamedTuple):
    """What would change, with a sample where answers are marked again."""

    deed: Deed
    found: Regrade | Aside
    touched: Touched
    samples: Sequence[Sample]


class PastAnswers(NamedTuple):
    """A kind of question with its past answers, and what was done to them before."""

    family: str
    title: str
    versions: Sequence[VersionRow]
    done: Sequence[DoneRow]


def past_answers_of(uow: UnitOfWork, actor: Actor, library: Library, family: str) -> PastAnswers:
    """Return which past answers there are; NotFound for a kind of question there is not, NotAllowed for others."""
    if actor.role is not Role.SCHOOL:
        raise NotAllowed(family)
    if family not in library.families:
        raise NotFound(family)
    with uow.reader() as connection:
        versions = past_answers.list_versions(connection, actor.school_id, family)
        done = past_answers.list_done(connection, actor.school_id, family)
    return PastAnswers(family, library.family(family).title.of(actor.language), versions, done)


def look(uow: UnitOfWork, actor: Actor, library: Library, asked: Asked) -> Look:
    """Return what would change.

    Invalid for what cannot be read, Conflict for more than one page can do and for setting aside what the school has
    not withdrawn; refuses as `past_answers_of` does.
    """
    past_answers_of(uow, actor, library, asked.family)
    past, deed = _which(uow, actor, asked)
    if deed is Deed.MARK:
        return _look_at_marks(uow, actor, library, past)
    found = Aside()
    moved: list[MarkRow] = []
    for _, rows in list_moved(uow, actor.school_id, past):
        found.add(rows)
        moved += rows
    return Look(deed, found, _touched(uow, actor, moved), ())


def do(uow: UnitOfWork, actor: Actor, library: Library, asked: Asked, seen: str, now: datetime) -> None:
    """Do what was looked at; Conflict where that would change something else than what was seen."""
    if look(uow, actor, library, asked).found.fingerprint != seen:
        raise Conflict(say("past-changed", actor.language))
    (past, deed), who = _which(uow, actor, asked), (actor.person_id, actor.name)
    if deed is Deed.MARK:
        regrading.apply(uow, library, actor.school_id, past, who, now)
    else:
        move(uow, library, actor.school_id, (past, deed), who, now)


def _which(uow: UnitOfWork, actor: Actor, asked: Asked) -> tuple[Past, Deed]:
    if asked.deed not in {"", *Deed}:
        raise Invalid(say("past-deed", actor.language, value=asked.deed, accepted=", ".join(Deed)), "deed")
    deed = Deed(asked.deed or Deed.MARK)
    past: Past | None = _past(actor, asked)
    if past is not None and deed is not Deed.MARK:
        past = answers_to(uow, actor.school_id, past, deed)
    if past is None:
        raise Conflict(say("past-not-withdrawn", actor.language))
    _require_few(uow, actor, past, deed)
    return past, deed


def _look_at_marks(uow: UnitOfWork, actor: Actor, library: Library, past: Past) -> Look:
    found = Regrade()
    changes: list[Change] = []
    for marked in mark_again(uow, library, actor.school_id, past):
        found.add(marked)
        changes += marked.changes
    touched = _touched(uow, actor, [row for row, _ in changes])
    return Look(Deed.MARK, found, touched, _samples(uow, actor, library, changes[:SAMPLE]))


def _require_few(uow: UnitOfWork, actor: Actor, past: Past, deed: Deed) -> None:
    with uow.reader() as connection:
        answers = sum(past_answers.count_by_visit(connection, actor.school_id, past).values())
    if answers > MOST_AT_ONCE:
        values = {"value": answers, "most": MOST_AT_ONCE, "command": f"{COMMANDS[deed]} {past.family}"}
        raise Conflict(say("past-many", actor.language, **values))


def _touched(uow: UnitOfWork, actor: Actor, rows: Sequence[GradedRow | MarkRow]) -> Touched:
    visits = tuple({row.visit_id for row in rows})
    with uow.reader() as connection:
        names = past_answers.list_names(connection, actor.school_id, visits)
        places = past_answers.list_places(connection, actor.school_id, [row.id for row in rows])
    sets = Counter(place.set_title for place in places if place.set_title is not None)
    return Touched(
        names=sorted(names.values()),
        nameless=len(visits) - len(names),
        sets=sorted(sets.items()),
        in_rehearsals=sum(place.purpose == "rehearsal" for place in places),
    )


def _samples(uow: UnitOfWork, actor: Actor, library: Library, changes: Sequence[Change]) -> Sequence[Sample]:
    with uow.reader() as connection:
        given = past_answers.list_given(connection, actor.school_id, [row.id for row, _ in changes])
        names = past_answers.list_names(connection, actor.school_id, [row.visit_id for row, _ in changes])
    return [
        _sample(actor, library, change, (given[change[0].id], names.get(change[0].visit_id, ""))) for change in changes
    ]


def _sample(actor: Actor, library: Library, change: Change, of: tuple[GivenRow, str]) -> Sample:
    (row, marks), (given, name) = change, of
    reply = Reply.from_json(row.answer)
    item = find_item(library, row, row.conventions)
    words = reply_in_words(library, item, reply, actor.language) if item else reply.text or str(reply.value)
    question = f"{given.shown.get('scene', '')} {given.shown['question']}".strip()
    return Sample(name, given.answered_at, question, given.shown["language"], words, row, marks)


def _past(actor: Actor, asked: Asked) -> Past:
    """Return the answers that are asked for, days by the school's clocks."""
    version = asked.version
    if version and not (version.isascii() and version.isdigit()):
        raise Invalid(say("past-version", actor.language, value=version), "version")
    first, last = _day(actor, asked.since, "since"), _day(actor, asked.until, "until")
    if first and last and last < first:
        raise Invalid(say("past-days", actor.language, value=last.isoformat(), first=first.isoformat()), "until")
    return Past(
        asked.family,
        int(version) if version else None,
        _midnight(actor, first) if first else None,
        _midnight(actor, last + timedelta(days=1)) if last else None,
    )


def _day(actor: Actor, text: str, field: str) -> date | None:
    try:
        return date.fromisoformat(text.strip()) if text.strip() else None
    except ValueError as error:
        raise Invalid(say("past-day", actor.language, value=text), field) from error


def _midnight(actor: Actor, day: date) -> datetime:
    return datetime(day.year, day.month, day.day, tzinfo=ZoneInfo(actor.time_zone))
