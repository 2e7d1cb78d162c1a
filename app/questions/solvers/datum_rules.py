"""Which north a rule counts from: cruising altitudes, quoted winds. Degrees, feet; east positive."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import difference, shown, whole
from app.physics.headings import (
    cruising_parity,
    magnetic_from_true,
    reciprocal,
    true_from_magnetic,
)
from app.questions.conventions import Conventions, Region
from app.questions.model import NotOffered, Redraw, Solution
from app.questions.solvers.regional_variation import (
    LARGEST_VARIATION_DEG,
    LEAST_VARIATION_DEG,
    lies_in,
    place_variation,
)
from app.questions.solvers.registry import solver

CANADIAN = frozenset({"ca-south", "ca-north"})
CRUISING = CANADIAN | {"us"}
RULE_ABOVE_FT = 3000
CLEAR_OF_RULE_FT = 500
CLEAR_OF_NORTH_DEG = 2
STEP_FT = 500


def region_and_variation(parameters: Mapping[str, Any], conventions: Conventions) -> tuple[Region, int, bool]:
    """Return the region asked about, the variation, and whether the latter is the home place's own.

    A Canadian school meets both of its airspaces; any other keeps to its own country, if that has variation enough. One
    that goes by the rules of a region where it does not lie is never said to lie there.
    """
    at_home = parameters["at_home"] and lies_in(conventions.region, conventions.latitude_deg, conventions.longitude_deg)
    own = whole(conventions.variation_deg)
    own_fits = at_home and LEAST_VARIATION_DEG <= abs(own) <= LARGEST_VARIATION_DEG and own % 5 != 0
    region = parameters["region"] if conventions.region in CANADIAN and not at_home else conventions.region
    return (region, own, True) if own_fits else (*place_variation(region, parameters["variation_deg"]), False)


def two_roses(true_deg: int, variation_deg: int) -> tuple[FigureCall, ...]:
    """Return the verdict's figure: one line read on a true and on a magnetic rose."""
    return (FigureCall("rose", {"variation_deg": variation_deg, "true_deg": true_deg, "show_variation": True}),)


def counts_from_true(region: str) -> bool:
    """Whether directions are counted from true north there: in Canada's Northern Domestic Airspace."""
    return region == "ca-north"


def north_name(*, true_there: bool) -> str:
    """Return the code of the north that counts."""
    return "true-north" if true_there else "magnetic-north"


@solver("cruising-altitude-datum")
def cruising_altitude_datum(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: the VFR altitude of the right half circle by the right north; or what the rule leaves at a given height."""
    if conventions.region not in CRUISING:
        raise NotOffered("", "not-offered-other-rules")
    region, v, _ = region_and_variation(parameters, conventions)
    true = parameters["track_true_deg"]
    if parameters["across_north"]:  # true and magnetic track lie in different half circles
        true = shown((180 if 90 < true < 270 else 360) + whole(v * parameters["fraction"]))
    magnetic = shown(magnetic_from_true(true, v))
    right, other = (true, magnetic) if counts_from_true(region) else (magnetic, true)
    heading = shown(right + parameters["wca_deg"])
    if any(_near_the_line(each) for each in (true, magnetic, heading)):
        raise Redraw("too near to the line between the half circles")
    parity = cruising_parity(right)
    asked = _asked_altitude if parameters["ask"] == "altitude" else _asked_rule
    decoys = [n for n, each in (("wrong-north", other), ("heading-used", heading)) if cruising_parity(each) != parity]
    found = asked(parameters, parity, decoys or ["halves-turned"])
    return Solution(
        key=found["key"],
        given={"ask": parameters["ask"], "track_true_deg": true, "variation_deg": v, "heading_deg": heading,
               "region": region, **found["given"]},
        wrong=found["wrong"],
        quantities={"track_deg": right, "other_deg": other, "right_north": north_name(true_there=right == true),
                    "other_north": north_name(true_there=right != true), "key_half": f"{parity}-plus-500",
                    **found["quantities"]},
        steps=(*found["first"], "stays-true" if right == true else "to-magnetic",
               f"half-{parity}", *found["last"]),
        verdict_figures=two_roses(true, v),
        scene="us" if region == "us" else "ca",
        features={"norths-split": float(cruising_parity(other) != parity),
                  "heading-splits": float(cruising_parity(heading) != parity)},
    )  # fmt: skip


def _near_the_line(track_deg: float) -> bool:
    return min(abs(difference(track_deg, 0)), abs(difference(track_deg, 180))) < CLEAR_OF_NORTH_DEG


def _asked_altitude(parameters: Mapping[str, Any], parity: str, decoys: list[str]) -> dict[str, Any]:
    """Return the four neighbouring levels from the lowest on, one of each kind, all of them where the rule binds."""
    lowest, elevation = parameters["indicated_ft"], parameters["elevation_ft"]
    if lowest - elevation < RULE_ABOVE_FT + CLEAR_OF_RULE_FT:
        raise Redraw("the rule does not clearly bind at every level offered")
    kinds = {_kind(level): level for level in range(lowest, lowest + 4 * STEP_FT, STEP_FT)}
    turned = "even" if parity == "odd" else "odd"
    wrong = dict.fromkeys(decoys, kinds[f"{turned}-plus-500"])
    wrong |= {"ifr-level": kinds[parity], "ifr-other-half": kinds[turned]}
    key = kinds[f"{parity}-plus-500"]
    given = {"elevation_ft": elevation}
    return {"key": key, "given": given, "wrong": wrong, "quantities": {"key_ft": key}, "first": (), "last": ("pick",)}


def _kind(level_ft: int) -> str:
    parity = "even" if level_ft // 1000 % 2 == 0 else "odd"
    return parity if level_ft % 1000 == 0 else f"{parity}-plus-500"


def _asked_rule(parameters: Mapping[str, Any], parity: str, decoys: list[str]) -> dict[str, Any]:
    level, elevation = parameters["indicated_ft"], parameters["elevation_ft"]
    height = level - elevation
    if abs(height - RULE_ABOVE_FT) < CLEAR_OF_RULE_FT or not 1000 <= height <= 9000:
        raise Redraw("too near to the height where the rule begins, or too low to cruise")
    turned = "even" if parity == "odd" else "odd"
    binds = height > RULE_ABOVE_FT
    if binds:
        wrong = {**dict.fromkeys(decoys, f"{turned}-plus-500"), "never-binds": "any-altitude"}
    else:
        wrong = {"always-binds": f"{parity}-plus-500", "always-binds-turned": f"{turned}-plus-500"}
    return {
        "key": f"{parity}-plus-500" if binds else "any-altitude",
        "given": {"indicated_ft": level, "elevation_ft": elevation},
        "wrong": wrong,
        "quantities": {"height_ft": height},
        "first": ("height", "binds" if binds else "does-not-bind"),
        "last": (),
    }


@solver("wind-datum")
def wind_datum(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: the wind's direction by the runway's north, to ten degrees; met text is true, a runway's voice is not."""
    region, v, at_home = region_and_variation(parameters, conventions)
    wind, source = parameters["wind_from_deg"], parameters["wind_source"]
    spoken = source in {"tower", "atis", "advisory"}
    converts = not spoken and not counts_from_true(region)
    less, more = _ten(magnetic_from_true(wind, v)), _ten(true_from_magnetic(wind, v))
    if (wind - v) % 10 == 5:
        raise Redraw("half-way between two tens")
    key = less if converts else wind
    wrong = {"toward": shown(reciprocal(key))}
    if converts:
        wrong |= {"as-it-stands": wind, "v-sign": more, "toward-as-it-stands": shown(reciprocal(wind))}
    else:
        reason = "converts-spoken" if spoken else "converts-in-the-north"
        wrong |= {reason: less, "converts-turned": more, "toward-converted": shown(reciprocal(less))}
    side = "home" if at_home else ""
    return Solution(
        key=key,
        given={"wind_from_deg": wind, "wind_kt": parameters["wind_kt"], "variation_deg": v, "region": region,
               "wind_source": source},
        wrong=wrong,
        quantities={"exact_deg": shown(magnetic_from_true(wind, v)), "answer_deg": key,
                    "right_north": north_name(true_there=counts_from_true(region))},
        steps=("spoken" if spoken else "text", *_wind_steps(spoken=spoken, converts=converts)),
        verdict_figures=() if spoken else two_roses(wind, v),
        scene="-".join(filter(None, ("voice" if spoken else "text", side))),
        features={"in-the-north": float(counts_from_true(region)), "spoken": float(spoken)},
    )  # fmt: skip


def _ten(direction_deg: float) -> int:
    return shown(10 * whole(direction_deg / 10))


def _wind_steps(*, spoken: bool, converts: bool) -> tuple[str, ...]:
    if spoken:
        return ("unchanged",)
    if not converts:
        return ("stays-true", "unchanged")
    return ("to-magnetic", "to-ten")
