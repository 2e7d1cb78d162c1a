"""How hard an item is, on the logit scale: its family's grade or what answers showed, moved by what this item holds."""

from collections.abc import Mapping
from dataclasses import dataclass, field

GRADES: Mapping[str, float] = {"easy": -0.7, "medium": 0.0, "hard": 0.7}


@dataclass(frozen=True, slots=True)
class FamilyDifficulty:
    """A family's difficulty: of a plain item, and what each feature (from -1 to 1) adds."""

    plain: float
    weights: Mapping[str, float] = field(default_factory=dict)

    def of(self, features: Mapping[str, float]) -> float:
        """Return the difficulty of an item with these features."""
        return self.plain + sum(self.weights.get(name, 0.0) * value for name, value in features.items())


def first_difficulty(grade: str) -> FamilyDifficulty:
    """Return what the author's grade says, before anybody answered."""
    return FamilyDifficulty(GRADES[grade])
