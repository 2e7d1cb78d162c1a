"""Topic sets: putting one together, looking at its items, changing it, locking, copying and archiving it."""

from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from sqlalchemy import Connection

from app.packs.library import Library
from app.packs.spec import LANGUAGES
from app.questions.conventions import Conventions
from app.questions.model import Item
from app.services import audit
from app.services.actor import Actor
from app.services.errors import Conflict, Invalid, NotAllowed, NotFound, refuse_all
from app.services.items import find_item
from app.services.messages import say
from app.services.set_access import TEACHING, keep_changes, school_set, set_at_version, unlocked_set
from app.services.set_wishes import SetWish, another, choose_set, wish_faults
from app.services.withdrawals import offered
from app.storage.ids import new_id
from app.storage.models import TopicSet
from app.storage.queries import topic_sets
from app.storage.queries.topic_sets import PassMarkRow, SetItemRow, SetListRow
from app.storage.unit_of_work import UnitOfWork

LONGEST_TITLE, LONGEST_NOTE = 120, 2000
MOST_MINUTES, MOST_ATTEMPTS = 600, 20
NUMBERS = ("same", "own")
REVEALS = ("at-once", "at-end", "after-due")
LIMITS = {"minutes": (1, MOST_MINUTES), "pass_percent": (0, 100), "attempts_allowed": (1, MOST_ATTEMPTS)}


@dataclass(frozen=True, slots=True)
class SetSettings:
    """How a set is sat: see TopicSet. language None: each student reads their own."""

    title: str
    note: str = ""
    language: str | None = None
    numbers: str = "same"
    reveal: str = "at-end"
    minutes: int | None = None
    pass_percent: int | None = 70
    attempts_allowed: int = 1


class SetView(NamedTuple):
    """A set as its instructors see it; an item is None when the packs no longer draw it."""

    row: TopicSet
    wish: SetWish
    places: tuple[tuple[SetItemRow, Item | None], ...]
    pass_marks: tuple[PassMarkRow, ...]


def settings_of(row: TopicSet) -> SetSettings:
    """Return how a set is sat."""
    return SetSettings(**{name: getattr(row, name) for name in SetSettings.__slots__})


def list_sets(uow: UnitOfWork, actor: Actor, *, archived: bool = False) -> Sequence[SetListRow]:
    """Return the sets of the actor's school, the latest changed first."""
    with uow.reader() as connection:
        rows = topic_sets.list_sets(connection, actor.school_id)
    return tuple(row for row in rows if (row.archived_at is not None) == archived)


def get_set(uow: UnitOfWork, actor: Actor, library: Library, set_id: UUID) -> SetView:
    """Return a set with its items, key included; NotFound for another school's."""
    with uow.reader() as connection:
        row = school_set(connection, actor, set_id)
        items = topic_sets.list_items(connection, actor.school_id, set_id)
        marks = topic_sets.list_pass_marks(connection, actor.school_id, set_id)
    places = tuple((item, find_item(library, item, row.conventions)) for item in items)
    return SetView(row, SetWish.from_json(row.wish), places, marks)


def make_set(
    uow: UnitOfWork, actor: Actor, library: Library, wanted: tuple[SetWish, SetSettings], seed: int, now: datetime
) -> UUID:
    """Choose the items of a wish under the actor's conventions and keep them; Invalid names what cannot be."""
    made = choose_new_set(uow, actor, library, wanted, seed, now)
    with uow.writer() as connection:
        keep_new_set(connection, actor, made, now)
    return made[0].id


def choose_new_set(
    uow: UnitOfWork, actor: Actor, library: Library, wanted: tuple[SetWish, SetSettings], seed: int, now: datetime
) -> tuple[TopicSet, Sequence[SetItemRow]]:
    """Return a new set of a wish with its items, not kept yet; Invalid names what cannot be."""
    wish, settings = wanted
    if actor.role not in TEACHING:
        raise NotAllowed("only instructors make sets")
    there_is = offered(uow, actor, library)
    check_new_set(actor, there_is, wanted)
    items = choose_set(there_is, wish, actor.conventions, seed, actor.language)
    row = TopicSet(
        school_id=actor.school_id,
        id=new_id(now),
        made_by=actor.own_person,
        wish=wish.as_json(),
        conventions=actor.conventions.as_json(),
        seed=seed,
        version=1,
        created_at=now,
        changed_at=now,
        **asdict(tidied(settings)),
    )
    return row, tuple(_place(item, position, now) for position, item in enumerate(items, 1))


def check_new_set(actor: Actor, library: Library, wanted: tuple[SetWish, SetSettings]) -> None:
    """Refuse at once all that cannot be, in what a new set holds and in how it is sat."""
    wish, settings = wanted
    refuse_all((*settings_faults(tidied(settings), actor), *wish_faults(library, wish, actor.language)))


def keep_new_set(
    connection: Connection, actor: Actor, made: tuple[TopicSet, Sequence[SetItemRow]], now: datetime
) -> None:
    """Keep a new set with its items and its first pass mark."""
    row, items = made
    topic_sets.add_set(connection, row, items)
    topic_sets.add_pass_mark(connection, row, new_id(now), actor.own_person, now)


def copy_set(uow: UnitOfWork, actor: Actor, set_id: UUID, now: datetime) -> UUID:
    """Keep a copy with the same items, unlocked and not assigned."""
    with uow.reader() as connection:
        row = school_set(connection, actor, set_id)
        items = topic_sets.list_items(connection, actor.school_id, set_id)
    copy = replace(
        row,
        id=new_id(now),
        title=f"{row.title} (2)"[:LONGEST_TITLE],
        made_by=actor.own_person,
        version=1,
        created_at=now,
        changed_at=now,
        locked_at=None,
        archived_at=None,
    )
    with uow.writer() as connection:
        keep_new_set(connection, actor, (copy, tuple(item._replace(id=new_id(now)) for item in items)), now)
    return copy.id


def change_settings(
    uow: UnitOfWork, actor: Actor, set_id: UUID, version: int, settings: SetSettings, now: datetime
) -> None:
    """Change how a set is sat from now on; an earlier pass mark stays on record.

    Conflict when somebody changed it meanwhile, or when it is locked and the numbers would become others.
    """
    checked = tidied(settings)
    check_settings(actor, checked)
    with uow.writer() as connection:
        row = set_at_version(connection, actor, set_id, version)
        if row.locked_at is not None and checked.numbers != row.numbers:
            raise Conflict(say("set-locked", actor.language))
        keep_changes(connection, actor, row, asdict(checked) | {"changed_at": now})
        if checked.pass_percent != row.pass_percent:
            changed = replace(row, pass_percent=checked.pass_percent)
            topic_sets.add_pass_mark(connection, changed, new_id(now), actor.own_person, now)
            marks = {"before": row.pass_percent, "after": checked.pass_percent}
            audit.note(connection, actor, "pass-mark-changed", row.title, now, **marks)


def swap_item(
    uow: UnitOfWork, actor: Actor, library: Library, place: tuple[UUID, int, int], seed: int, now: datetime
) -> None:
    """Put another question into one place (set, version, position), leaving the others alone.

    NotFound for a place the set does not have, Conflict when the set has changed or is locked, or when there is no
    other question for its wish.
    """
    set_id, version, position = place
    view = get_set(uow, actor, library, set_id)
    there = [item for _, item in view.places if item is not None]
    family_id = next((row.family for row, _ in view.places if row.position == position), None)
    if family_id is None:
        raise NotFound(position)
    fresh = another(
        offered(uow, actor, library), view.wish, Conventions.from_json(view.row.conventions), seed, (family_id, there)
    )
    with uow.writer() as connection:
        row = unlocked_set(connection, actor, set_id, version)
        if fresh is None:
            raise Conflict(say("set-no-other", actor.language, value=position))
        topic_sets.replace_item(connection, row, _place(fresh, position, now))
        keep_changes(connection, actor, row, {"changed_at": now})


def lock_set(uow: UnitOfWork, actor: Actor, set_id: UUID, version: int, now: datetime) -> None:
    """Let the items stay as they are for good; Conflict when it has changed or is locked."""
    with uow.writer() as connection:
        row = unlocked_set(connection, actor, set_id, version)
        keep_changes(connection, actor, row, {"locked_at": now, "changed_at": now})


def archive_set(uow: UnitOfWork, actor: Actor, set_id: UUID, version: int, now: datetime | None) -> None:
    """Take a set off the list, or with no time put it back; what was assigned goes on."""
    with uow.writer() as connection:
        row = set_at_version(connection, actor, set_id, version)
        keep_changes(connection, actor, row, {"archived_at": now})


def tidied(settings: SetSettings) -> SetSettings:
    """Return the settings as they are kept: without gaps around title and note."""
    return replace(settings, title=" ".join(settings.title.split()), note=settings.note.strip())


def check_settings(actor: Actor, settings: SetSettings) -> None:
    """Refuse at once all settings that cannot be accepted."""
    refuse_all(settings_faults(settings, actor))


def settings_faults(settings: SetSettings, actor: Actor) -> Iterator[Invalid]:
    """Yield what cannot be accepted in tidied settings."""
    title, note = settings.title, settings.note
    if not 1 <= len(title) <= LONGEST_TITLE:
        yield Invalid(say("set-title", actor.language, value=len(title), most=LONGEST_TITLE), "title")
    if len(note) > LONGEST_NOTE:
        yield Invalid(say("set-note", actor.language, value=len(note), most=LONGEST_NOTE), "note")
    choices: dict[str, tuple[Any, ...]] = {"numbers": NUMBERS, "reveal": REVEALS, "language": (*LANGUAGES, None)}
    for name, accepted in choices.items():
        value = getattr(settings, name)
        if value not in accepted:
            listed = ", ".join(str(each) for each in accepted if each)
            yield Invalid(say("set-choice", actor.language, value=value, accepted=listed), name)
    for name, (least, most) in LIMITS.items():
        value = getattr(settings, name)
        if value is not None and not least <= value <= most:
            yield Invalid(say("set-limit", actor.language, value=value, least=least, most=most), name)


def _place(item: Item, position: int, now: datetime) -> SetItemRow:
    return SetItemRow(
        id=new_id(now),
        position=position,
        family=item.family,
        family_version=item.version,
        pack=item.pack,
        pack_version=item.pack_version,
        seed=item.seed,
        form=item.form,
        chosen_at=now,
    )
