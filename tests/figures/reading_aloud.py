"""A reader who hears the words of a face and works the reading out, knowing only how such a face is made.

It counts as a blind student would: which labels stand left and right of the line, how many marks, how much of a step.
Which way the numbers grow is seen from the two labels, not told.
"""

import re
from typing import Final

LETTERS: Final = {"N": 360, "E": 90, "S": 180, "W": 270, "O": 270}
FIFTHS: Final = {
    "one fifth": 1, "two fifths": 2, "three fifths": 3, "four fifths": 4,
    "un cinquième": 1, "deux cinquièmes": 2, "trois cinquièmes": 3, "quatre cinquièmes": 4,
}  # fmt: skip
ON_LABEL: Final = re.compile(r"(?:right on the label|juste sur l’inscription) (\w+)")
BETWEEN: Final = re.compile(
    r"two labels: (\w+) on its left, (\w+) on its right"
    r"|deux inscriptions\u00a0: (\w+) à sa gauche, (\w+) à sa droite"
)
ON_MARK: Final = re.compile(r"(?:it is on mark|elle est sur le trait) (\d)")
PART: Final = re.compile(r"(?:it is|elle est à) (\w+ \w+) (?:of the way from|du pas entre) (?:mark |le trait )?(\d)?")


def heading_of(label: str) -> int:
    return LETTERS.get(label) or int(label) * 10


def hear(description: str) -> int:
    """Return the reading 1..360 that a description lets one work out."""
    if label := ON_LABEL.search(description):
        return heading_of(label[1])
    found = BETWEEN.search(description)
    assert found, description
    left, right = (heading_of(label) for label in found.groups() if label)
    way = 1 if (right - left) % 360 == 30 else -1
    assert (right - left) % 360 in {30, 330}
    return (left + way * _degrees_from_left(description)) % 360 or 360


def _degrees_from_left(description: str) -> int:
    if mark := ON_MARK.search(description):
        return 5 * int(mark[1])
    part = PART.search(description)
    assert part, description
    return 5 * int(part[2] or 0) + FIFTHS[part[1]]
