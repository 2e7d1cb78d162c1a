"""A school's own questions as a file: saved, and read back as drafts."""

import json
from datetime import datetime
from typing import Any
from uuid import UUID

from app.packs.library import Library
from app.packs.own import own_body
from app.packs.spec import FORMAT
from app.services.actor import Actor
from app.services.errors import Invalid
from app.services.messages import say
from app.services.own_checks import Unreadable, read_body
from app.services.own_questions import require_teaching, write_own
from app.storage.queries import own_questions
from app.storage.unit_of_work import UnitOfWork

LARGEST_BYTES = 200_000
MOST_QUESTIONS = 100


def save_own(uow: UnitOfWork, actor: Actor) -> str:
    """Return the newest version of every question that is not retired, as JSON."""
    require_teaching(actor)
    with uow.reader() as connection:
        listed = own_questions.list_all(connection, actor.school_id)
    bodies = [own_body(versions[-1].body) for row, versions in listed if row.retired_at is None]
    written = [body.model_dump(mode="json", exclude_none=True) for body in bodies]
    return json.dumps({"format": FORMAT, "questions": written}, ensure_ascii=False, indent=2) + "\n"


def read_own(uow: UnitOfWork, actor: Actor, library: Library, file: bytes, now: datetime) -> tuple[UUID, ...]:
    """Keep every question of a file as a new draft, or none; Invalid says which question cannot be kept, and why."""
    require_teaching(actor)
    bodies = []
    for number, data in enumerate(_questions(file, actor), 1):
        try:
            bodies.append(read_body(data, library, actor.language))
        except Unreadable as error:
            where, problem = next(iter(error.problems.items()))
            at = say("own-file-question", actor.language, number=number, field=where)
            raise _refused(actor, f"{at} {problem}") from error
    return tuple(write_own(uow, actor, body, now) for body in bodies)


def _questions(file: bytes, actor: Actor) -> list[Any]:
    if len(file) > LARGEST_BYTES:
        raise _refused(actor, say("own-file-size", actor.language, most=LARGEST_BYTES // 1000))
    try:
        held = json.loads(file.decode("utf-8-sig"))
    except (ValueError, RecursionError) as error:
        raise _refused(actor, str(error) if isinstance(error, json.JSONDecodeError) else "") from error
    questions = held.get("questions") if isinstance(held, dict) else None
    if not isinstance(questions, list) or not questions:
        raise _refused(actor, say("own-file-form", actor.language))
    if len(questions) > MOST_QUESTIONS:
        raise _refused(actor, say("own-file-many", actor.language, value=len(questions), most=MOST_QUESTIONS))
    return questions


def _refused(actor: Actor, what: str) -> Invalid:
    return Invalid(f"{say('own-file', actor.language)} {what}".strip(), "file")
