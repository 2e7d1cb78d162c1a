"""How often one may try: counted in the database, so that it holds with several workers."""

import hashlib
import ipaddress
from datetime import datetime, timedelta
from typing import NamedTuple
from uuid import UUID

from app.packs.spec import Language
from app.services.errors import TooOften
from app.services.messages import say
from app.storage.models import VISITORS_SCHOOL_ID
from app.storage.queries import throttles
from app.storage.queries.throttles import ThrottleKey
from app.storage.unit_of_work import UnitOfWork

WINDOW = timedelta(minutes=15)
MOST = {"account": 10, "address": 60}
NETWORK_BITS = 64


class Subject(NamedTuple):
    """What tries are counted for: an account of a school or an address."""

    school_id: UUID
    kind: str
    name: str

    @property
    def key(self) -> ThrottleKey:
        """What is kept of it."""
        hashed = hashlib.sha256(f"{self.kind} {self.name}".encode()).hexdigest()
        return ThrottleKey(self.school_id, self.kind, hashed)


def address_subject(address: str) -> Subject:
    """Return what tries from an address are counted for; whoever has one of version 6 has its whole network."""
    if ":" in address:
        address = str(ipaddress.ip_network((address.partition("%")[0], NETWORK_BITS), strict=False))
    return Subject(VISITORS_SCHOOL_ID, "address", address)


def count_try(uow: UnitOfWork, subjects: tuple[Subject, ...], language: Language, now: datetime) -> None:
    """Count a try before it is looked at; raises TooOften when there were too many in a quarter of an hour."""
    with uow.writer() as connection:
        counts = [(each.kind, *throttles.count_one(connection, each.key, now, now - WINDOW)) for each in subjects]
    ends = [began_at + WINDOW for kind, failures, began_at in counts if failures > MOST[kind]]
    if ends:
        wait = max(ends) - now
        raise TooOften(say("too-often", language, minutes=-(-wait // timedelta(minutes=1))), wait)


def forgive(uow: UnitOfWork, *subjects: Subject) -> None:
    """After a success: the account starts anew, and the try does not count for the address."""
    with uow.writer() as connection:
        for each in subjects:
            change = throttles.forget_throttle if each.kind == "account" else throttles.take_one_back
            change(connection, each.key)
