"""The heading indicator: what to set on it, how it wanders, where its error takes you. Degrees, minutes, NM."""

from collections.abc import Mapping, Sequence
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import cos_deg, difference, round_half_up, shown, sin_deg, whole
from app.physics.gyro import (
    CHECK_EVERY_MIN,
    ROUNDED_EARTH_RATE_DEG_H,
    drift_per_check_deg,
    earth_wander_deg_h,
    forecast_error_deg,
    reading_after,
    within_limit,
)
from app.physics.headings import magnetic_from_compass_heading, true_from_magnetic
from app.physics.track import off_track_by_indicator_nm
from app.questions.conventions import WEAK_HORIZONTAL_NT, Conventions, Region
from app.questions.model import Redraw, Solution, Step, Wrong
from app.questions.solvers.datum_rules import counts_from_true, region_and_variation
from app.questions.solvers.regional_variation import place_variation
from app.questions.solvers.registry import solver

TELLING_APART_DEG = 3  # wrong methods nearer than this could not be told from one another
CLEAR_OF_LIMIT_DEG = 0.3
LARGEST_RATE_DEG = 9
PLACES = (0, 0, 0, 0, 1, 1, 1, 2, 2, 2, 2)  # the middle can be had more often, so it is drawn less
SOUTHERNMOST_FIELD_DEG = -54  # Tierra del Fuego
SINE_MEETS_COSINE_DEG = range(40, 51)


@solver("hi-set-value")
def hi_set_value(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: compass and deviation, and variation where headings are true; while the compass is unsteady, nothing yet."""
    region, v, at_home = _region_and_variation(parameters, conventions)
    face, flight = parameters["face"], parameters["flight"]
    tens = 5 if face != "told" else 1  # a face is read to its marks
    compass, d = shown(tens * whole(parameters["compass_deg"] / tens)), parameters["deviation_deg"]
    steady = flight == "steady"
    if parameters["ask"] == "value" and not steady:
        raise Redraw("what to wait for is not typed")
    values = _settings(compass, d, v, true_flown=counts_from_true(region))
    indicator = shown(values["correct"] + parameters["indicator_error_deg"])
    values["leave"] = indicator
    _refuse_close(values)
    choice = parameters["ask"] == "set"
    told = {"compass_deg": compass} if face == "told" else {"face": face, "reading_deg": compass}
    return Solution(
        key=("set-correct" if steady else "not-yet") if choice else values["correct"],
        given={"ask": parameters["ask"], "deviation_deg": d, "variation_deg": v, "region": region, "flight": flight,
               "indicator_deg": indicator, **told},
        wrong=_wrong_settings(values, compass, choice=choice, steady=steady),
        options=(*_offered(values, parameters["shuffle"], steady=steady), "not-yet") if choice else (),
        quantities={**{f"set_{name.replace('-', '_')}_deg": value for name, value in values.items()},
                    "compass_deg": compass, "magnetic_deg": shown(magnetic_from_compass_heading(compass, d)),
                    "where": "where-home" if at_home else "where-field"},
        steps=_set_steps(compass, d, v if counts_from_true(region) else 0, steady=steady),
        figures=() if face == "told" else (FigureCall(face, told),),
        scene="" if face == "told" else "face",
        model_notes=("weak-field",) if counts_from_true(region) else (),
        features={"not-steady": float(not steady), "in-the-north": float(counts_from_true(region))},
    )  # fmt: skip


def _region_and_variation(parameters: Mapping[str, Any], conventions: Conventions) -> tuple[Region, int, bool]:
    """Return where the flight is; never at home where the field is too weak to set anything from a compass."""
    region, v, at_home = region_and_variation(parameters, conventions)
    if at_home and conventions.horizontal_nt < WEAK_HORIZONTAL_NT:
        return (*place_variation(region, parameters["variation_deg"]), False)
    return region, v, at_home


def _settings(compass: int, d: int, v: int, *, true_flown: bool) -> dict[str, int]:
    """Return the right value and those that a wrong method sets, by the method's name."""
    magnetic, turned = magnetic_from_compass_heading(compass, d), magnetic_from_compass_heading(compass, -d)
    if not true_flown:
        exact = {"correct": magnetic, "raw": compass, "wrong-way": turned, "true": true_from_magnetic(magnetic, v)}
    else:
        exact = {"correct": true_from_magnetic(magnetic, v), "magnetic": magnetic,
                 "v-wrong-way": true_from_magnetic(magnetic, -v),
                 "wrong-way": true_from_magnetic(turned, v)}  # fmt: skip
    return {name: shown(value) for name, value in exact.items()}


def _refuse_close(values: Mapping[str, int]) -> None:
    numbers = sorted(values.values())
    gaps = [b - a for a, b in zip(numbers, [*numbers[1:], numbers[0] + 360], strict=True)]
    if min(gaps) < TELLING_APART_DEG:
        raise Redraw("two methods give nearly the same value")


def _wrong_settings(values: Mapping[str, int], compass: int, *, choice: bool, steady: bool) -> dict[str, Any]:
    """Return the wrong settings as options are called, or as numbers where one is typed."""
    wrong: dict[str, Any] = {name: f"set-{name}" if choice else value for name, value in values.items()}
    correct = wrong.pop("correct")
    if choice:
        return wrong | ({"over-cautious": "not-yet"} if steady else {"in-turn": correct})
    return wrong | _raw_in_the_north(values, compass)


def _raw_in_the_north(values: Mapping[str, int], compass: int) -> dict[str, Wrong]:
    """Return the compass reading set as it stands where headings are true; elsewhere it is among the values."""
    if any(abs(difference(compass, value)) < TELLING_APART_DEG for value in values.values()):
        return {}
    return {"raw": Wrong(compass, {"set_raw_deg": compass}, option=False)}


def _offered(values: Mapping[str, int], shuffle: int, *, steady: bool) -> tuple[str, ...]:
    """Return the right setting and two others in order of their numbers, the right one at a place drawn first.

    To leave it is not offered beside the wait that is right while the compass is unsteady: the two are one.
    """
    place, first = PLACES[shuffle % len(PLACES)], shuffle // len(PLACES)
    names = sorted((name for name in values if steady or name != "leave"), key=lambda name: values[name])
    at = names.index("correct")
    below, above = names[:at], names[at + 1 :]
    if len(below) < place or len(above) < 2 - place:
        raise Redraw("the right value cannot stand at that place")
    kept = {"correct", *_some(below, place, first), *_some(above, 2 - place, first)}
    return tuple(f"set-{name}" for name in names if name in kept)


def _some(names: Sequence[str], count: int, first: int) -> list[str]:
    return [names[(first + i) % len(names)] for i in range(count)]


def _set_steps(compass: int, d: int, v: int, *, steady: bool) -> tuple[Step | str, ...]:
    """Correct the reading; `v` is 0 where the indicator is set to magnetic."""
    steps: list[Step | str] = [
        _sum_step("card", compass, d),
        _sum_step("variation", shown(compass + d), v) if v else "no-variation",
    ]
    return ("settled", *steps, "release") if steady else ("unsettled", *steps, "wait")


def _sum_step(what: str, start: int, angle: int) -> Step:
    side = "east" if angle > 0 else "west"
    return Step(f"{what}-{side}", {"start_deg": start, "size_deg": abs(angle), "on_deg": shown(start + angle)})


@solver("hi-drift-rate")
def hi_drift_rate(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: the error brought to 15 minutes, with its verdict by the school's limit, or the error to expect later."""
    error, minutes, limit = parameters["indicator_error_deg"], parameters["minutes"], conventions.hi_limit_deg
    rate = drift_per_check_deg(error, minutes)
    if rate > LARGEST_RATE_DEG or abs(rate - limit) <= CLEAR_OF_LIMIT_DEG:
        raise Redraw("a gyro so poor is no question, or it is too near to the limit")
    earlier, ask = parameters["earlier_minutes"], parameters["ask"]
    given = {"ask": ask, "indicator_error_deg": error, "minutes": minutes, "earlier_minutes": earlier}
    if ask == "forecast":
        return _forecast(given, parameters["later_minutes"], conventions)
    rates = {
        "no-scale": error,
        "inverse": error * minutes / CHECK_EVERY_MIN,
        "per-hour": forecast_error_deg(error, minutes, 60),
        "per-minute": error / minutes,
        "since-start": drift_per_check_deg(error, minutes + earlier),
    }
    verdict = ask == "verdict"
    within = within_limit(error, minutes, limit)
    key = round_half_up(rate, 1)
    return Solution(
        key=(key, _verdict(within=within)) if verdict else key,
        given={**given, **({"limit_deg": limit} if verdict else {})},
        wrong={name: _judged(value, limit) if verdict else round_half_up(value, 1) for name, value in rates.items()},
        quantities={"rate_deg": key, **_earth(conventions)},
        steps=("to-15", *((_verdict(within=within),) if verdict else ())),
        model_notes=("earth",),
        by_rule=verdict,
        features={"short-time": float(minutes < CHECK_EVERY_MIN)},
    )


def _verdict(*, within: bool) -> str:
    return "within" if within else "beyond"


def _judged(rate: float, limit: int) -> tuple[float, str]:
    return round_half_up(rate, 1), _verdict(within=rate <= limit)


def _earth(conventions: Conventions) -> dict[str, Any]:
    """Return what the earth's turning alone does to a free gyro at home, for the note below the working."""
    wander = earth_wander_deg_h(conventions.latitude_deg) * CHECK_EVERY_MIN / 60
    return {"latitude_deg": round_half_up(conventions.latitude_deg), "earth_deg": abs(wander)}


def _forecast(given: Mapping[str, Any], later: int, conventions: Conventions) -> Solution:
    error, minutes = given["indicator_error_deg"], given["minutes"]
    if later == minutes:
        raise Redraw("nothing is left to scale")
    expected = forecast_error_deg(error, minutes, later)
    wrong = {
        "stays": error,
        "inverse": error * minutes / later,
        "adds-old-error": error + expected,
        "per-15-again": drift_per_check_deg(error, minutes),
        "since-start": forecast_error_deg(error, minutes + given["earlier_minutes"], later),
    }
    return Solution(
        key=round_half_up(expected, 1),
        given={**given, "later_minutes": later},
        wrong={name: round_half_up(value, 1) for name, value in wrong.items()},
        quantities={"expected_deg": expected, **_earth(conventions)},
        steps=("to-later",),
        model_notes=("earth",),
        features={"short-time": float(minutes < CHECK_EVERY_MIN)},
    )


@solver("hi-earth-rate")
def hi_earth_rate(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: change of a free gyro's reading, 15 sin(latitude) an hour: low in the north, high in the south."""
    own = whole(conventions.latitude_deg)
    at_home = parameters["at_home"] and 12 <= abs(own) <= 70 and abs(own) not in SINE_MEETS_COSINE_DEG
    latitude, minutes = own if at_home else parameters["latitude_deg"], parameters["minutes"]
    if not at_home and latitude < SOUTHERNMOST_FIELD_DEG:
        raise Redraw("there is no field so far south")
    rate = earth_wander_deg_h(latitude, ROUNDED_EARTH_RATE_DEG_H)
    change = reading_after(0, rate, minutes)
    if round_half_up(round_half_up(abs(rate), 2) * minutes / 60, 1) != round_half_up(abs(change), 1):
        raise Redraw("the working's hundredths would give another tenth")
    side = 1 if change > 0 else -1
    wrong = {
        "flip": -change,
        "cos": side * ROUNDED_EARTH_RATE_DEG_H * cos_deg(latitude) * minutes / 60,
        "full-15": side * ROUNDED_EARTH_RATE_DEG_H * minutes / 60,
        "no-time": rate,
        "straight-line": side * ROUNDED_EARTH_RATE_DEG_H * abs(latitude) / 90 * minutes / 60,
    }
    return Solution(
        key=round_half_up(change, 1),
        given={"at_home": at_home, "latitude_deg": latitude, "minutes": minutes, "flight": parameters["flight"]},
        wrong={name: round_half_up(value, 1) for name, value in wrong.items()},
        quantities={"sine": abs(sin_deg(latitude)), "rate_deg_h": abs(rate), "size_deg": abs(change),
                    "in_minutes": ROUNDED_EARTH_RATE_DEG_H * minutes / 60},
        steps=("an-hour", "its-share", "north-falls" if latitude > 0 else "south-rises"),
        scene="home" if at_home else "",
        model_notes=("nut",),
        features={"southern": float(latitude < 0)},
    )  # fmt: skip


@solver("hi-wrong-effect")
def hi_wrong_effect(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: miles off track by the one-in-sixty rule; an indicator that shows too much takes you left."""
    error, distance = parameters["indicator_error_deg"], parameters["distance_nm"]
    if not 300 < abs(error) * distance <= 700:
        raise Redraw("too near to the track, or too far for the rule")
    heading, side = parameters["heading_deg"], -1 if error > 0 else 1
    off = off_track_by_indicator_nm(error, distance)
    miles = {"pct": abs(error) * distance / 100, "deg-as-nm": abs(error), "divides": distance / abs(error)}
    wrong = {"side": -off, "no-effect": 0.0, **{name: side * value for name, value in miles.items()}}
    return Solution(
        key=round_half_up(off, 1),
        given={"indicator_error_deg": error, "distance_nm": distance, "heading_deg": heading},
        wrong={name: round_half_up(value, 1) for name, value in wrong.items()},
        quantities={"reads": "more" if error > 0 else "less", "off_nm": abs(off), "real_deg": shown(heading - error)},
        steps=("reads-more" if error > 0 else "reads-less", "one-in-sixty"),
        model_notes=("rule",),
        features={"reads-less": float(error < 0)},
    )
