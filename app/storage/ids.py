"""Ids of rows: UUIDs that sort by the time they were made, so that a growing table grows at its end."""

import secrets
from datetime import datetime
from uuid import UUID

RANDOM_BITS = 80
VERSION_7 = 0x7 << 76
VARIANT = 0b10 << 62


def new_id(now: datetime) -> UUID:
    """Return a version 7 UUID: 48 bits of milliseconds, then 74 random bits (RFC 9562, section 5.7)."""
    milliseconds = int(now.timestamp() * 1000) & (2**48 - 1)
    random = secrets.randbits(RANDOM_BITS)
    random = (random & ~(0xF << 76) | VERSION_7) & ~(0b11 << 62) | VARIANT
    return UUID(int=milliseconds << RANDOM_BITS | random)
