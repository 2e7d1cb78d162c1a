"""Keys of the families about the compass itself, worked again from what a printed draw shows.

Tables are written anew here from the texts named beside them; nothing is shared with the solvers.
"""

from collections.abc import Mapping
from typing import Any

Draw = Mapping[str, Any]

# FAA-H-8083-25C ch. 8, Magnetic Compass: what float, pivot, magnets, liquid, lubber line and compensating magnets do.
JOBS = {
    "card": "carries-numbers",
    "chamber": "makes-room",
    "compensators": "cancels-aircraft",
    "float": "bears-weight",
    "liquid": "damps-swings",
    "lubber-line": "marks-nose",
    "magnets": "seeks-north",
    "pivot": "turns-freely",
}
# Common practice, no source.
CAUSES = {
    "bubble-in-cold": "chamber",
    "even-error": "lubber-line",
    "long-swings": "liquid",
    "slow-return": "magnets",
    "stops-short": "pivot",
    "uneven-error": "compensators",
}


def part_or_job(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "match":
        return {part: JOBS[part] for part in draw["options"]}
    return JOBS[given["part"]] if given["ask"] == "purpose" else CAUSES[given["fault"]]


RECOMPUTE = {"compass-part-purpose": part_or_job}
