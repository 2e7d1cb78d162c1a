"""Questions that a school's instructors write: drafts, a second reader, release, further versions, retirement."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection

from app.packs.library import Library
from app.packs.own import OwnBody, ReckonedBody, own_body
from app.packs.spec import Language
from app.questions.trials import try_out
from app.services.actor import Actor
from app.services.audit import note
from app.services.errors import Conflict, Invalid, NotAllowed, NotFound
from app.services.messages import say
from app.services.own_checks import Drawn, Finding, find_problems
from app.services.own_example import Example, find_example
from app.services.own_library import family_id, with_families
from app.services.own_preview import PreviewRow, preview
from app.services.set_access import TEACHING
from app.storage.ids import new_id
from app.storage.models import OwnQuestion, OwnVersion
from app.storage.queries import own_questions
from app.storage.queries.own_questions import OwnChanged
from app.storage.unit_of_work import UnitOfWork

LONGEST_NOTE = 500
TRIALS = 200


class OwnRow(NamedTuple):
    """A question in the list: its newest version, who wrote that, and which version is asked (None: none yet)."""

    id: UUID
    title: str
    topic_title: str
    writer: str
    written_at: datetime
    asked: int | None
    waiting: bool
    returned: bool
    retired: bool


class OwnView(NamedTuple):
    """A question with all its versions, the newest first, and what may be done with the newest.

    example: one of its draws; None where no draw makes a fair question. preview: what draws make of its numbers.
    alone: nobody else of the school could read it, so that whoever wrote it may release it.
    """

    question: OwnQuestion
    versions: Sequence[OwnVersion]
    body: OwnBody
    example: Example | None
    preview: Sequence[PreviewRow]
    findings: Sequence[Finding]
    names: Mapping[UUID, str]
    may_release: bool
    alone: bool

    @property
    def newest(self) -> OwnVersion:
        """The version that was written last."""
        return self.versions[0]

    @property
    def asked(self) -> OwnVersion | None:
        """The version that is asked, or was until the question was retired."""
        return next((each for each in self.versions if each.released_at is not None), None)


def list_own(uow: UnitOfWork, actor: Actor, library: Library) -> tuple[OwnRow, ...]:
    """Return the questions of the actor's school, the latest written first."""
    require_teaching(actor)
    with uow.reader() as connection:
        listed = own_questions.list_all(connection, actor.school_id)
        names = own_questions.names(connection, actor.school_id)
    rows = [_row(library, actor.language, question, versions, names) for question, versions in listed]
    return tuple(sorted(rows, key=lambda row: row.written_at, reverse=True))


def get_own(uow: UnitOfWork, actor: Actor, library: Library, question_id: UUID) -> OwnView:
    """Return a question of the actor's school with key and findings; NotFound for another school's."""
    with uow.reader() as connection:
        question, versions = _load(connection, actor, question_id)
        names = own_questions.names(connection, actor.school_id)
        alone = not own_questions.others_who_teach(connection, actor.school_id, versions[-1].written_by)
    newest = versions[-1]
    body = own_body(newest.body)
    tried = _tried(library, body, question_id, newest.version)
    family = tried.family(family_id(question_id))
    trials = try_out(family, TRIALS) if isinstance(body, ReckonedBody) else ()
    fair = not trials or not all(each.refusal for each in trials)
    drawn = Drawn(find_example(tried, family, actor) if fair else None, trials)
    waiting = newest.released_at is None
    return OwnView(
        question,
        versions[::-1],
        body,
        drawn.example,
        preview(body, trials, actor.language) if isinstance(body, ReckonedBody) else (),
        find_problems(tried, actor, body, family.id, drawn) if waiting else (),
        names,
        waiting and (alone or newest.written_by != actor.own_person),
        alone,
    )


def write_own(uow: UnitOfWork, actor: Actor, body: OwnBody, now: datetime) -> UUID:
    """Keep a new question as a draft."""
    require_teaching(actor)
    question = OwnQuestion(actor.school_id, new_id(now), actor.own_person, now)
    with uow.writer() as connection:
        own_questions.add_question(connection, question)
        own_questions.add_version(connection, _draft(actor, question.id, 1, body, now))
        note(connection, actor, "own-question-written", body.title(actor.language), now)
    return question.id


def rewrite_own(uow: UnitOfWork, actor: Actor, question_id: UUID, known: str, body: OwnBody, now: datetime) -> None:
    """Change a draft, or begin the next version of what is asked; Conflict when somebody changed it meanwhile.

    known: the `edition` that was read.
    """
    with uow.writer() as connection:
        newest = _newest(connection, actor, question_id, known)
        if newest.released_at is not None:
            _begin(connection, actor, _draft(actor, question_id, newest.version + 1, body, now))
        else:
            changed = {"body": body.model_dump(mode="json"), "written_by": actor.own_person, "written_at": now}
            _change(connection, actor, newest, changed | {"note": ""})
        note(connection, actor, "own-question-written", body.title(actor.language), now)


def release(uow: UnitOfWork, actor: Actor, library: Library, question_id: UUID, known: str, now: datetime) -> None:
    """Let a version be asked from now on.

    NotAllowed for whoever wrote it, unless nobody else could read it; Conflict where the checks have something serious
    against it or it was changed meanwhile.
    """
    view = get_own(uow, actor, library, question_id)
    if not view.may_release:
        raise NotAllowed(question_id)
    if any(each.serious for each in view.findings):
        raise Conflict(say("own-not-fit", actor.language))
    with uow.writer() as connection:
        newest = _newest(connection, actor, question_id, known)
        _change(connection, actor, newest, {"released_by": actor.own_person, "released_at": now, "note": ""})
        own_questions.count_change(connection, actor.school_id)
        title = view.body.title(actor.language)
        note(connection, actor, "own-question-released", title, now, version=newest.version)


def give_back(uow: UnitOfWork, actor: Actor, question_id: UUID, known: str, reason: str, now: datetime) -> None:
    """Tell the writer why a version is not asked yet; Invalid without a reason."""
    plain = reason.strip()
    if not 1 <= len(plain) <= LONGEST_NOTE:
        raise Invalid(say("own-reason", actor.language, value=len(plain), most=LONGEST_NOTE), "reason")
    with uow.writer() as connection:
        newest = _newest(connection, actor, question_id, known)
        _change(connection, actor, newest, {"note": plain})
        title = own_body(newest.body).title(actor.language)
        note(connection, actor, "own-question-given-back", title, now, reason=plain)


def set_retired(uow: UnitOfWork, actor: Actor, question_id: UUID, now: datetime, *, retired: bool) -> None:
    """Ask a question no more, or again; what was answered stays."""
    with uow.writer() as connection:
        question, versions = _load(connection, actor, question_id)
        if (question.retired_at is not None) == retired:
            return
        own_questions.retire(connection, actor.school_id, question_id, now if retired else None)
        own_questions.count_change(connection, actor.school_id)
        title = own_body(versions[-1].body).title(actor.language)
        note(connection, actor, "own-question-retired" if retired else "own-question-revived", title, now)


def edition(version: OwnVersion) -> str:
    """Return what a page says of the version it shows, so that nobody changes or releases what they have not read."""
    return f"{version.version}.{version.edits}"


def _row(
    library: Library,
    language: Language,
    question: OwnQuestion,
    versions: Sequence[OwnVersion],
    names: Mapping[UUID, str],
) -> OwnRow:
    newest = versions[-1]
    body = own_body(newest.body)
    pack = library.packs.get(body.topic)
    return OwnRow(
        question.id,
        body.title(language),
        pack.title.of(language) if pack else body.topic,
        names.get(newest.written_by, ""),
        newest.written_at,
        max((each.version for each in versions if each.released_at is not None), default=None),
        newest.released_at is None,
        bool(newest.note),
        question.retired_at is not None,
    )


def _tried(library: Library, body: OwnBody, question_id: UUID, version: int) -> Library:
    """Return the library as it would be with this version asked; that of a topic that is no more goes to the first."""
    family = body.as_family(family_id(question_id), version)
    if family.topic not in library.packs:
        family = family.model_copy(update={"topic": next(iter(library.packs))})
    return with_families(library, [family])


def _draft(actor: Actor, question_id: UUID, version: int, body: OwnBody, now: datetime) -> OwnVersion:
    written = body.model_dump(mode="json")
    return OwnVersion(actor.school_id, question_id, version, 0, written, actor.own_person, now)


def _begin(connection: Connection, actor: Actor, version: OwnVersion) -> None:
    try:
        own_questions.add_version(connection, version)
    except OwnChanged as error:
        raise Conflict(say("own-changed", actor.language)) from error


def _change(connection: Connection, actor: Actor, known: OwnVersion, changes: Mapping[str, Any]) -> None:
    try:
        own_questions.change_version(connection, known, {**changes, "edits": known.edits + 1})
    except OwnChanged as error:
        raise Conflict(say("own-changed", actor.language)) from error


def _newest(connection: Connection, actor: Actor, question_id: UUID, known: str) -> OwnVersion:
    """Return the newest version, which must be the edition that was read; Conflict otherwise."""
    _, versions = _load(connection, actor, question_id)
    if edition(versions[-1]) != known:
        raise Conflict(say("own-changed", actor.language))
    return versions[-1]


def _load(connection: Connection, actor: Actor, question_id: UUID) -> tuple[OwnQuestion, Sequence[OwnVersion]]:
    require_teaching(actor)
    question = own_questions.find(connection, actor.school_id, question_id)
    if question is None:
        raise NotFound(question_id)
    return question, own_questions.list_versions(connection, actor.school_id, question_id)


def require_teaching(actor: Actor) -> None:
    """Raise NotFound for whoever does not teach: there are no own questions to see for them."""
    if actor.role not in TEACHING:
        raise NotFound("own questions")
