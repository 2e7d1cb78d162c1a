"""Secrets that a browser or a link holds: each says in which school it counts; only its hash is kept."""

import hashlib
import secrets
from base64 import urlsafe_b64decode, urlsafe_b64encode
from binascii import Error as NotBase64
from uuid import UUID

SECRET_BYTES = 32
TOKEN_LENGTH = (16 + SECRET_BYTES) * 4 // 3


def new_token(school_id: UUID) -> str:
    """Return a secret that says in which school, so in which shard, what it opens is kept."""
    return urlsafe_b64encode(school_id.bytes + secrets.token_bytes(SECRET_BYTES)).decode("ascii")


def school_of(token: str) -> UUID | None:
    """Return the school a token says, None for what is no token."""
    if len(token) != TOKEN_LENGTH or not token.isascii():
        return None
    try:
        return UUID(bytes=urlsafe_b64decode(token)[:16])
    except (NotBase64, ValueError):
        return None


def hash_of(token: str) -> str:
    """Return what is kept of a token: it is random enough that a plain hash tells nobody anything."""
    return hashlib.sha256(token.encode("ascii")).hexdigest()
