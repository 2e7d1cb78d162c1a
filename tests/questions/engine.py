"""What tests of the engine share: the real packs and a few homes."""

from datetime import date
from functools import lru_cache
from pathlib import Path

from app.packs.library import Library
from app.packs.load import load_library
from app.questions.conventions import Conventions, conventions_at

PACKS = Path(__file__).parents[2] / "question_packs"


@lru_cache(maxsize=1)
def library() -> Library:
    """Return the real packs, read once."""
    return load_library(PACKS)


@lru_cache(maxsize=32)
def home(latitude_deg: float = 45.3, longitude_deg: float = -75.7, region: str = "ca-south") -> Conventions:
    """Return the conventions of a place on a fixed day."""
    return conventions_at("Larkspur", latitude_deg, longitude_deg, date(2026, 9, 1), region=region)
