"""How long an answer took, from the signed time at which its question was sent."""

from datetime import datetime, timedelta

from flask import current_app
from itsdangerous import BadSignature, Signer

LONGEST = timedelta(hours=1)
MILLISECOND = timedelta(milliseconds=1)


def seal_time(subject: str, now: datetime) -> str:
    """Return the present time in milliseconds, signed for one question."""
    return _signer(subject).sign(str(_milliseconds(now))).decode("ascii")


def elapsed_ms(sealed: str, subject: str, now: datetime) -> int | None:
    """Return the time since `seal_time`; None where it is not ours, for another question, or out of bounds."""
    try:
        sent_ms = int(_signer(subject).unsign(sealed.encode("utf-8", "replace")))
    except BadSignature:
        return None
    took_ms = _milliseconds(now) - sent_ms
    return took_ms if 0 <= took_ms <= LONGEST / MILLISECOND else None


def _milliseconds(time: datetime) -> int:
    return round(time.timestamp() * 1000)


def _signer(subject: str) -> Signer:
    return Signer(current_app.secret_key or "", salt=f"sent {subject}")
