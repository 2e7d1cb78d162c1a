"""Passwords and one-time codes: how they are hashed, made and accepted."""

import hashlib
import secrets
from base64 import b64encode
from typing import Protocol

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from app.packs.spec import Language
from app.services.errors import Invalid
from app.services.messages import say

SHORTEST, LONGEST = 12, 200
# Without what is read as something else: 0 and O, 1, I and L.
CODE_LETTERS = "ABCDEFGHJKMNPQRSTUVWXYZ23456789"
CODE_GROUPS, GROUP_LENGTH = 3, 4
# Long enough, and tried first by everybody who tries.
KNOWN = frozenset(
    {"password", "motdepasse", "qwertyuiop", "azertyuiop", "1234567890", "abcdefghij", "letmein", "lubberline"}
)


class Hasher(Protocol):
    """Turns passwords into what is kept of them."""

    def hash(self, password: str) -> str:
        """Return a salted hash."""

    def fits(self, kept: str, password: str) -> bool:
        """Tell whether a hash is of this password."""

    def nobodys(self) -> str:
        """Return a hash that no password fits, which costs as much work to compare with as any other."""


class Argon2:
    """Argon2id with 19 MiB, two passes, one lane (OWASP Password Storage Cheat Sheet; RFC 9106)."""

    def __init__(self) -> None:
        self._hasher = PasswordHasher(time_cost=2, memory_cost=19 * 1024, parallelism=1)

    def hash(self, password: str) -> str:
        """Return a salted hash."""
        return self._hasher.hash(password)

    def fits(self, kept: str, password: str) -> bool:
        """Tell whether a hash is of this password."""
        try:
            return self._hasher.verify(kept, password)
        except (VerificationError, InvalidHashError):
            return False

    def nobodys(self) -> str:
        """Return a hash of nothing: random bytes, as nothing need be hashed for it."""
        of = self._hasher
        salt, hashed = (
            b64encode(secrets.token_bytes(length)).decode().rstrip("=") for length in (of.salt_len, of.hash_len)
        )
        return f"$argon2id$v=19$m={of.memory_cost},t={of.time_cost},p={of.parallelism}${salt}${hashed}"


def check_password(password: str, login: str, language: Language) -> None:
    """Refuse a password that is too short, too long, or easily guessed; any letters and spaces will do."""
    if not SHORTEST <= len(password) <= LONGEST:
        values = {"value": len(password), "least": SHORTEST, "most": LONGEST}
        raise Invalid(say("password-length", language, **values), "password")
    plain = password.lower()
    guessed = any(plain.replace(known, "").strip("0123456789!. ") == "" for known in (*KNOWN, login.lower()))
    if guessed or len(set(plain)) < 5:
        raise Invalid(say("password-guessed", language), "password")


def new_code() -> str:
    """Return a one-time code of 59 random bits, in groups that can be read out."""
    groups = ("".join(secrets.choice(CODE_LETTERS) for _ in range(GROUP_LENGTH)) for _ in range(CODE_GROUPS))
    return "-".join(groups)


def hash_of_code(code: str) -> str:
    """Return what is kept of a code, however its letters were typed; it is random, so a plain hash tells nothing."""
    plain = "".join(letter for letter in code.upper() if letter.isalnum())
    return hashlib.sha256(plain.encode()).hexdigest()
