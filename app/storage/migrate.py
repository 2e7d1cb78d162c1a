"""Bringing a database to this version's tables, and telling whether it is."""

from pathlib import Path

HISTORY = Path(__file__).resolve().parents[2] / "migrations" / "versions"


class NewerDatabase(RuntimeError):
    """The database was made by a newer version of the program; nothing was changed."""


class UnusableDatabase(RuntimeError):
    """The database cannot be opened or written; the message says why."""


def head() -> str:
    """Return the newest revision this version knows."""
    return max(file.stem for file in HISTORY.glob("[0-9]*.py"))


def current(target: str | Path) -> str | None:
    """Return the database's revision, None for an empty one."""
    raise NotImplementedError


def upgrade(target: str | Path) -> None:
    """Bring a database (a SQLite path or a URL) to `head`; raises NewerDatabase or UnusableDatabase."""
    raise NotImplementedError


def differences(target: str | Path) -> list[str]:
    """Return every difference between the tables of a database and the models, as text."""
    raise NotImplementedError
