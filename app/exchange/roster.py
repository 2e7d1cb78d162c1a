"""Rosters: who is to join a class, from pasted names or from a table with a name and perhaps an e-mail address."""

from dataclasses import dataclass

from app.exchange.tables import UnreadableTable, read_table

NAME_HEADINGS = frozenset({"name", "nom", "full name", "nom complet", "student", "élève"})
EMAIL_HEADINGS = frozenset({"email", "e-mail", "mail", "courriel", "adresse courriel"})


@dataclass(frozen=True, slots=True)
class Newcomer:
    """Somebody to make an account for, with the line they stand in."""

    line: int
    name: str
    email: str | None = None


def read_names(text: str) -> tuple[Newcomer, ...]:
    """Return the names of a pasted text, one a line."""
    lines = enumerate(text.splitlines(), 1)
    return tuple(Newcomer(number, " ".join(line.split())) for number, line in lines if line.strip())


def read_roster(content: bytes) -> tuple[Newcomer, ...]:
    """Return the people of a table: the columns its heading names, else name and e-mail address in this order.

    Raises UnreadableTable; columns of other headings are left alone.
    """
    rows = list(read_table(content))
    if not rows:
        return ()
    headings = [cell.casefold() for cell in rows[0][1]]
    name_at = next((place for place, each in enumerate(headings) if each in NAME_HEADINGS), None)
    email_at = next((place for place, each in enumerate(headings) if each in EMAIL_HEADINGS), None)
    if name_at is None and email_at is not None:
        raise UnreadableTable("no column of names")
    if name_at is None:
        return tuple(_newcomer(number, cells, 0, 1) for number, cells in rows)
    return tuple(_newcomer(number, cells, name_at, email_at) for number, cells in rows[1:])


def _newcomer(line: int, cells: list[str], name_at: int, email_at: int | None) -> Newcomer:
    name = cells[name_at] if name_at < len(cells) else ""
    email = cells[email_at] if email_at is not None and email_at < len(cells) else ""
    return Newcomer(line, " ".join(name.split()), email or None)
