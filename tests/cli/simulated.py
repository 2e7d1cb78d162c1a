"""What tests of the simulator share: the real families as the simulation sees them, drawn once."""

from functools import lru_cache

from app.cli.simulation.shapes import Kin, all_kin
from tests.questions.engine import home, library


@lru_cache(maxsize=1)
def bank() -> tuple[Kin, ...]:
    """Return every family that is offered at the tests' home."""
    return all_kin(library(), home())
