from dataclasses import astuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics.angles import difference, wrap360
from app.physics.deviation import (
    SWING_HEADINGS_DEG,
    BadCard,
    Coefficients,
    CorrectionCard,
    card_from_deviations,
    coefficients_from_swing,
    compass_from_magnetic,
    compensate,
    deviation_deg,
    deviation_for_compass,
    deviation_for_magnetic,
    least_squares_coefficients,
    magnetic_from_compass,
    turn_instrument,
)
from app.physics.errors import Undefined
from tests.tolerances import EXACT

SIZE = st.floats(-15.0, 15.0)
COEFFICIENTS = st.builds(Coefficients, SIZE, SIZE, SIZE, SIZE, SIZE)
HEADING = st.floats(0.0, 360.0, exclude_max=True)
EVERY_THIRTY = tuple(range(30, 361, 30))
DEVIATIONS = st.lists(st.integers(-8, 8), min_size=12, max_size=12)
CARD = CorrectionCard((360, 90, 180, 270), (358, 93, 180, 268))


def cards(deviations: list[int]) -> CorrectionCard:
    return card_from_deviations(EVERY_THIRTY, deviations)


def test_deviation_is_for_less_steer() -> None:
    """Traps of the trade: FOR 360 STEER 358 is 2 E, FOR 090 STEER 093 is 3 W."""
    assert CARD.deviations_deg == (2.0, -3.0, 0.0, 2.0)
    assert deviation_for_magnetic(CARD, 0.0) == deviation_for_magnetic(CARD, 360.0) == 2.0
    assert deviation_for_magnetic(CARD, 90.0) == deviation_for_compass(CARD, 93.0) == -3.0
    assert compass_from_magnetic(CARD, 90.0) == 93.0
    assert magnetic_from_compass(CARD, 358.0) == 0.0


def test_deviation_is_interpolated_not_the_printed_numbers() -> None:
    """Between STEER 358 and 093 the plain mean would be 225; the deviation half-way is half a degree west."""
    assert deviation_for_magnetic(CARD, 45.0) == -0.5
    assert compass_from_magnetic(CARD, 45.0) == 45.5
    assert compass_from_magnetic(CARD, 315.0) == 313.0


@given(DEVIATIONS.map(cards), HEADING)
def test_card_is_read_back_exactly(card: CorrectionCard, magnetic: float) -> None:
    compass = compass_from_magnetic(card, magnetic)
    assert abs(difference(magnetic_from_compass(card, compass), magnetic)) < EXACT
    assert deviation_for_compass(card, compass) == pytest.approx(deviation_for_magnetic(card, magnetic), abs=EXACT)


@given(DEVIATIONS.map(cards), st.integers(0, 11))
def test_where_the_card_begins_does_not_matter(card: CorrectionCard, shift: int) -> None:
    turned = CorrectionCard(
        card.for_deg[shift:] + card.for_deg[:shift], card.steer_deg[shift:] + card.steer_deg[:shift]
    )
    for heading in range(0, 360, 7):
        assert deviation_for_magnetic(turned, heading) == deviation_for_magnetic(card, heading)
        assert deviation_for_compass(turned, heading) == deviation_for_compass(card, heading)


@pytest.mark.parametrize(
    ("for_deg", "steer_deg", "message"),
    [
        ((0, 90, 180), (0, 90), "same length"),
        ((90,), (90,), "two entries"),
        ((0, 90, 360), (1, 90, 350), "FOR: a heading stands there twice"),
        ((0, 180, 90), (0, 180, 90), "FOR: the headings do not go once round"),
        ((0, 30, 60), (0, 30, 30), "STEER: a heading stands there twice"),
        ((0, 30, 60, 180), (0, 40, 35, 180), "STEER: the headings do not go once round"),
        ((-10, 90, 180), (0, 90, 180), "0 to 360"),
        ((0, 90, 180), (0, 90, 361), "0 to 360"),
        ((0, 120, 240), (100, 220, 340), "no correction"),
    ],
)
def test_unreadable_cards_are_refused(for_deg: tuple[int, ...], steer_deg: tuple[int, ...], message: str) -> None:
    with pytest.raises(BadCard, match=message):
        CorrectionCard(for_deg, steer_deg)


def test_two_entries_make_a_card() -> None:
    assert deviation_for_magnetic(CorrectionCard((360, 180), (356, 180)), 90.0) == 2.0


def test_card_is_rounded_once_and_north_is_360() -> None:
    card = card_from_deviations((0, 90, 180, 270), (0.4, -2.5, 2.5, 1.49))
    assert card == CorrectionCard((360, 90, 180, 270), (360, 93, 178, 269))


@given(COEFFICIENTS)
def test_swing_gives_the_coefficients_back(coefficients: Coefficients) -> None:
    swing = [deviation_deg(coefficients, heading) for heading in SWING_HEADINGS_DEG]
    assert astuple(coefficients_from_swing(swing)) == pytest.approx(astuple(coefficients), abs=EXACT)
    assert astuple(least_squares_coefficients(SWING_HEADINGS_DEG, swing)) == pytest.approx(
        astuple(coefficients), abs=EXACT
    )


@given(COEFFICIENTS)
def test_least_squares_takes_any_headings(coefficients: Coefficients) -> None:
    headings = (3, 40, 101, 155, 200, 244, 300)
    found = least_squares_coefficients(headings, [deviation_deg(coefficients, heading) for heading in headings])
    assert astuple(found) == pytest.approx(astuple(coefficients), abs=1e-6)


@pytest.mark.parametrize("headings", [(0, 90, 180, 270), (0, 0, 0, 0, 0, 0), (0, 90, 180, 270, 360, 450)])
def test_too_few_headings_fix_nothing(headings: tuple[int, ...]) -> None:
    with pytest.raises(Undefined):
        least_squares_coefficients(headings, [1.0] * len(headings))


@given(SIZE, SIZE, SIZE)
def test_four_headings_fix_three_coefficients(a: float, b: float, c: float) -> None:
    wanted = Coefficients(a, b, c, 0.0, 0.0)
    headings = (0, 90, 180, 270)
    found = least_squares_coefficients(headings, [deviation_deg(wanted, heading) for heading in headings], terms=3)
    assert astuple(found) == pytest.approx(astuple(wanted), abs=EXACT)


@given(COEFFICIENTS)
def test_turning_the_instrument_takes_the_same_off_every_heading(coefficients: Coefficients) -> None:
    left = turn_instrument(coefficients)
    for heading in SWING_HEADINGS_DEG:
        taken = deviation_deg(coefficients, heading) - deviation_deg(left, heading)
        assert taken == pytest.approx(coefficients.a, abs=EXACT)


@pytest.mark.parametrize("count", [7, 9])
def test_classic_swing_needs_eight(count: int) -> None:
    with pytest.raises(ValueError, match="unpack"):
        coefficients_from_swing([0.0] * count)


@given(COEFFICIENTS)
def test_compensation_leaves_the_mean_of_opposites(coefficients: Coefficients) -> None:
    """What is left on N and S is their mean before, on E and W likewise: no screw reaches A, D or E."""
    north, east, south, west = (deviation_deg(coefficients, heading) for heading in (0, 90, 180, 270))
    left = compensate(coefficients)[-1].remaining
    found = [deviation_deg(left, heading) for heading in (0, 180, 90, 270)]
    assert found == pytest.approx([(north + south) / 2.0] * 2 + [(east + west) / 2.0] * 2, abs=EXACT)
    assert (left.a, left.d, left.e) == (coefficients.a, coefficients.d, coefficients.e)


def test_compensation_step_by_step() -> None:
    steps = compensate(Coefficients(1.0, 12.0, 8.0, 5.0, 1.5))
    assert [step.heading_deg for step in steps] == [0, 90, 180, 270]
    assert [step.screw for step in steps] == ["north-south", "east-west"] * 2
    assert [step.found_deg for step in steps] == pytest.approx([10.5, 11.5, 5.0, -1.0], abs=EXACT)
    assert [step.left_deg for step in steps] == pytest.approx([0.0, 0.0, 2.5, -0.5], abs=EXACT)


@given(DEVIATIONS.map(cards), HEADING)
def test_results_are_headings(card: CorrectionCard, heading: float) -> None:
    for result in (compass_from_magnetic(card, heading), magnetic_from_compass(card, heading)):
        assert result == wrap360(result)
