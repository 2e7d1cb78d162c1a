"""Keys of the families on norths and rules worked again from the printed numbers and options alone.

Sources: CAR 602.34 and 14 CFR 91.159 (half circles, more than 3000 ft above the ground); runway numbers: nearest ten of
the magnetic azimuth, true in Canada's Northern Domestic Airspace; met text true, spoken runway wind as the runway; CAR
605.14 to 605.18 (what a flight must carry), texts as checked in 2026.
"""

from collections.abc import Callable
from math import cos, radians
from typing import Any

Draw = dict[str, Any]

SPOKEN = {"tower", "atis", "advisory"}


def by_local_north(true_deg: float, given: dict[str, Any]) -> float:
    return true_deg % 360 if given["region"] == "ca-north" else (true_deg - given["variation_deg"]) % 360


def runway_designator(draw: Draw) -> Any:
    given = draw["parameters"]
    if given["ask"] == "renumbered":
        return _renumbered(given)
    azimuth = by_local_north(given["runway_true_deg"], given)
    number = _nearest_ten(azimuth)
    if given["ask"] == "designator":
        return number
    other = number - 18 if number > 18 else number + 18
    if given["ask"] == "for-wind":  # the end along which the wind has the larger part on the nose
        headwind = cos(radians(given["wind_from_deg"] - azimuth))
        return number if headwind > 0 else other
    return other


def _nearest_ten(azimuth_deg: float) -> int:
    away = {n: min((azimuth_deg - 10 * n) % 360, (10 * n - azimuth_deg) % 360) for n in range(1, 37)}
    return min(away, key=lambda n: away[n])


def _renumbered(given: dict[str, Any]) -> str:
    if given["region"] == "ca-north":
        return "stays-from-true"
    then, now = (_nearest_ten((given["runway_true_deg"] - given[f"variation_{each}_deg"]) % 360) for each in ("a", "b"))
    return "stays-same-ten" if then == now else "changes-by-magnetic"


def cruising_altitude_datum(draw: Draw) -> Any:
    given = draw["parameters"]
    eastern = by_local_north(given["track_true_deg"], given) < 180
    if given["ask"] == "rule":
        if given["indicated_ft"] - given["elevation_ft"] <= 3000:
            return "any-altitude"
        return "odd-plus-500" if eastern else "even-plus-500"
    allowed = range(3500, 18000, 2000) if eastern else range(4500, 18000, 2000)
    (level,) = [option for option in draw["options"] if option in allowed]
    assert level - given["elevation_ft"] > 3000
    return level


def wind_datum(draw: Draw) -> int:
    given = draw["parameters"]
    wind = given["wind_from_deg"]
    if given["wind_source"] not in SPOKEN:
        wind = by_local_north(wind, given)
    return int((wind + 5) // 10 * 10 - 10) % 360 + 10


TRUE_OF_THE_NORTH = {"runways-true", "cruising-true", "written-true", "field-too-steep", "night-needs-source"}
MUST_BE_RIGHT = {"compass": "weak-field", "indicator": "set-to-true", "day-compass": "compass-listed"}


def northern_airspace_reference(draw: Draw) -> Any:
    """Read the codes: what lies in the north is true; night, over-the-top and IFR flights there need another source."""
    given, options = draw["parameters"], draw["options"]
    ask = given["ask"]
    if ask == "statements":
        return [each for each in options if each in TRUE_OF_THE_NORTH]
    if ask == "set-to":
        true = given["runway_true_deg"] if "runway_true_deg" in given else given["gps_track_deg"] - given["drift_deg"]
        return true % 360 or 360
    if ask == "norths":
        return {each: "magnetic-north" if each.endswith("in-south") else "true-north" for each in options}
    if ask == "equipment":
        return [each for each in options if each.endswith("in-north") and not each.startswith("day")]
    return MUST_BE_RIGHT[ask]


def term_match(draw: Draw) -> dict[str, str]:
    return {term: f"def-{term}" for term in draw["options"]}


RECOMPUTE: dict[str, Callable[[Draw], Any]] = {
    "runway-designator": runway_designator,
    "cruising-altitude-datum": cruising_altitude_datum,
    "wind-datum": wind_datum,
    "northern-airspace-reference": northern_airspace_reference,
    "term-match": term_match,
}
