"""The compass rules in the other hemisphere, and how large errors are from place to place: the dip decides."""

from collections.abc import Mapping
from itertools import pairwise
from math import comb
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import round_half_up, whole
from app.physics.card import usable
from app.physics.turning import bank_for_rate_deg
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Step
from app.questions.solvers.dynamic_places import LEVEL_DIP_DEG, PLACES, Place
from app.questions.solvers.dynamic_sites import Site
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

LEAST_DIP_DEG = 10
STEEPEST_DIP_DEG = 70
STAYS = ("variation-rule", "deviation-rule", "axis-speed", "side-on-start", "steady-flight", "poles-opposite")
TURNS_ROUND = ("turn-north", "turn-south", "speed-east", "speed-west", "stop-short")
STATEMENTS = 6
LEVEL = tuple(latitude for latitude, place in PLACES.items() if abs(place.dip_deg) <= LEVEL_DIP_DEG)
AGAINST = tuple(
    latitude for latitude, place in PLACES.items() if latitude * place.dip_deg < 0 and latitude not in LEVEL
)
NORTHERN, SOUTHERN = (
    tuple(
        latitude for latitude, place in PLACES.items() if sign * latitude > 0 and sign * place.dip_deg >= LEAST_DIP_DEG
    )
    for sign in (1, -1)
)
OFF_NORTH = {"north": "reads-behind", "south": "reads-ahead", "none": "reads-right"}

LEAST_APART_DIP_DEG = 8
LEAST_APART_TAS_KT = 20
COMPARED = ("place-a", "place-b", "place-c")
TURNS = ("turn-a", "turn-b", "turn-c")


@solver("hemisphere-flip")
def hemisphere_flip(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: the pair of rules at a place, the statements that hold at two, or what five places do to a turn."""
    if parameters["ask"] == "places":
        return _places(parameters["shuffle"])
    latitude, place = _first_place(parameters, conventions)
    site = Site(at_home=place is None, dip_deg=whole(conventions.dip_deg) if place is None else place.dip_deg)
    if parameters["ask"] == "rules-here":
        return _rules_here(latitude, site, parameters)
    other_latitude = parameters["latitude_b_deg"]
    other = Site(at_home=False, dip_deg=PLACES[other_latitude].dip_deg)
    if site.dip_deg * other.dip_deg >= 0 or min(abs(site.dip_deg), abs(other.dip_deg)) < LEAST_DIP_DEG:
        raise Redraw("the two places must dip to opposite ends, both clearly")
    given = {"latitude_a_deg": latitude, "dip_a_deg": site.dip_deg,
             "latitude_b_deg": other_latitude, "dip_b_deg": other.dip_deg}  # fmt: skip
    return _still_holds(site, other, given, parameters["shuffle"])


def _first_place(parameters: Mapping[str, Any], conventions: Conventions) -> tuple[float, Place | None]:
    """Return the drawn place, or None for the home place where it is wanted and suits.

    Drawn places where the dip goes against the latitude are kept, level ones give way to a level home alone.
    """
    latitude = parameters["latitude_deg"]
    place = PLACES[latitude]
    home_dip_deg = abs(whole(conventions.dip_deg))
    level = abs(place.dip_deg) <= LEVEL_DIP_DEG
    suits = home_dip_deg <= LEVEL_DIP_DEG if level else home_dip_deg >= LEAST_DIP_DEG and not conventions.beyond_rules
    if parameters["at_home"] and suits and latitude * place.dip_deg >= 0:
        return round_half_up(conventions.latitude_deg, 1), None
    return latitude, place


def _rules_here(latitude: float, site: Site, parameters: Mapping[str, Any]) -> Solution:
    start, heading, change = (parameters[name] for name in ("start_deg", "heading_deg", "speed_change"))
    level = site.hemisphere == "none"
    key, wrong = _when_level(start, change) if level else _where_an_end_dips(latitude, site, start, change)
    return Solution(
        key=key,
        given={"ask": "rules-here", "latitude_deg": latitude, **site.given,
               "start_deg": start, "heading_deg": heading, "speed_change": change},
        figures=(FigureCall("dip-needles", {"dip_a_deg": site.dip_deg}),),
        wrong=wrong,
        quantities=dict(site.words),
        steps=("dip-decides", *(("no-rules",) if level else (f"turn-{site.hemisphere}", f"speed-{site.hemisphere}"))),
        model_notes=("size",),
        features={"against-latitude": float(latitude * site.dip_deg < 0), "level": float(level)},
    )  # fmt: skip


def _places(shuffle: int) -> Solution:
    """Sort five places by what a turn off north does there: one level, two against their latitude, one of each end."""
    latitudes: list[float] = []
    for among, count in ((LEVEL, 1), (AGAINST, 2), (NORTHERN, 1), (SOUTHERN, 1)):
        shuffle, which = divmod(shuffle, comb(len(among), count))
        latitudes += few_of(among, count, which)
    given: dict[str, Any] = {"ask": "places"}
    ends: dict[str, str] = {}
    key: dict[str, str] = {}
    slips: dict[tuple[str, str], str] = {}
    for letter, latitude in zip("abcde", latitudes, strict=True):
        site = Site(at_home=False, dip_deg=PLACES[latitude].dip_deg)
        given |= {f"latitude_{letter}_deg": latitude, f"dip_{letter}_deg": site.dip_deg}
        ends[f"end_{letter}"] = site.words["dip_end"]
        key[f"place-{letter}"] = OFF_NORTH[site.hemisphere]
        slips |= {(f"place-{letter}", OFF_NORTH[end]): belief for end, belief in _place_beliefs(latitude, site).items()}
    return Solution(
        key=key,
        given=given,
        options=tuple(key),
        slips=slips,
        quantities=ends,
        steps=("dip-sorts", "turn-north", "turn-south", "no-rules"),
        model_notes=("size",),
        features={"against-latitude": 1.0, "level": 0.0},
    )


def _place_beliefs(latitude: float, site: Site) -> dict[str, str]:
    """Return what is behind giving a place the rules of another end, or none."""
    if site.hemisphere == "none":
        return {"north": "northern-rule", "south": "southern-rule"}
    other = "south" if site.hemisphere == "north" else "north"
    return {other: "geographic" if latitude * site.dip_deg < 0 else "wrong-end", "none": "no-errors"}


def _rules_of(hemisphere: str, start_deg: int, speed_change: str) -> tuple[str, str]:
    """Return behind or ahead off a pole, and the pole a change of speed shows, by the end that dips."""
    behind = (start_deg == 360) == (hemisphere == "north")
    shows_north = (speed_change == "faster") == (hemisphere == "north")
    return ("behind" if behind else "ahead"), ("north" if shows_north else "south")


def _where_an_end_dips(
    latitude: float, site: Site, start_deg: int, speed_change: str
) -> tuple[str, dict[str, str]]:  # fmt: skip
    other = "south" if site.hemisphere == "north" else "north"
    sense, pole = _rules_of(site.hemisphere, start_deg, speed_change)
    other_sense, other_pole = _rules_of(other, start_deg, speed_change)
    return f"{sense}-{pole}", {
        "geographic" if latitude * site.dip_deg < 0 else "wrong-end": f"{other_sense}-{other_pole}",
        "half-flip-turn": f"{other_sense}-{pole}",
        "half-flip-speed": f"{sense}-{other_pole}",
        "no-errors": "neither",
    }


def _when_level(start_deg: int, speed_change: str) -> tuple[str, dict[str, str]]:
    sense, pole = _rules_of("north", start_deg, speed_change)
    other_sense, other_pole = _rules_of("south", start_deg, speed_change)
    return "neither", {"northern-rule": f"{sense}-{pole}", "southern-rule": f"{other_sense}-{other_pole}"}


def _still_holds(site: Site, other: Site, given: Mapping[str, Any], shuffle: int) -> Solution:
    count = 2 + shuffle % 2
    stays = few_of(STAYS, count, shuffle // 2)
    turns_round = tuple(f"{each}-{site.hemisphere}" for each in few_of(TURNS_ROUND, STATEMENTS - count, shuffle // 3))
    sums = ("variation-rule", "deviation-rule")
    slips = {(each, "left-out"): "variation-flips" if each in sums else "everything-flips" for each in stays}
    slips |= {(each, "chosen"): "half-flip-speed" if "speed" in each else "half-flip-turn" for each in turns_round}
    return Solution(
        key=stays,
        given={"ask": "still-holds", **given},
        figures=(_needles(site, other),),
        options=(*stays, *turns_round),
        slips=slips,
        quantities={**site.words, "dip_end_b": other.words["dip_end"]},
        steps=("two-ends", "both-reverse", "rest-stays"),
        model_notes=("size",),
        features={"against-latitude": float(given["latitude_b_deg"] * given["dip_b_deg"] < 0)},
    )


def _needles(*places: Site | Place) -> FigureCall:
    """Return a needle for each place, in their order."""
    dips = {f"dip_{letter}_deg": place.dip_deg for letter, place in zip("abc", places, strict=False)}
    return FigureCall("dip-needles", dips)


@solver("dip-compare-size")
def dip_compare_size(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: places by the steepness of their dip, or turns by their bank, the greatest error first."""
    if parameters["ask"] == "speeds":
        return _by_bank(parameters)
    latitudes, places = _three_places(parameters, conventions)
    steepness = [abs(place.dip_deg) for place in places]
    if max(steepness) > STEEPEST_DIP_DEG or _least_gap(steepness) < LEAST_APART_DIP_DEG:
        raise Redraw("dips must be usable and clearly apart")
    key = _ranked(steepness)
    wrong = {
        "by-latitude": _ranked([abs(latitude) for latitude in latitudes]),
        "by-variation": _ranked([abs(place.variation_deg) for place in places]),
        "by-total-field": _ranked([place.total_nt for place in places]),
        "signed-dip": _ranked([place.dip_deg for place in places]),
        "shallow-first": tuple(reversed(key)),
    }
    if not _least_gap([abs(place.variation_deg) for place in places]):
        del wrong["by-variation"]
    differ = {name: order for name, order in wrong.items() if order != key}
    if not {"by-latitude", "by-total-field"} <= set(differ):
        raise Redraw("latitude and total field must not give the right order by chance")
    if parameters["ask"] == "greatest":
        return _greatest(key, differ, latitudes, places, parameters)
    return _of_places(key, differ, latitudes, places, parameters)


def _three_places(parameters: Mapping[str, Any], conventions: Conventions) -> tuple[list[float], list[Place]]:
    latitudes: list[float] = [parameters[f"latitude_{each}_deg"] for each in "abc"]
    places = [PLACES[latitude] for latitude in latitudes]
    if parameters["at_home"] and abs(conventions.dip_deg) <= STEEPEST_DIP_DEG and not conventions.beyond_rules:
        latitudes[0] = round_half_up(conventions.latitude_deg, 1)
        places[0] = Place(
            conventions.longitude_deg,
            whole(conventions.variation_deg),
            whole(conventions.dip_deg),
            int(round_half_up(conventions.total_nt, -2)),
        )
    if len(set(latitudes)) < len(latitudes):
        raise Redraw("one place stands twice")
    return latitudes, places


def _least_gap(values: list[int]) -> int:
    ordered = sorted(values)
    return min(high - low for low, high in pairwise(ordered))


def _ranked(values: list[Any]) -> tuple[str, ...]:
    """Return the places, the greatest value first; equal values keep their order."""
    return tuple(COMPARED[i] for i in sorted(range(len(values)), key=lambda i: -values[i]))


def _of_places(
    key: Any, wrong: Mapping[str, Any], latitudes: list[float], places: list[Place], parameters: Mapping[str, Any]
) -> Solution:
    given: dict[str, Any] = {"ask": parameters["ask"]}
    ends: dict[str, Any] = {}
    for letter, latitude, place in zip("abc", latitudes, places, strict=True):
        given |= {f"latitude_{letter}_deg": latitude, f"dip_{letter}_deg": place.dip_deg,
                  f"variation_{letter}_deg": place.variation_deg, f"total_{letter}_nt": place.total_nt}  # fmt: skip
        ends[f"end_{letter}"] = Site(at_home=False, dip_deg=place.dip_deg).words["dip_end"]
    at_home = parameters["at_home"] and latitudes[0] != parameters["latitude_a_deg"]
    order = key if isinstance(key, tuple) else ()
    sizes = sorted(((abs(place.dip_deg), letter) for letter, place in zip("ABC", places, strict=True)), reverse=True)
    ranked = ", ".join(f"{letter} {size}°" for size, letter in sizes)
    return Solution(
        key=key,
        given=given,
        figures=(_needles(*places),),
        options=COMPARED,
        wrong=dict(wrong),
        quantities={**ends, "first": order[0] if order else key},
        steps=("ratio", "sign-apart", Step("order", {"ranked": ranked}) if order else "steepest"),
        model_notes=("place-size",),
        scene="home" if at_home else "",
        features={"southern": float(any(place.dip_deg < 0 for place in places))},
    )


def _greatest(
    key: tuple[str, ...], wrong: Mapping[str, Any], latitudes: list[float], places: list[Place],
    parameters: Mapping[str, Any],
) -> Solution:  # fmt: skip
    first = {name: order[0] for name, order in wrong.items() if order[0] != key[0]}
    if len(set(first.values())) < len(COMPARED) - 1:
        raise Redraw("every wrong place must have a misconception behind it")
    return _of_places(key[0], first, latitudes, places, parameters)


def _by_bank(parameters: Mapping[str, Any]) -> Solution:
    speeds = [parameters[f"tas_{each}_kt"] for each in "abc"]
    site = Site(at_home=False, dip_deg=parameters["dip_deg"] * (1 if parameters["hemisphere"] == "north" else -1))
    banks = [whole(bank_for_rate_deg(speed)) for speed in speeds]
    if _least_gap(speeds) < LEAST_APART_TAS_KT or not usable(max(banks), site.dip_deg):
        raise Redraw("speeds must be clearly apart, and the bank usable")
    slowest, middle, fastest = sorted(range(3), key=lambda i: speeds[i])
    return Solution(
        key=TURNS[fastest],
        given={"ask": "speeds", **{f"tas_{each}_kt": speed for each, speed in zip("abc", speeds, strict=True)},
               "dip_deg": site.dip_deg, "hemisphere": site.hemisphere},
        options=(*TURNS, "alike"),
        wrong={"slower-worse": TURNS[slowest], "middle-worst": TURNS[middle], "same-rate": "alike"},
        quantities={**site.words, "most_deg": banks[fastest], "least_deg": banks[slowest],
                    "fastest_kt": speeds[fastest], "middle_kt": speeds[middle], "slowest_kt": speeds[slowest]},
        steps=("bank-of-rate", "more-tilt"),
        model_notes=("bank-size",),
        features={"southern": float(site.hemisphere == "south")},
    )  # fmt: skip
