"""Twenty-five ways in which a question bank about the compass goes wrong, each with a test that it does not.

The figures beside "by the model" were worked by hand from tan(reading) = (sin h cos p - tan I sin p) / cos h (bank p,
dip I) and from the apparent vertical of a forward acceleration; the rules are the handbooks' (FAA-H-8083-15B, AC
43.13-1B, 14 CFR 91.159, CAR 602.34) or common practice, no source, where no handbook is named.
"""

import re

import pytest

from app.grader.reply import parse_reply
from app.physics.angles import difference, mean_direction, round_half_up, shown, wrap360
from app.physics.card import (
    critical_bank_deg,
    lag_deg,
    speed_change_reading_deg,
    speed_swing,
    turn_reading_deg,
    turn_sense,
    usable,
)
from app.physics.deviation import CorrectionCard, compass_from_magnetic, deviation_for_magnetic, magnetic_from_compass
from app.physics.headings import (
    compass_from,
    cruising_parity,
    isogonal_between_deg,
    magnetic_from_compass_heading,
    magnetic_from_true,
    reciprocal_runway,
    runway_number,
    true_from_magnetic,
    variation_updated_deg,
)
from app.physics.pitot_static import FlightState, shown_with_blockage
from app.physics.pressure import density_altitude_by_rule_ft, density_altitude_ft, tas_by_rule_kt, tas_from_cas_kt
from app.physics.track import off_track_by_indicator_nm
from app.physics.turning import (
    bank_fifteen_percent_deg,
    bank_for_rate_deg,
    bank_tenth_plus_seven_deg,
    rollout_by_latitude_deg,
)
from app.physics.wind import crosswind_kt, heading_home_deg, headwind_kt, solve_heading
from app.questions.draw import draw, offered_forms
from app.questions.model import Item
from app.questions.numbers import east_west, heading
from app.questions.values import is_apart, is_numeric, sort_key
from app.questions.wording import word_item
from tests.questions.engine import home, library

NORTH_DIP_DEG = 70.0
BANK_DEG = 15.0
BRISK_G = 0.1
DRAWS = 120
INTERCARDINAL_DEG = (45, 135, 225, 315)
ALL_ROUND_DEG = range(5, 361, 5)


def drawn(family_id: str, form: str | None = None, where: tuple[float, float, str] | None = None) -> list[Item]:
    conventions = home(*where) if where else home()
    forms = offered_forms(library().family(family_id))
    wanted = [each for each in forms if form in {None, each}]
    return [draw(library(), family_id, seed, conventions, wanted[seed % len(wanted)]) for seed in range(1, DRAWS + 1)]


def stem(item: Item) -> str:
    return word_item(library(), item, "en").stem


def speed_error_deg(heading_deg: float, dip_deg: float = NORTH_DIP_DEG, pace_g: float = BRISK_G) -> float:
    return difference(speed_change_reading_deg(heading_deg, dip_deg, pace_g), heading_deg)


def test_trap_01_change_of_speed_swings_the_card_between_the_cardinal_points_too() -> None:
    assert [abs(speed_error_deg(h)) for h in (180, 360)] == pytest.approx([0, 0], abs=1e-6)
    assert [abs(speed_error_deg(h)) for h in (90, 270)] == pytest.approx([15, 15], abs=1)
    assert all(9 <= abs(speed_error_deg(h)) <= 14.5 for h in INTERCARDINAL_DEG)
    for item in drawn("accel-indication", "choice"):
        if item.parameters["heading_deg"] % 90 and item.parameters["hemisphere"] != "none":
            assert item.key != "none", "only east and west is wrong for a heading between"


def test_trap_02_toward_north_is_lower_on_easterly_headings_and_higher_on_westerly() -> None:
    for heading_deg in ALL_ROUND_DEG:
        if heading_deg % 180:
            assert speed_swing(heading_deg, NORTH_DIP_DEG, BRISK_G) == "north"
            assert (speed_error_deg(heading_deg) < 0) == (heading_deg < 180)
    for item in drawn("accel-indication", "choice"):
        pole, _, number = item.key.partition("-")
        if number:
            assert (number == "falls") == ((pole == "north") == (item.parameters["heading_deg"] < 180))


@pytest.mark.parametrize("bank_deg", [BANK_DEG, -BANK_DEG])
def test_trap_03_reading_is_behind_in_the_northern_half_whichever_way_the_turn_goes(bank_deg: float) -> None:
    for heading_deg in (360, 30, 330, 60, 300):
        assert turn_sense(heading_deg, NORTH_DIP_DEG, bank_deg) == "behind"
        assert turn_sense(heading_deg, -NORTH_DIP_DEG, bank_deg) == "ahead"
    for heading_deg in (180, 150, 210, 120, 240):
        assert turn_sense(heading_deg, NORTH_DIP_DEG, bank_deg) == "ahead"
        assert turn_sense(heading_deg, -NORTH_DIP_DEG, bank_deg) == "behind"
    assert lag_deg(90, NORTH_DIP_DEG, bank_deg) == pytest.approx(0, abs=1e-6)
    assert lag_deg(270, NORTH_DIP_DEG, bank_deg) == pytest.approx(0, abs=1e-6)


def test_trap_04_turning_error_is_not_largest_exactly_at_north_and_only_its_direction_is_keyed() -> None:
    assert lag_deg(360, NORTH_DIP_DEG, BANK_DEG) == pytest.approx(35, abs=1)
    assert lag_deg(45, NORTH_DIP_DEG, BANK_DEG) == pytest.approx(47, abs=1)
    assert lag_deg(45, NORTH_DIP_DEG, -BANK_DEG) == pytest.approx(18, abs=1)
    senses = {"behind", "ahead", "agrees", "behind-both", "ahead-both", "agrees-both"}
    assert {item.key for item in drawn("turn-start-indication", "choice")} <= senses


def test_trap_05_an_indication_of_the_opposite_turn_is_no_wrong_option_between_north_and_east() -> None:
    for heading_deg in (315, 360, 45):
        at_entry = difference(turn_reading_deg(heading_deg, NORTH_DIP_DEG, BANK_DEG), heading_deg)
        assert at_entry < 0, "banked to the right the card first shows a turn to the left"
    offered = {option.value for item in drawn("turn-start-indication", "choice") for option in item.options}
    sides = {"behind-right", "behind-left"}  # sides to which one is told that it falls behind
    assert offered <= {"behind", "ahead", "agrees", "behind-both", "ahead-both", "agrees-both"} | sides


def test_trap_06_dip_decides_and_not_latitude() -> None:
    assert max(abs(lag_deg(h, 0, BANK_DEG)) for h in ALL_ROUND_DEG) < 1
    assert lag_deg(45, 0, 45) == pytest.approx(9.7, abs=0.1), "geometry alone: keep the bank small"
    assert max(abs(speed_error_deg(h, dip_deg=0)) for h in ALL_ROUND_DEG) < 1
    assert home(4.0, 20.0).hemisphere == "south", "north of the equator, but the south end dips"
    assert home(-5.0, -78.0).hemisphere == "north", "south of the equator, but the north end dips"
    assert max(item.parameters["bank_deg"] for item in drawn("turn-start-indication")) <= 20


def test_trap_07_far_north_the_rules_break() -> None:
    assert [critical_bank_deg(dip) for dip in (75, -75, 80)] == pytest.approx([15, 15, 10])
    assert not usable(BANK_DEG, 75)
    assert turn_reading_deg(90, 80, 12) == pytest.approx(270), "the card has turned right round"
    asks = {item.ask for item in drawn("rollout-north-south", where=(63.7, -68.5, "ca-north"))}
    assert asks == {"not-usable", "by-clock"}


def test_trap_08_rollout_rule_is_the_handbooks_and_the_stem_prints_it() -> None:
    right = [rollout_by_latitude_deg(target, "right", "north", 45, 8) for target in (360, 180)]
    left = [rollout_by_latitude_deg(target, "left", "north", 45, 8) for target in (360, 180)]
    assert (right, left) == ([307, 217], [53, 143])
    assert turn_reading_deg(352, 70, 16) == pytest.approx(318, abs=1)
    assert turn_reading_deg(352, 63, 16) == pytest.approx(325, abs=1)
    for item in drawn("rollout-north-south"):
        if item.ask == "roll-out":
            assert item.solution.by_rule
            assert "latitude" in stem(item)
            assert "half" in stem(item)


def test_trap_09_rules_of_thumb_for_bank_disagree() -> None:
    rows = [
        [
            round_half_up(rule(tas_kt), 1)
            for rule in (bank_for_rate_deg, bank_tenth_plus_seven_deg, bank_fifteen_percent_deg)
        ]
        for tas_kt in (100, 80)
    ]
    assert rows == [[15.4, 17, 15], [12.4, 15, 12]]
    said = {"fifteen-percent": "15 %", "tenth-plus-seven": "7", "exact": "tangent"}
    for item in drawn("rate-one-bank"):
        assert said[item.parameters["rate_rule"]] in stem(item).replace("\u00a0", " "), "the stem says which rule"


def test_trap_10_deviation_is_for_less_steer_and_east_is_positive() -> None:
    card = CorrectionCard((90, 180, 270, 360), (93, 180, 270, 358))
    assert deviation_for_magnetic(card, 360) == 2
    assert deviation_for_magnetic(card, 90) == -3


def test_trap_11_the_card_is_entered_with_the_magnetic_heading_and_the_deviation_is_interpolated() -> None:
    card = CorrectionCard((90, 180, 270, 330, 360), (93, 180, 270, 334, 358))
    assert compass_from_magnetic(card, 345) == pytest.approx(346), "half-way between 4 W and 2 E, not between numbers"
    assert magnetic_from_compass(card, 346) == pytest.approx(345)
    for item in drawn("card-for-steer"):
        assert "magnetic_deg" in item.parameters
        assert "true_deg" not in item.parameters
    assert all("compass_deg" in item.parameters for item in drawn("card-steer-back"))


def test_trap_12_east_is_least_going_down_and_turns_round_on_the_way_back() -> None:
    assert (magnetic_from_true(75, 10), compass_from(75, 2)) == (65, 73)
    assert (true_from_magnetic(65, 10), magnetic_from_compass_heading(73, 2)) == (75, 75)
    for item in drawn("true-to-compass"):
        if item.ask == "compass":
            given = item.parameters
            total = given["variation_deg"] + given["deviation_deg"]
            assert item.key == shown(given["true_deg"] - total)
            assert item.solution.quantities.get("total_deg", total) == total
    for item in drawn("compass-to-true"):
        given = item.parameters
        if item.ask == "true":
            assert item.key == shown(given["compass_deg"] + given["deviation_deg"] + given["variation_deg"])
        elif item.ask == "true-from-magnetic":
            assert item.key == shown(given["magnetic_deg"] + given["variation_deg"])


def test_trap_13_annual_change_is_a_signed_sum_in_minutes_that_may_cross_zero() -> None:
    assert variation_updated_deg(-0.5, 9, 10) == pytest.approx(1.0)
    assert variation_updated_deg(-10, 6, 10) == pytest.approx(-9), "an easterly change reduces west variation"
    crossed = 0
    for item in drawn("variation-update"):
        if item.ask == "minutes":
            given = item.parameters
            years = given["year"] - given["printed_year"]
            assert item.key == given["printed_variation_min"] + years * given["annual_change_min"]
            crossed += item.key * given["printed_variation_min"] < 0
    assert crossed, "some of them change from west to east, or back"


def test_trap_14_isogonals_across_the_agonic_line_keep_their_signs() -> None:
    assert isogonal_between_deg(-2, 3, 0.4) == pytest.approx(0)
    across = [i for i in drawn("isogonal-read") if i.parameters["isogonal_deg"] * i.parameters["next_isogonal_deg"] < 0]
    assert across
    for item in across:
        ends = sorted((item.parameters["isogonal_deg"], item.parameters["next_isogonal_deg"]))
        assert ends[0] <= item.key <= ends[1]
    for item in drawn("isogonal-read"):
        given = item.parameters
        if item.ask == "point":
            part = given["gone_nm"] / (given["gone_nm"] + given["left_nm"])
            step = given["next_isogonal_deg"] - given["isogonal_deg"]
            assert item.key == pytest.approx(given["isogonal_deg"] + part * step, abs=0.051)


def test_trap_15_written_wind_is_true_and_variation_comes_after_the_triangle() -> None:
    in_true = solve_heading(90, 100, 30, 20).heading_deg
    assert magnetic_from_true(in_true, -10) == pytest.approx(wrap360(in_true + 10))
    assert crosswind_kt(260, 250, 17) != pytest.approx(crosswind_kt(260, 231, 17)), "one north for both, or it is wrong"
    for item in drawn("crosswind-component"):
        given = item.parameters
        wind_magnetic = given["wind_from_deg"] - given.get("variation_deg", 0)
        strength = given.get("gust_kt", given["wind_kt"])
        part_kt = headwind_kt if item.ask == "along" else crosswind_kt
        assert item.key == pytest.approx(part_kt(10 * given["runway"], wind_magnetic, strength), abs=0.51)
    written = 0
    for item in drawn("wind-datum"):
        given = item.parameters
        true_text = given["wind_source"] in {"metar", "taf"} and given["region"] != "ca-north"
        written += true_text
        wanted = given["wind_from_deg"] - (given["variation_deg"] if true_text else 0)
        assert abs(difference(item.key, wanted)) <= 5, given
    assert DRAWS > written > DRAWS / 4


@pytest.mark.parametrize("where", [(45.3, -75.7, "ca-south"), (63.7, -68.5, "ca-north"), (39.7, -105.0, "us")])
def test_trap_16_cruising_altitude_goes_by_track_in_the_regions_own_north(where: tuple[float, float, str]) -> None:
    decoyed = 0
    for item in drawn("cruising-altitude-datum", where=where):
        given = item.parameters
        magnetic_deg = shown(given["track_true_deg"] - given["variation_deg"])
        tracks = (magnetic_deg, given["track_true_deg"])
        right_deg, other_deg = tracks[::-1] if given["region"] == "ca-north" else tracks
        right = cruising_parity(right_deg)
        decoyed += {cruising_parity(deg) for deg in (other_deg, given["heading_deg"])} != {right}
        if item.ask == "altitude":
            assert (item.key // 1000 % 2 == 1) == (right == "odd")
    assert decoyed > 0.4 * DRAWS, "in about every second draw the other north, or the heading, leads elsewhere"


def test_trap_17_runways_half_way_between_two_numbers_are_not_asked() -> None:
    assert [runway_number(azimuth) for azimuth in (356, 4, 183, 187)] == [36, 36, 18, 19]
    assert [reciprocal_runway(number) for number in (18, 19, 36, 1)] == [36, 1, 18, 19]
    for item in drawn("runway-designator"):
        given = item.parameters
        assert given["runway_true_deg"] % 10 != 5
        variations = [value for name, value in given.items() if name.startswith("variation")]
        assert variations
        assert all((given["runway_true_deg"] - variation) % 10 != 5 for variation in variations)


def test_trap_18_the_way_back_needs_the_drift_anew() -> None:
    home_deg = heading_home_deg(90, -8.4)
    assert home_deg == pytest.approx(278.4)
    assert home_deg != pytest.approx(wrap360(90 - 8.4 + 180)), "not the reciprocal of the heading out"
    for item in drawn("return-to-departure"):
        track_deg, heading_deg = item.parameters["track_true_deg"], item.parameters["heading_deg"]
        assert item.key == shown(2 * track_deg - heading_deg + 180), "as far to the other side of the track home"
        assert item.key != shown(heading_deg + 180)


def test_trap_19_numbers_are_rounded_half_up_and_wrapped() -> None:
    assert [round_half_up(x) for x in (0.5, 1.5, 2.5, -2.5)] == [1, 2, 3, -3]
    assert [heading(x) for x in (0, 360, 359.6, 7)] == ["360", "360", "360", "007"]
    assert difference(350, 10) == -20
    assert mean_direction([350, 10]) == pytest.approx(0, abs=1e-9)
    typed = draw(library(), "true-to-compass", 1, home(), "typed")
    assert {parse_reply(library(), typed, {"value": [text]}, "en").value for text in ("000", "360")} == {360}


def test_trap_20_an_indicator_that_reads_too_much_takes_you_left() -> None:
    assert off_track_by_indicator_nm(5, 60) == pytest.approx(-5)
    assert magnetic_from_compass(CorrectionCard((90, 180, 270, 360), (93, 180, 270, 360)), 93) == pytest.approx(90)
    for item in drawn("hi-wrong-effect"):
        given = item.parameters
        miles = given["indicator_error_deg"] * given["distance_nm"] / 60
        assert item.key == pytest.approx(-miles, abs=0.051), "reads more, so one flies left of what one wants"
    for item in drawn("hi-set-value", form="typed"):
        if item.ask == "value" and item.parameters["region"] == "ca-south":
            given = item.parameters
            compass_deg = given.get("compass_deg", given.get("reading_deg"))
            assert item.key == shown(compass_deg + given["deviation_deg"]), "magnetic: no variation is applied"
    for item in drawn("northern-airspace-reference", where=(63.7, -68.5, "ca-north")):
        if item.ask == "indicator":
            assert item.key == "set-to-true"


def test_trap_21_rule_and_exact_value_differ_so_the_stem_says_which() -> None:
    assert density_altitude_by_rule_ft(4000, 30) == pytest.approx(6750, abs=5)
    assert density_altitude_ft(4000, 30) == pytest.approx(6589, abs=5)
    assert tas_by_rule_kt(100, 4000) == pytest.approx(108)
    assert tas_from_cas_kt(100, 4000, 30) == pytest.approx(110.4, abs=0.2)
    for item in drawn("pressure-density-altitude"):
        if item.ask == "density":
            assert "120 ft" in stem(item).replace("\u00a0", " ")
        elif item.ask == "computer":
            assert "computer" in stem(item)
    for item in drawn("tas-from-cas"):
        assert ("computer" in stem(item)) == (item.ask == "computer")


def test_trap_22_blocked_lines_mislead_by_what_is_blocked() -> None:
    low, level, high = (FlightState(feet, 100) for feet in (2000, 4000, 6000))
    assert shown_with_blockage("static", level, high).cas_kt < high.cas_kt
    assert shown_with_blockage("static", level, low).cas_kt > low.cas_kt
    assert shown_with_blockage("ram", level, level).cas_kt == pytest.approx(0, abs=1)
    climbed, descended = (shown_with_blockage("ram-and-drain", level, state).cas_kt for state in (high, low))
    assert climbed > level.cas_kt > descended, "it behaves as an altimeter"
    taught = {
        ("ram", "level"): "stays-zero", ("ram", "above"): "stays-zero", ("ram", "below"): "stays-zero",
        ("ram-drain", "level"): "stands-still", ("ram-drain", "above"): "reads-high",
        ("ram-drain", "below"): "reads-low",
        ("static", "level"): "works", ("static", "above"): "reads-low", ("static", "below"): "reads-high",
    }  # fmt: skip
    asked = [item for item in drawn("pitot-static-blockage", "groups") if item.ask == "behaviour"]
    shown_asi = {(i.parameters["fault"], i.parameters["phase"]): i.key["asi"] for i in asked}
    assert len(shown_asi.keys() & taught.keys()) >= 5
    assert all(taught[case] == said for case, said in shown_asi.items() if case in taught)


def test_trap_23_wrong_options_are_apart_in_order_and_do_not_tell_what_is_behind_them() -> None:
    for family_id, family in library().families.items():
        if "choice" not in offered_forms(family):
            continue
        for seed in range(1, 11):
            item = draw(library(), family_id, seed, home(), "choice")
            ask = family.ask(item.ask)
            values = [option.value for option in item.options]
            for i, value in enumerate(values):
                assert all(is_apart(value, other, ask, item.value) for other in values[i + 1 :]), (family_id, values)
            if is_numeric(item.value, item.key) and not ask.ordered:
                order = [sort_key(value, item.value) for value in values]
                assert order == sorted(order), (family_id, values)
            before = repr(word_item(library(), item, "en").snapshot())
            names = [family.misconception(name).name.en for option in item.options for name in option.misconceptions]
            assert not any(name in before for name in names), family_id


def test_trap_24_a_figures_text_alternative_does_not_tell_the_reading() -> None:
    for family_id in ("read-compass-face", "card-neighbour"):
        for item in drawn(family_id):
            if isinstance(item.key, int) and item.value.kind == "heading":
                told = " ".join(figure.description for figure in word_item(library(), item, "en").figures)
                assert not re.search(rf"\b{heading(item.key)}\b", told), told


def test_trap_25_west_is_ouest_in_french_and_a_decimal_comma_is_read() -> None:
    assert [east_west(angle, "fr") for angle in (13, -13, 2.5)] == ["13°\u00a0E", "13°\u00a0O", "2,5°\u00a0E"]
    typed = draw(library(), "find-variation-deviation", 1, home(), "typed")
    assert parse_reply(library(), typed, {"value": ["13"], "value_side": ["west"]}, "fr").value == -13
    wind = draw(library(), "tas-from-cas", 1, home(), "typed")
    assert parse_reply(library(), wind, {"value": ["101,5"]}, "fr").value == pytest.approx(101.5)
    by_letter = parse_reply(library(), typed, {"value": ["13 O"]}, "fr")
    assert by_letter.value == -13
    for item in drawn("compass-to-true"):
        assert not re.search(r"° ?W\b", word_item(library(), item, "fr").stem.replace("\u00a0", " "))
