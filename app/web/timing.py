"""How long an answer took, from the signed time at which its question was sent."""

from datetime import datetime, timedelta

from flask import current_app
from itsdangerous import BadSignature, URLSafeSerializer

LONGEST = timedelta(hours=1)
MILLISECOND = timedelta(milliseconds=1)


def seal_time(subject: str, now: datetime) -> str:
    """Return the present time, signed for one question."""
    return str(_signer().dumps([subject, round(now.timestamp() * 1000)]))


def elapsed_ms(sealed: str, subject: str, now: datetime) -> int | None:
    """Return the time since `seal_time`; None where it is not ours, for another question, or out of bounds."""
    try:
        sealed_for, sent_ms = _signer().loads(sealed)
    except (BadSignature, TypeError, ValueError):
        return None
    took_ms = round(now.timestamp() * 1000) - sent_ms
    return took_ms if sealed_for == subject and 0 <= took_ms <= LONGEST / MILLISECOND else None


def _signer() -> URLSafeSerializer:
    return URLSafeSerializer(current_app.secret_key or "", salt="question-sent")
