"""Keys of the families about the compass face, worked again from what a printed draw shows.

Sources of the facts: FAA-H-8083-15B ch. 5 (on a drum, 33 stands to the right of N; labels every 30 degrees).
"""

from collections.abc import Mapping
from typing import Any

Draw = Mapping[str, Any]

# The labels in the order in which a pilot meets them from left to right on a vertical card; a drum shows the mirror.
LEFT_TO_RIGHT = [360, 30, 60, 90, 120, 150, 180, 210, 240, 270, 300, 330]


def compass_face(draw: Draw) -> int:
    return int(draw["parameters"]["reading_deg"])


def neighbour(draw: Draw) -> str:
    given = draw["parameters"]
    if given["ask"] == "turn":
        clockwise = (given["target_deg"] - given["reading_deg"]) % 360
        return "right" if clockwise < 180 else "left"
    row = LEFT_TO_RIGHT if given["face"] == "vertical-card" else LEFT_TO_RIGHT[::-1]
    offsets = {label: (label - given["reading_deg"] + 180) % 360 - 180 for label in row}
    seen_right = 1 if given["face"] == "vertical-card" else -1
    wanted = seen_right if given["side"] == "right" else -seen_right
    on_that_side = [label for label in row if offsets[label] * wanted > 0]
    return f"label-{min(on_that_side, key=lambda label: abs(offsets[label]))}"


RECOMPUTE = {"read-compass-face": compass_face, "card-neighbour": neighbour}
