"""The workshop: the compensation step by step, cards before and after, what is said at the edges."""

from dataclasses import astuple

import pytest

from app.physics.angles import difference
from app.physics.deviation import SWING_HEADINGS_DEG, Coefficients, deviation_deg
from app.services.deviation_workshop import (
    Workshop,
    WorkshopWish,
    at_swing_headings,
    card_of,
    extreme_of,
    open_workshop,
    sheet_of,
)
from app.services.errors import Invalid
from app.services.swing_sheet import write_sheet
from tests.authorities.published import rows

# NGA, Handbook of Magnetic Compass Adjustment (2004), ch. V par. 501 (coefficients computed from its swing).
NGA = next(row for row in rows("deviation") if row["id"] == "nga-swing")
NGA_COEFFICIENTS = Coefficients(*NGA["expected"].values())
NGA_DEVIATIONS = tuple(NGA["inputs"]["deviation"])


def opened(coefficients: Coefficients, step: int = 5) -> Workshop:
    return open_workshop(WorkshopWish(coefficients=coefficients, step=step), "en")


def test_two_screws_and_a_turn() -> None:
    """By hand: N 10.5 all, E 11.5 all, S half of 5, W half of -1; left A + E on N and S, A - E on E and W; then A."""
    stages = opened(NGA_COEFFICIENTS).stages
    assert [stage.heading_deg for stage in stages] == [0, 90, 180, 270, None]
    assert [stage.turned for stage in stages] == ["north-south", "east-west"] * 2 + ["instrument"]
    assert [stage.found_deg for stage in stages] == pytest.approx([10.5, 11.5, 5.0, -1.0, 1.0])
    assert [stage.taken_deg for stage in stages] == pytest.approx([10.5, 11.5, 2.5, -0.5, 1.0])
    assert [stage.left_deg for stage in stages] == pytest.approx([0.0, 0.0, 2.5, -0.5, 0.0])
    assert astuple(stages[3].remaining) == pytest.approx((1.0, 0.0, 0.0, 5.0, 1.5))
    assert astuple(stages[4].remaining) == pytest.approx((0.0, 0.0, 0.0, 5.0, 1.5))


@pytest.mark.parametrize("step", range(6))
def test_step_looked_at(step: int) -> None:
    workshop = opened(NGA_COEFFICIENTS, step)
    assert workshop.left == (workshop.stages[step - 1].remaining if step else NGA_COEFFICIENTS)


def test_eight_deviations_give_both_ways_to_the_coefficients() -> None:
    workshop = open_workshop(WorkshopWish("deviations", deviations_deg=NGA_DEVIATIONS), "en")
    assert workshop.classic is not None
    assert astuple(workshop.classic) == pytest.approx(tuple(NGA["expected"].values()))
    assert astuple(workshop.found) == pytest.approx((1.00, 11.94, 7.96, 5.00, 1.50), abs=0.01)
    assert [each.deviation_deg for each in workshop.readings] == pytest.approx(NGA_DEVIATIONS)


def test_card_is_for_less_deviation() -> None:
    card = card_of(NGA_COEFFICIENTS)
    assert card is not None
    entries = {each["for_deg"]: each["steer_deg"] for each in card}
    assert sorted(entries) == list(range(30, 361, 30))
    for heading, steer in entries.items():
        assert difference(heading, steer) == pytest.approx(deviation_deg(NGA_COEFFICIENTS, heading), abs=0.5001)
    assert entries[360] == 350  # 10.5 E: 349.5, a half rounded up


@pytest.mark.parametrize("coefficients", [Coefficients(0, 20, 18, 0, 0), Coefficients(0, 0, 0, 0, 20)])
def test_a_compass_too_far_off_has_no_card(coefficients: Coefficients) -> None:
    has = extreme_of(coefficients).deviation_deg <= 30
    assert (card_of(coefficients) is not None) == has


def test_a_card_with_one_number_twice_is_no_card() -> None:
    """29.8 sin(2h - 150): on 060 it is 14.9 W and on 090 14.9 E, and both are steered by 075."""
    steep = Coefficients(0.0, 0.0, 0.0, -25.81, -14.9)
    assert abs(extreme_of(steep).deviation_deg) < 30
    assert card_of(steep) is None
    assert {"no-card-found", "no-card-left"} <= notes(write_sheet(sheet_of(steep)))


def test_largest_deviation_and_where() -> None:
    assert extreme_of(Coefficients(0, 6, 0, 0, 0)).heading_deg == 90
    assert extreme_of(Coefficients(0, 0, -6, 0, 0)).heading_deg == 180
    assert extreme_of(Coefficients(0, 0, -6, 0, 0)).deviation_deg == 6


def notes(sheet: str) -> set[str]:
    return set(open_workshop(WorkshopWish("readings", sheet=sheet), "en").notes)


def test_what_is_said_of_a_sheet() -> None:
    cardinals = "360 358\n090 093\n180 180\n270 268"
    assert notes(cardinals) == {"three-terms"}
    assert notes("360 358\n072 073\n144 143\n216 216\n288 287") == {"no-freedom"}
    assert "wide-gap" in notes("360 358\n060 061\n120 119\n180 180\n220 221\n260 260")
    bad = write_sheet(sheet_of(Coefficients(1, 2, 1, 0, 0))).replace("090 087", "090 072")
    assert "poor-fit" in notes(bad)
    assert notes(write_sheet(sheet_of(Coefficients(1, 2, 1, 0, 0)))) == set()


def test_what_is_said_of_what_is_left() -> None:
    assert opened(NGA_COEFFICIENTS).notes == ()
    assert opened(NGA_COEFFICIENTS, step=0).notes == ("beyond-limit",)
    assert opened(Coefficients(0, 0, 0, 10.1, 0)).notes == ("beyond-limit",)


@pytest.mark.parametrize(
    ("wish", "field", "said"),
    [
        (WorkshopWish(coefficients=Coefficients(0, 21, 0, 0, 0)), "coefficient_b_deg", "-20 to 20"),
        (WorkshopWish("deviations", deviations_deg=(0, 0, 0, 0, 0, 0, 0, -31)), "on_315", "-30 to 30"),
        (WorkshopWish("deviations", deviations_deg=(30.5, 0, 0, 0, 0, 0, 0, 0)), "on_360", "30.5"),
        (WorkshopWish("readings", sheet="1 2"), "readings", "too few"),
    ],
)
def test_refuses_and_names_the_field(wish: WorkshopWish, field: str, said: str) -> None:
    with pytest.raises(Invalid) as refused:
        open_workshop(wish, "en")
    assert refused.value.field == field
    assert said in refused.value.message


def test_the_same_compass_by_each_way() -> None:
    sheet = write_sheet(sheet_of(NGA_COEFFICIENTS))
    found = open_workshop(WorkshopWish("readings", sheet=sheet), "en").found
    assert astuple(found) == pytest.approx(astuple(NGA_COEFFICIENTS), abs=0.05)
    assert at_swing_headings(found) == pytest.approx(
        [deviation_deg(NGA_COEFFICIENTS, h) for h in SWING_HEADINGS_DEG], abs=0.11
    )
