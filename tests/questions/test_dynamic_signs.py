"""Every direction that is keyed in the topic "dynamic", over all its parameters, against the tilted card by vectors."""

from collections.abc import Iterator, Mapping
from datetime import date
from itertools import product
from typing import Any

import pytest

from app.physics.field import field_at
from app.questions.conventions import Conventions, conventions_at
from app.questions.model import Redraw, Solution
from app.questions.solvers import find_solver
from app.questions.solvers.dynamic_places import PLACE_AT, PLACES
from tests.questions.engine import home, library
from tests.questions.recompute.dynamic import (
    hemisphere_flip,
    off_deg,
    phase_to_error,
    speed_swing,
    turn_sense,
    what_caused_the_swing,
)

CLEAR_DEG = 2.0
ONE_DEGREE = 1.0
HUNDRED_NT = 100.0
ONE_HEADING = ["one-turn", "both-ways"]
ONE_SPEED = ["off-the-axis", "on-the-axis"]
HOMES = {
    "Ottawa": (45.3, -75.7), "Iqaluit": (63.75, -68.5), "Resolute": (74.7, -94.9), "Denver": (39.7, -105.0),
    "Oxford": (51.75, -1.3), "Christchurch": (-43.5, 172.6), "Quito": (-0.1, -78.4), "Lima": (-12.0, -77.0),
    "Singapore": (1.35, 103.9), "Cape Town": (-33.9, 18.4), "Alice Springs": (-23.7, 133.9), "Tromso": (69.6, 18.9),
}  # fmt: skip


def rules_at(name: str, **rules: Any) -> Conventions:
    return conventions_at(name, *HOMES[name], date(2026, 9, 1), **rules)


def values_of(family_id: str, name: str) -> list[Any]:
    """Every value that a parameter of a family can take."""
    parameter = library().family(family_id).parameters[name]
    if parameter.choices:
        return sorted(set(parameter.choices), key=str)
    assert parameter.low is not None
    assert parameter.high is not None
    count = int((parameter.high - parameter.low) / parameter.step) + 1
    return [parameter.low + i * parameter.step for i in range(count)]


def combinations(family_id: str, **fixed: list[Any]) -> Iterator[dict[str, Any]]:
    names = list(library().family(family_id).parameters)
    for values in product(*(fixed.get(name) or values_of(family_id, name) for name in names)):
        yield dict(zip(names, values, strict=True))


def solutions(family_id: str, rules: Conventions, **fixed: list[Any]) -> Iterator[Solution]:
    solve = find_solver(library().family(family_id).solver)
    assert solve is not None
    for parameters in combinations(family_id, **fixed):
        try:
            yield solve(parameters, rules)
        except Redraw:
            continue


def assert_speed_sign(given: Mapping[str, Any], key: str) -> None:
    wanted = speed_swing(given["heading_deg"], given["dip_deg"], given["speed_change"])
    assert key == wanted, given
    off = off_deg(given["heading_deg"], given["dip_deg"], forward_g=0.1 if given["speed_change"] == "faster" else -0.1)
    assert abs(off) >= CLEAR_DEG or wanted == "none", f"{given}: {off} is not clear of zero"


def assert_turn_sign(given: Mapping[str, Any], key: str) -> None:
    sides = [given["turn"]] if "turn" in given else ["left", "right"]
    senses = {turn_sense(given["start_deg"], given["dip_deg"], side_of(side) * given["bank_deg"]) for side in sides}
    assert {key.removesuffix("-both")} == senses, given


def side_of(turn: str) -> int:
    return 1 if turn == "right" else -1


def test_change_of_speed() -> None:
    found = list(solutions("accel-indication", home(), at_home=[False], shuffle=[0], ask=ONE_SPEED))
    for solution in found:
        assert_speed_sign(solution.given, solution.key)
    assert {solution.key for solution in found} == {"none", "north-falls", "north-rises", "south-falls", "south-rises"}


def test_phases_of_flight() -> None:
    found = list(solutions("phase-to-error", home(), at_home=[False], ask=["swing"], shuffle=[0]))
    for solution in found:
        assert solution.key == phase_to_error({"parameters": solution.given}), solution.given
    assert {solution.key for solution in found} == {"north", "south", "none"}


def test_causes_of_a_swing() -> None:
    found = list(solutions("what-caused-the-swing", home(), at_home=[False]))
    for solution in found:
        assert solution.key == what_caused_the_swing({"parameters": solution.given}), solution.given
        if solution.given["asi_trend"] == "asi-hidden":  # a magnet beside the compass would look the same
            assert "object" not in solution.wrong.values()
    assert len({solution.key for solution in found}) == 6


def test_rules_of_a_hemisphere() -> None:
    found = list(solutions("hemisphere-flip", home(), ask=["rules-here"], latitude_b_deg=[51.8], shuffle=[0]))
    for solution in found:
        assert solution.key == hemisphere_flip({"parameters": solution.given}), solution.given
    assert len({solution.key for solution in found}) == 5


def test_start_of_a_turn() -> None:
    found = list(solutions("turn-start-indication", home(), at_home=[False], shuffle=[0], ask=ONE_HEADING))
    for solution in found:
        assert_turn_sign(solution.given, solution.key)
    assert {s.key for s in found} >= {"behind", "ahead", "agrees", "behind-both", "ahead-both", "agrees-both"}


@pytest.mark.parametrize("name", HOMES)
def test_at_home_places(name: str) -> None:
    for solution in solutions(
        "accel-indication", rules_at(name), at_home=[True], dip_deg=[40], shuffle=[0], ask=ONE_SPEED
    ):
        assert_speed_sign(solution.given, solution.key)
    alike: dict[str, list[Any]] = {"at_home": [True], "dip_deg": [45], "shuffle": [0], "ask": ONE_HEADING}
    for solution in solutions("turn-start-indication", rules_at(name), **alike):
        assert_turn_sign(solution.given, solution.key)


@pytest.mark.parametrize("rule", ["latitude", "allowance"])
@pytest.mark.parametrize("name", HOMES)
def test_rollout_stops_short_where_the_card_is_behind(name: str, rule: str) -> None:
    for solution in solutions("rollout-north-south", rules_at(name, rollout_rule=rule)):
        given = solution.given
        if given["ask"] == "roll-out":
            side = side_of(given["turn"])
            behind = turn_sense(given["target_deg"], given["dip_deg"], side * given["bank_deg"]) == "behind"
            before_deg = (side * (given["target_deg"] - solution.key) + 180) % 360 - 180
            assert (before_deg > 0) == behind, given


@pytest.mark.parametrize("family_id", ["rollout-any-heading", "reading-while-turning"])
@pytest.mark.parametrize("name", ["Ottawa", "Christchurch", "Quito"])
def test_taper_is_behind_where_the_card_is_behind(name: str, family_id: str) -> None:
    for solution in solutions(family_id, rules_at(name), start_deg=[10, 100, 190, 280]):
        given = solution.given
        heading_deg, side = given.get("target_deg", given.get("heading_deg")), side_of(given["turn"])
        if heading_deg % 180 != 90:
            behind = turn_sense(heading_deg, given["dip_deg"], side * given["bank_deg"]) == "behind"
            before_deg = (side * (heading_deg - solution.key) + 180) % 360 - 180
            assert (before_deg > 0) == behind, given


@pytest.mark.parametrize("family_id", ["rollout-any-heading", "reading-while-turning"])
@pytest.mark.parametrize("name", ["Ottawa", "Christchurch"])
def test_the_note_of_the_taper_and_the_row_below_it_tell_one_number_of_the_model(name: str, family_id: str) -> None:
    for solution in solutions(family_id, rules_at(name), start_deg=[10, 100, 190, 280]):
        assert solution.quantities["model_deg"] == solution.model_value, solution.given
        readable = solution.given["bank_deg"] <= 90 - abs(solution.given["dip_deg"]) - 5
        assert ("near-critical" in solution.model_notes) != readable, solution.given


@pytest.mark.parametrize("name", ["Iqaluit", "Resolute", "Tromso"])
def test_no_rollout_reading_beyond_the_rules(name: str) -> None:
    asks = {solution.given["ask"] for solution in solutions("rollout-north-south", rules_at(name))}
    assert asks == {"not-usable", "by-clock"}


@pytest.mark.parametrize("latitude_deg", PLACES)
def test_places_have_their_field(latitude_deg: float) -> None:
    place = PLACES[latitude_deg]
    field = field_at(latitude_deg, place.longitude_deg, 2026.9)
    assert abs(field.dip_deg - place.dip_deg) <= ONE_DEGREE
    assert abs(field.declination_deg - place.variation_deg) <= ONE_DEGREE
    assert abs(field.total_nt - place.total_nt) <= HUNDRED_NT


def test_places_stand_for_their_latitude() -> None:
    assert all(abs(latitude_deg - place) <= 2.5 for latitude_deg, place in PLACE_AT.items())
