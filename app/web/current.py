"""The request at hand: who acts, in which language, with which packs and database, and what time it is."""

import secrets
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import cast

from flask import current_app, g, request, session
from flask_babel import refresh

from app.packs.library import Library
from app.packs.spec import LANGUAGES, Language
from app.services import sign_ins, visits
from app.services.actor import Actor
from app.services.entrance import Entrance
from app.services.library import Shelf
from app.services.own_library import OwnLibraries
from app.services.visits import OpenedVisit
from app.storage.unit_of_work import UnitOfWork

NAME = "lubberline"
VISIT = "visit"
SIGN_IN = "sign-in"
LANGUAGE = "language"
SPOKEN = "spoken"
TEXTS = "texts"
SCHOOL = "school"
FORM_TOKEN = "csrf_token"  # noqa: S105 - the field of every form, and what the session holds
LARGEST_SEED = 2**31


def utc_now() -> datetime:
    """Return the time by this machine's clock."""
    return datetime.now(UTC)


def fresh_seed() -> int:
    """Return a number from which a drill is drawn."""
    return secrets.randbelow(LARGEST_SEED)


@dataclass(frozen=True, slots=True)
class Backend:
    """What views hand to use cases; put together once, by the factory."""

    uow: UnitOfWork
    shelf: Shelf
    entrance: Entrance
    clock: Callable[[], datetime] = utc_now
    draw_seed: Callable[[], int] = fresh_seed
    open_schools: bool = False
    own_libraries: OwnLibraries = field(default_factory=OwnLibraries)


def backend() -> Backend:
    """Return what the running application was put together from."""
    held: Backend = current_app.extensions[NAME]
    return held


def uow() -> UnitOfWork:
    """Return the application's database."""
    return backend().uow


def now() -> datetime:
    """Return the time of this request, the same throughout."""
    held: datetime | None = g.get("now")
    if held is None:
        held = g.now = backend().clock()
    return held


def library() -> Library:
    """Return what is asked in this request, the school's own questions included, the same throughout."""
    held: Library | None = g.get("library")
    if held is None:
        packs = backend().shelf.library_at(now())
        held = g.library = backend().own_libraries.library_of(uow(), actor(), packs)
    return held


def actor() -> Actor:
    """Return who acts: the person signed in, else the holder of the visit, else a guest of whom nothing is kept."""
    held: Actor | None = g.get("actor")
    if held is None:
        held = g.actor = _find_actor()
    return held


def act_as(opened: OpenedVisit) -> Actor:
    """Go on as somebody with a visit; a new one's token goes into the cookie."""
    if opened.token is not None:
        session[VISIT] = opened.token
        session.permanent = True
    g.actor = opened.actor
    return opened.actor


def sign_in(token: str) -> None:
    """Go on as the person this token was given to; nothing of the cookie before it stays."""
    session.clear()
    session[SIGN_IN] = token
    session.permanent = True
    _somebody_else()


def sign_out() -> None:
    """Make the cookie's sign-in worthless and go on as a guest, in the language read so far."""
    kept = {LANGUAGE: language(), SCHOOL: remembered_school()}
    token = session.get(SIGN_IN)
    if isinstance(token, str):
        sign_ins.close_sign_in(uow(), token, now())
    session.clear()
    session.update(kept)
    _somebody_else()


def _somebody_else() -> None:
    for of_before in ("actor", FORM_TOKEN):
        g.pop(of_before, None)


def sign_in_token() -> str:
    """Return the token of this browser's sign-in."""
    return str(session.get(SIGN_IN, ""))


def remember_school(code: str) -> None:
    """Keep the school's code, so that it need not be typed again in this browser."""
    session[SCHOOL] = code


def remembered_school() -> str:
    """Return the code of the school somebody last signed in to from this browser."""
    return str(session.get(SCHOOL, ""))


def actor_with_visit() -> Actor:
    """Return who acts, with a visit to keep things under; it is opened when there is none."""
    return act_as(visits.open_visit(uow(), actor(), now()))


def language() -> Language:
    """Return the language of this request's page."""
    spoken: Language | None = g.get(SPOKEN)
    if spoken is not None:
        return spoken
    held: Actor | None = g.get("actor")
    if held is not None:
        return held.language
    if VISIT in session or SIGN_IN in session:
        return actor().language
    return wished_language()


def speak(of_page: Language) -> None:
    """Put this one page into a language that it must have, whatever its reader reads."""
    setattr(g, SPOKEN, of_page)
    g.pop(TEXTS, None)
    refresh()


def wished_language() -> Language:
    """Return the language a guest chose, else the one the browser prefers, else English."""
    chosen = session.get(LANGUAGE)
    if chosen in LANGUAGES:
        return cast("Language", chosen)
    return cast("Language", request.accept_languages.best_match(LANGUAGES, "en"))


def visit_has_ended() -> bool:
    """Whether this request came with a visit that does not hold any more."""
    return actor().visit_id is None and bool(g.get("visit_ended"))


def _find_actor() -> Actor:
    for name, find in ((SIGN_IN, sign_ins.find_sign_in), (VISIT, visits.find_visit)):
        token = session.get(name)
        if isinstance(token, str):
            found = find(uow(), token, now())
            if found is not None:
                return found
            session.pop(name)
            g.visit_ended = True
    return visits.guest(wished_language(), now())
