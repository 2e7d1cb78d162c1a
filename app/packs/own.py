"""Questions that a school's instructors write: their answers are words, or numbers that are drawn and reckoned."""

from collections.abc import Mapping
from typing import Any

from app.packs.own_body import OwnBody
from app.packs.own_reckoned import ReckonedBody
from app.packs.own_worded import WordedBody

__all__ = ["OwnBody", "ReckonedBody", "WordedBody", "own_body"]


def own_body(data: Any) -> OwnBody:
    """Return a question as it is kept; ValidationError says what of it cannot be."""
    kind: type[OwnBody] = ReckonedBody if isinstance(data, Mapping) and "answer" in data else WordedBody
    return kind.model_validate(data)
