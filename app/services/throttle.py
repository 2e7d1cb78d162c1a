"""How often one may try: counted in the database, so that it holds with several workers."""

import hashlib
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from uuid import UUID

from app.packs.spec import Language
from app.services.errors import TooOften
from app.services.messages import say
from app.storage.queries import throttles
from app.storage.queries.throttles import ThrottleRow
from app.storage.unit_of_work import UnitOfWork

WINDOW = timedelta(minutes=15)
MOST = {"account": 10, "address": 60}


@dataclass(frozen=True, slots=True)
class Subject:
    """What tries are counted for: an account of a school or an address."""

    school_id: UUID
    kind: str
    name: str

    @property
    def hashed(self) -> str:
        """What is kept of it."""
        return hashlib.sha256(f"{self.kind} {self.name}".encode()).hexdigest()


def count_try(uow: UnitOfWork, subjects: tuple[Subject, ...], language: Language, now: datetime) -> None:
    """Count a try before it is looked at; raises TooOften when there were too many in a quarter of an hour."""
    with uow.writer() as connection:
        for subject in subjects:
            row = throttles.find_throttle(connection, subject.school_id, subject.kind, subject.hashed)
            fresh = row is None or now - row.began_at >= WINDOW
            failures, began_at = (0, now) if fresh or row is None else (row.failures, row.began_at)
            if failures >= MOST[subject.kind]:
                minutes = -(-(began_at + WINDOW - now) // timedelta(minutes=1))
                raise TooOften(say("too-often", language, minutes=minutes), began_at + WINDOW - now)
            kept = ThrottleRow(subject.school_id, subject.kind, subject.hashed, failures + 1, began_at)
            throttles.keep_throttle(connection, kept)


def forgive(uow: UnitOfWork, account: Subject, address: Subject) -> None:
    """After a success: the account starts anew, and the try does not count for the address."""
    with uow.writer() as connection:
        throttles.forget_throttle(connection, account.school_id, account.kind, account.hashed)
        row = throttles.find_throttle(connection, address.school_id, address.kind, address.hashed)
        if row is not None:
            throttles.keep_throttle(connection, replace(row, failures=max(row.failures - 1, 0)))
