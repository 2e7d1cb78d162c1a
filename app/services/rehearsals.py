"""Rehearsing an exam under a profile: the server's clock, answers that can be changed, nothing told before the end.

Reading never writes: a rehearsal whose time is up takes no more answers, and is marked as of its end by the next
request that may write, whenever that comes.
"""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from enum import StrEnum
from itertools import islice
from typing import NamedTuple
from uuid import UUID

from sqlalchemy import Connection

from app.packs.library import Library
from app.questions.model import OPTION_FORMS, Item
from app.services.actor import Actor
from app.services.drills import new_drill, place_of
from app.services.errors import Conflict, NotFound
from app.services.exam_profiles import ExamProfile, get_profile
from app.services.messages import say
from app.services.mix import Suits, choose_items
from app.services.rehearsal_marks import ExamMark, mark_exam
from app.services.reveal import REHEARSAL
from app.services.withdrawals import offered
from app.storage.ids import new_id
from app.storage.models import Rehearsal, RehearsalDraft
from app.storage.queries import drills, rehearsals
from app.storage.queries.drills import PlaceRow
from app.storage.unit_of_work import UnitOfWork

AS_IN_EXAMS = Suits(OPTION_FORMS)


class Phase(StrEnum):
    """Where a rehearsal stands; over: its time is up, but it is not marked yet."""

    RUNNING = "running"
    PAUSED = "paused"
    OVER = "over"
    MARKED = "marked"


class PlaceView(NamedTuple):
    """One question of a rehearsal; `correct` is None before the end, and for one without an answer."""

    position: int
    item_id: UUID
    family: str
    family_title: str
    answered: bool
    flagged: bool
    correct: bool | None
    set_aside: bool


class SectionView(NamedTuple):
    """The questions of one section."""

    title: str
    places: tuple[PlaceView, ...]


class RehearsalView(NamedTuple):
    """A rehearsal as its student sees it; `mark` is there once it is marked."""

    id: UUID
    drill_id: UUID
    profile: ExamProfile
    strict: bool
    phase: Phase
    started_at: datetime
    ends_at: datetime
    submitted_at: datetime | None
    seconds_left: int
    sections: tuple[SectionView, ...]
    mark: ExamMark | None

    @property
    def places(self) -> tuple[PlaceView, ...]:
        """All questions, in order."""
        return tuple(place for section in self.sections for place in section.places)


class ListedRehearsal(NamedTuple):
    """A rehearsal in the list of one's own."""

    id: UUID
    name: str
    started_at: datetime
    phase: Phase

    @property
    def goes_on(self) -> bool:
        """Whether it can still be answered, paused or not: then there is nothing to look up."""
        return self.phase in {Phase.RUNNING, Phase.PAUSED}


def start_rehearsal(
    uow: UnitOfWork, actor: Actor, library: Library, wish: tuple[str, bool], seed: int, now: datetime
) -> UUID:
    """Start a rehearsal, (profile, strict), and return its id; one that still runs goes on instead.

    NotFound for an unknown profile, Conflict when none of its questions is offered at this home.
    """
    profile = get_profile(uow, actor, wish[0])
    actor = replace(actor, conventions=replace(actor.conventions, most_options=profile.options))
    chosen = _choose(offered(uow, actor, library), actor, profile, seed)
    items = [item for of_section in chosen.values() for item in of_section]
    if not items:
        raise Conflict(say("nothing-offered", actor.language, place=actor.conventions.place))
    drill = new_drill(actor, new_id(now), None, seed, now)._replace(purpose=REHEARSAL)
    row = Rehearsal(
        school_id=actor.school_id,
        id=new_id(now),
        drill_id=drill.id,
        profile=profile.model_dump(mode="json"),
        counts={name: len(of_section) for name, of_section in chosen.items()},
        strict=wish[1],
        started_at=now,
        ends_at=now + timedelta(minutes=profile.rehearsal_minutes),
    )
    with uow.writer() as connection:
        unmarked = rehearsals.find_unmarked(connection, actor.school_id, actor.own_visit)
        if unmarked is not None:
            return unmarked.id
        drills.add_drill(connection, drill, [place_of(item, place, now) for place, item in enumerate(items, start=1)])
        rehearsals.add_rehearsal(connection, row)
    return row.id


def get_rehearsal(uow: UnitOfWork, actor: Actor, library: Library, rehearsal_id: UUID, now: datetime) -> RehearsalView:
    """Return a rehearsal of the actor; NotFound for anybody else's."""
    with uow.reader() as connection:
        row = load_rehearsal(connection, actor, rehearsal_id)
        places = drills.list_places(connection, actor.school_id, row.drill_id)
        drafts = rehearsals.list_drafts(connection, actor.school_id, row.drill_id)
    profile = ExamProfile.model_validate(row.profile)
    sections = tuple(_sections(library, actor, (row, profile), places, drafts))
    return RehearsalView(
        id=row.id,
        drill_id=row.drill_id,
        profile=profile,
        strict=row.strict,
        phase=phase_of(row, now),
        started_at=row.started_at,
        ends_at=row.ends_at,
        submitted_at=row.submitted_at,
        seconds_left=seconds_left(row, now),
        sections=sections,
        mark=_mark(row, profile, places, actor) if row.submitted_at else None,
    )


def list_rehearsals(uow: UnitOfWork, actor: Actor, now: datetime) -> Sequence[ListedRehearsal]:
    """Return the actor's own rehearsals, the latest first; a guest has none."""
    if actor.visit_id is None:
        return ()
    with uow.reader() as connection:
        rows = rehearsals.list_rehearsals(connection, actor.school_id, actor.visit_id)
    return tuple(_listed(row, actor, now) for row in rows)


def find_unmarked(uow: UnitOfWork, actor: Actor, now: datetime) -> ListedRehearsal | None:
    """Return the actor's rehearsal that is not marked yet."""
    if actor.visit_id is None:
        return None
    with uow.reader() as connection:
        row = rehearsals.find_unmarked(connection, actor.school_id, actor.visit_id)
    return _listed(row, actor, now) if row else None


def pause_rehearsal(uow: UnitOfWork, actor: Actor, rehearsal_id: UUID, now: datetime) -> None:
    """Stop the clock; Conflict in strict mode or when it does not run."""
    with uow.writer() as connection:
        row = load_rehearsal(connection, actor, rehearsal_id)
        if row.strict:
            raise Conflict(say("no-pause", actor.language))
        if phase_of(row, now) is not Phase.PAUSED:
            require_phase(row, actor, now)
            rehearsals.set_times(connection, replace(row, paused_at=now))


def go_on(uow: UnitOfWork, actor: Actor, rehearsal_id: UUID, now: datetime) -> None:
    """Let the clock run again, with the time that was left."""
    with uow.writer() as connection:
        row = load_rehearsal(connection, actor, rehearsal_id)
        if row.paused_at is not None and row.submitted_at is None:
            rehearsals.set_times(connection, replace(row, ends_at=row.ends_at + (now - row.paused_at), paused_at=None))


def load_rehearsal(connection: Connection, actor: Actor, rehearsal_id: UUID) -> Rehearsal:
    """Return the actor's own rehearsal; NotFound for anybody else's."""
    row = rehearsals.find_rehearsal(connection, actor.school_id, actor.own_visit, rehearsal_id)
    if row is None:
        raise NotFound(rehearsal_id)
    return row


def phase_of(row: Rehearsal, now: datetime) -> Phase:
    """Return where a rehearsal stands, by the server's clock."""
    if row.submitted_at is not None:
        return Phase.MARKED
    if row.paused_at is not None:
        return Phase.PAUSED
    return Phase.OVER if now >= row.ends_at else Phase.RUNNING


def require_phase(row: Rehearsal, actor: Actor, now: datetime) -> None:
    """Refuse with Conflict what needs the clock to run."""
    phase = phase_of(row, now)
    if phase is not Phase.RUNNING:
        raise Conflict(say("rehearsal-paused" if phase is Phase.PAUSED else "rehearsal-over", actor.language))


def seconds_left(row: Rehearsal, now: datetime) -> int:
    """Return how much time is left, 0 at the end."""
    return max(int((row.ends_at - (row.paused_at or now)).total_seconds()), 0)


def _listed(row: Rehearsal, actor: Actor, now: datetime) -> ListedRehearsal:
    return ListedRehearsal(row.id, row.profile["name"][actor.language], row.started_at, phase_of(row, now))


def _choose(library: Library, actor: Actor, profile: ExamProfile, seed: int) -> dict[str, list[Item]]:
    """Return the items of each section that asks any; a family offered at this home comes up before one comes again."""
    chosen = {}
    for number, section in enumerate(profile.sections):
        families = profile.families_of(section, library)
        drawn = choose_items(library, families, actor.conventions, seed + number, AS_IN_EXAMS)
        chosen[section.id] = list(islice(drawn, section.asked)) if section.asked else []
    return {name: items for name, items in chosen.items() if items}


def _split(
    row: Rehearsal, profile: ExamProfile, places: Sequence[PlaceRow]
) -> Sequence[tuple[str, Sequence[PlaceRow]]]:
    """Return (section, its places) in order."""
    rest = iter(places)
    asked = [section.id for section in profile.sections if section.id in row.counts]
    return [(name, tuple(islice(rest, row.counts[name]))) for name in asked]


def _sections(
    library: Library,
    actor: Actor,
    of: tuple[Rehearsal, ExamProfile],
    places: Sequence[PlaceRow],
    drafts: dict[UUID, RehearsalDraft],
) -> Sequence[SectionView]:
    row, profile = of
    titles = {section.id: section.title.of(actor.language) for section in profile.sections}
    return [
        SectionView(titles[name], tuple(_place(library, actor, place, drafts.get(place.id)) for place in of_section))
        for name, of_section in _split(row, profile, places)
    ]


def _place(library: Library, actor: Actor, place: PlaceRow, draft: RehearsalDraft | None) -> PlaceView:
    family = library.families.get(place.family)
    return PlaceView(
        position=place.position,
        item_id=place.id,
        family=place.family,
        family_title=family.title.of(actor.language) if family else place.family,
        answered=place.correct is not None or bool(draft and draft.fields),
        flagged=bool(draft and draft.flagged),
        correct=place.correct,
        set_aside=place.set_aside_at is not None,
    )


def _mark(row: Rehearsal, profile: ExamProfile, places: Sequence[PlaceRow], actor: Actor) -> ExamMark:
    scores = []
    for name, of_section in _split(row, profile, places):
        counted = [place for place in of_section if place.set_aside_at is None]
        scores.append((name, sum(place.correct is True for place in counted), len(counted)))
    return mark_exam(profile, scores, actor.language)
