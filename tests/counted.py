"""What SQLite is sent, as it says itself: whoever sends it, by SQLAlchemy or past it."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from sqlite3 import Connection

from sqlalchemy import event
from sqlalchemy.pool import Pool

TRANSACTIONS = ("BEGIN", "COMMIT", "ROLLBACK", "SAVEPOINT", "RELEASE")


@dataclass
class Counted:
    """All statements in order, those that open and end transactions included."""

    statements: list[str] = field(default_factory=list)

    @property
    def queries(self) -> list[str]:
        """What reads or writes."""
        return [text for text in self.statements if not text.startswith(TRANSACTIONS)]

    @property
    def commits(self) -> int:
        """How often something was kept."""
        return self.statements.count("COMMIT")


@contextmanager
def counting(pool: Pool | type[Pool] = Pool) -> Iterator[Counted]:
    """Count what is sent through connections taken from a pool, by default from any, while this lasts."""
    counted, listened = Counted(), list[Connection]()

    def taken(driver: Connection, *_: object) -> None:
        listened.append(driver)
        driver.set_trace_callback(counted.statements.append)

    event.listen(pool, "checkout", taken)
    try:
        yield counted
    finally:
        event.remove(pool, "checkout", taken)
        for driver in listened:
            driver.set_trace_callback(None)
