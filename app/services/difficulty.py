"""How hard items are in a school: as measured from its answers, by the author's grade until then."""

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from sqlalchemy import Connection

from app.learner.difficulty import FamilyDifficulty, first_difficulty
from app.packs.library import Library
from app.storage.queries.measured import find_measured, list_measured


def read_difficulty(library: Library, family_id: str, kept: dict[str, Any] | None) -> FamilyDifficulty:
    """Return a family's difficulty from what is kept of it; nothing (None) is the author's grade."""
    return FamilyDifficulty(**kept) if kept else first_difficulty(library.family(family_id).grade)


def find_difficulty(connection: Connection, school_id: UUID, library: Library, family_id: str) -> FamilyDifficulty:
    """Return a family's difficulty in a school."""
    row = find_measured(connection, school_id, family_id)
    return read_difficulty(library, family_id, row.difficulty if row else None)


def list_difficulties(connection: Connection, school_id: UUID, library: Library) -> Mapping[str, FamilyDifficulty]:
    """Return every family's difficulty in a school."""
    rows = list_measured(connection, school_id)
    kept = {name: rows[name].difficulty if name in rows else None for name in library.families}
    return {name: read_difficulty(library, name, each) for name, each in kept.items()}
