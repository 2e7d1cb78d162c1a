"""Copies of a SQLite database: taken while it is in use, checked before one is put back."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from app.storage.migrate import NewerDatabase, UnusableDatabase, current, head, revisions

WAIT_S = 30.0


def back_up(database: Path, copy: Path) -> None:
    """Write a whole, checked copy of a database that others may be writing to; nobody else may read the file.

    UnusableDatabase when there is no such database, FileExistsError rather than write over a file.
    """
    with _new_file(copy) as draft, closing(_open(database)) as source, closing(_open(draft)) as target:
        source.backup(target)
        target.execute("PRAGMA journal_mode=DELETE")
    check_copy(copy)


def restore(copy: Path, database: Path, replaced: Path) -> None:
    """Put a checked copy in the place of a database, which is first kept as `replaced`.

    UnusableDatabase or NewerDatabase for a copy that cannot be used; then nothing is changed.
    """
    check_copy(copy)
    if database.exists():
        back_up(database, replaced)
    with closing(_open(copy)) as source, closing(sqlite3.connect(database, timeout=WAIT_S)) as target:
        source.backup(target)


def check_copy(copy: Path) -> None:
    """Refuse a file that is no whole database of ours, or one of a newer version of the program."""
    try:
        with closing(_open(copy)) as connection:
            found = connection.execute("PRAGMA integrity_check").fetchone()[0]
    except sqlite3.DatabaseError as error:
        raise UnusableDatabase(f"{copy} is not a database: {error}.") from error
    if found != "ok":
        raise UnusableDatabase(f"{copy} is damaged: {found}.")
    revision = current(copy)
    if revision is None:
        raise UnusableDatabase(f"{copy} holds nothing of this program.")
    if revision not in revisions():
        raise NewerDatabase(f"{copy} is at {revision}; this version knows up to {head()}. Nothing was changed.")


def _open(file: Path) -> sqlite3.Connection:
    if not file.exists():
        raise UnusableDatabase(f"There is no database {file}.")
    return sqlite3.connect(file, timeout=WAIT_S)


@contextmanager
def _new_file(file: Path) -> Iterator[Path]:
    """Make a file of this system's user alone; it goes again when what fills it fails."""
    os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    try:
        yield file
    except BaseException:
        file.unlink()
        raise
