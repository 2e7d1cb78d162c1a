"""What the compass card does while the speed changes, wings level: the sign of the tilted-card model."""

from collections.abc import Mapping
from typing import Any

from app.physics.angles import difference, sin_deg, whole
from app.physics.card import Swing, speed_change_reading_deg, speed_swing
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.dynamic_sites import Site, heading_circle, site_of
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

PACE_G = 0.1  # about 2 kt a second
CLEAR_DEG = 2.0
PAIRS = ("north-falls", "north-rises", "south-falls", "south-rises", "none")
ON_THE_AXIS = ("none", "rises", "falls", "real-turn")
HEADINGS_DEG = (45, 60, 90, 120, 135, 180, 225, 240, 270, 300, 315, 360)
SORTED = 5
OTHER_POLE: dict[Swing, Swing] = {"north": "south", "south": "north", "none": "none"}


def pace_g(speed_change: str) -> float:
    """Forward acceleration of a brisk change of speed, in g."""
    return {"faster": PACE_G, "slower": -PACE_G, "steady": 0.0}[speed_change]


def number_toward(pole: Swing, heading_deg: float) -> str:
    """Whether the numbers rise or fall when the card swings toward a pole from an easterly or westerly heading."""
    return "falls" if (pole == "north") == (sin_deg(heading_deg) > 0) else "rises"


@solver("accel-indication")
def accel_indication(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: toward which pole the card swings with what its numbers do, or none on N and S and where nothing dips.

    It is asked of one heading, or of each of several.
    """
    ask, heading, change = (parameters[name] for name in ("ask", "heading_deg", "speed_change"))
    if ask == "sort":
        headings = few_of(HEADINGS_DEG, SORTED, parameters["shuffle"])
        return _sorted_by_swing(headings, site_of(parameters, conventions), change)
    if (ask == "on-the-axis") != (heading % 180 == 0):
        raise Redraw("another ask has this heading")
    site = site_of(parameters, conventions)
    swing = speed_swing(heading, site.dip_deg, pace_g(change))
    off = abs(_off_deg(heading, site, change))
    if swing != "none" and off < CLEAR_DEG:
        raise Redraw("a swing this small is no fair question")
    before, after = heading_circle(site, heading, speed_change=change)
    key, wrong = _key_and_wrong(ask, heading, swing, site, change)
    return Solution(
        key=key,
        given={"ask": ask, "heading_deg": heading, "speed_change": change, **site.given},
        options=ON_THE_AXIS if ask == "on-the-axis" else PAIRS,
        wrong=wrong,
        quantities={**site.words, "off_deg": whole(off), "pole": swing,
                    "other": OTHER_POLE[swing], "half": "east" if sin_deg(heading) > 0 else "west"},
        steps=_steps(heading, swing, site, change),
        figures=before,
        verdict_figures=after,
        model_notes=("size",) if swing != "none" else ("level",) if site.hemisphere == "none" else ("axis",),
        features={"between-points": float(heading % 90 != 0), "southern": float(site.hemisphere == "south"),
                  "westerly": float(heading > 180), "level": float(site.hemisphere == "none")},
    )  # fmt: skip


def _key_and_wrong(ask: str, heading: int, swing: Swing, site: Site, change: str) -> tuple[str, dict[str, str]]:
    if ask == "on-the-axis":
        return "none", {"axis-rises": "rises", "axis-falls": "falls", "real-turn": "real-turn"}
    if site.hemisphere == "none":
        northern: Swing = "north" if change == "faster" else "south"
        southern = OTHER_POLE[northern]
        by_northern, by_southern = number_toward(northern, heading), number_toward(southern, heading)
        return "none", {
            "northern-rule": f"{northern}-{by_northern}",
            "southern-rule": f"{southern}-{by_southern}",
            "northern-rule-number": f"{northern}-{by_southern}",
            "southern-rule-number": f"{southern}-{by_northern}",
        }
    other = OTHER_POLE[swing]
    number, other_number = number_toward(swing, heading), number_toward(other, heading)
    number_slip = "number-east" if sin_deg(heading) > 0 else "number-west"
    nothing = "no-link" if heading % 90 == 0 else "only-east-west"
    return f"{swing}-{number}", {
        "wrong-pole": f"{other}-{other_number}",
        number_slip: f"{swing}-{other_number}",
        "pole-and-number": f"{other}-{number}",
        nothing: "none",
    }


def _sorted_by_swing(headings: tuple[int, ...], site: Site, change: str) -> Solution:
    swings = {heading: speed_swing(heading, site.dip_deg, pace_g(change)) for heading in headings}
    if any(abs(_off_deg(heading, site, change)) < CLEAR_DEG for heading in headings if heading % 180):
        raise Redraw("a swing this small is no fair question")
    asked = {f"on-{heading:03d}": _sorted_one(heading, swing, site, change) for heading, swing in swings.items()}
    key = {code: one for code, (one, _) in asked.items()}
    if len(set(key.values())) < 2:
        raise Redraw("all alike tell nothing apart")
    pole = next(swing for swing in swings.values() if swing != "none")
    end = f"{site.hemisphere}-end-{'forward' if change == 'faster' else 'aft'}"
    return Solution(
        key=key,
        given={"ask": "sort", "speed_change": change, **site.given},
        options=tuple(key),
        slips={(code, value): name for code, (_, wrong) in asked.items() for name, value in wrong},
        quantities={**site.words, "pole": pole, "other": OTHER_POLE[pole]},
        steps=(f"tilt-{change}", end, f"sides-to-{pole}", *(("on-the-axis",) if "none" in key.values() else ())),
        features={"between-points": 1.0, "southern": float(site.hemisphere == "south"), "westerly": 0.0, "level": 0.0},
    )


def _sorted_one(heading: int, swing: Swing, site: Site, change: str) -> tuple[str, list[tuple[str, str]]]:
    """Return what a heading shows, and each wrong answer with what is behind it."""
    if swing != "none":
        key, wrong = _key_and_wrong("off-the-axis", heading, swing, site, change)
        return key, list(wrong.items())
    return "none", [(f"axis-{way}", f"{pole}-{way}") for pole in ("north", "south") for way in ("rises", "falls")]


def _off_deg(heading: int, site: Site, change: str) -> float:
    """How far the model's settled card is from the heading while the speed changes."""
    return difference(speed_change_reading_deg(heading, site.dip_deg, pace_g(change)), heading)


def _steps(heading: int, swing: Swing, site: Site, change: str) -> tuple[str, ...]:
    tilt = f"tilt-{change}"
    if site.hemisphere == "none":
        return (tilt, "no-dip")
    if swing == "none":
        return (tilt, "along-the-needle")
    low_end = f"{site.hemisphere}-end-{'forward' if change == 'faster' else 'aft'}"
    number = f"{'east' if sin_deg(heading) > 0 else 'west'}-to-{swing}"
    return (tilt, low_end, number)
