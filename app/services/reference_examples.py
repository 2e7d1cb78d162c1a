"""The numbers of the reference page's worked examples, each from the models the questions are keyed on."""

from collections.abc import Callable, Mapping
from functools import partial

from app.packs.spec import Language
from app.physics.card import speed_change_reading_deg, turn_reading_deg
from app.physics.deviation import (
    CorrectionCard,
    coefficients_from_swing,
    compass_from_magnetic,
    deviation_deg,
    deviation_for_magnetic,
)
from app.physics.dipole import dip_from_magnetic_latitude_deg, horizontal_share
from app.physics.fuel import endurance_min, fuel_for
from app.physics.gyro import earth_wander_deg_h
from app.physics.headings import compass_from, cruising_parity, magnetic_from_true, runway_number, variation_updated_deg
from app.physics.pressure import (
    STANDARD_SETTING_INHG,
    altitude_by_hpa_ft,
    altitude_by_inches_ft,
    altitude_with_setting_ft,
    density_altitude_by_rule_ft,
    density_altitude_ft,
    pressure_altitude_by_inches_ft,
    tas_by_rule_kt,
    tas_from_cas_kt,
)
from app.physics.track import bearing_from_relative, double_track_error, minutes_for, track_correction
from app.physics.turning import (
    arc_deg,
    bank_fifteen_percent_deg,
    bank_for_rate_deg,
    bank_tenth_plus_seven_deg,
    normal_lead_deg,
    rollout_by_latitude_deg,
    turn_seconds,
)
from app.physics.units import hpa_from_inhg, nm_from_sm
from app.physics.wind import drift_by_clock_deg, heading_home_deg, max_drift_deg, runway_wind, solve_heading
from app.questions.numbers import arc_minutes, decimals, east_west, exact, heading, signed

DIP_DEG = 70.0
BANK_DEG = 15.0
BRISK_G = 0.1
LATITUDE_DEG = 45.0
ROLL_OUT_BANK_DEG = 16.0
HALVES = {
    "odd": ("odd thousands + 500", "milliers impairs + 500"),
    "even": ("even thousands + 500", "milliers pairs + 500"),
}
SWING_DEG = (3, 4, 5, 3, 1, -2, -3, -3)  # north, north-east and so on round to north-west

Values = Mapping[str, str]


def conversion(language: Language) -> Values:
    """Return a true heading down to the compass."""
    magnetic = magnetic_from_true(75, -13)
    return {
        "true": heading(75),
        "variation": east_west(-13, language),
        "deviation": east_west(2, language),
        "magnetic": heading(magnetic),
        "compass": heading(compass_from(magnetic, 2)),
    }


def card(language: Language) -> Values:
    """Return a heading half-way between two entries of a correction card."""
    entries = CorrectionCard((60, 90, 180, 270, 360), (64, 96, 180, 270, 360))
    between = deviation_for_magnetic(entries, 75)
    return {
        "wanted": heading(75),
        "between": east_west(between, language),
        "steer": heading(compass_from_magnetic(entries, 75)),
    }


def coefficients(language: Language) -> Values:
    """Return the coefficients of a swing, and what they give between its headings."""
    found = coefficients_from_swing(SWING_DEG)
    return {
        "swing": ", ".join(signed(each, language) for each in SWING_DEG),
        **{name: signed(getattr(found, name), language, 1) for name in "abcde"},
        "between": signed(deviation_deg(found, 30), language, 1),
    }


def dip(language: Language) -> Values:
    """Return the dip of a dipole at two magnetic latitudes and the level share of its field."""
    gentle, steep = (dip_from_magnetic_latitude_deg(latitude) for latitude in (LATITUDE_DEG, 60.0))
    return {
        "latitude": f"{exact(LATITUDE_DEG, language)}°",
        "dip": f"{decimals(gentle, 0, language)}°",
        "share": decimals(100 * horizontal_share(gentle), 0, language),
        "steep": f"{decimals(steep, 0, language)}°",
        "weak": decimals(100 * horizontal_share(steep), 0, language),
    }


def annual_change(language: Language) -> Values:
    """Return a variation that crosses zero."""
    now_deg = variation_updated_deg(-0.5, 9, 10)
    return {
        "printed": arc_minutes(-30, language),
        "change": exact(9, language) + "′",
        "years": "10",
        "now": arc_minutes(round(60 * now_deg), language),
    }


def turning(_language: Language) -> Values:
    """Return the reading in a right turn through north, in either hemisphere."""
    return {
        "north": heading(turn_reading_deg(360, DIP_DEG, BANK_DEG)),
        "south": heading(turn_reading_deg(360, -DIP_DEG, BANK_DEG)),
    }


def speed_change(_language: Language) -> Values:
    """Return the reading while the aircraft speeds up, in either hemisphere and between the points."""
    return {
        "north": heading(speed_change_reading_deg(90, DIP_DEG, BRISK_G)),
        "south": heading(speed_change_reading_deg(90, -DIP_DEG, BRISK_G)),
        "between": heading(speed_change_reading_deg(45, DIP_DEG, BRISK_G)),
    }


def roll_out(_language: Language) -> Values:
    """Return the eight roll-out readings of the latitude rule, and one by the model."""
    lead_deg = normal_lead_deg(ROLL_OUT_BANK_DEG)
    by_rule = partial(rollout_by_latitude_deg, latitude_deg=LATITUDE_DEG, normal_lead_deg=lead_deg)
    readings = {
        "n_right": by_rule(360, "right", "north"),
        "n_left": by_rule(360, "left", "north"),
        "far_right": by_rule(180, "right", "north"),
        "far_left": by_rule(180, "left", "north"),
        "s_right": by_rule(180, "right", "south"),
        "s_left": by_rule(180, "left", "south"),
        "s_far_right": by_rule(360, "right", "south"),
        "s_far_left": by_rule(360, "left", "south"),
        "model": turn_reading_deg(360 - lead_deg, DIP_DEG, ROLL_OUT_BANK_DEG),
    }
    return {name: heading(reading) for name, reading in readings.items()}


def rate_one(language: Language) -> Values:
    """Return a timed turn, and the bank at 100 kt by three ways."""
    return {
        "seconds": exact(turn_seconds(arc_deg(40, 130, "right"), 3), language),
        "exact": decimals(bank_for_rate_deg(100), 1, language),
        "percent": exact(bank_fifteen_percent_deg(100), language),
        "tenth": exact(bank_tenth_plus_seven_deg(100), language),
    }


def gyro(language: Language) -> Values:
    """Return a quarter of an hour of the earth's turning, in either hemisphere."""
    return {
        "north": decimals(abs(earth_wander_deg_h(LATITUDE_DEG)) / 4, 1, language),
        "south": decimals(abs(earth_wander_deg_h(-LATITUDE_DEG)) / 4, 1, language),
    }


def wind(language: Language) -> Values:
    """Return a leg, the way home, and the same wind on a runway."""
    leg, runway = solve_heading(90, 100, 30, 20), runway_wind(90, 30, 20)
    return {
        "heading": heading(leg.heading_deg),
        "gs": decimals(leg.gs_kt, 0, language),
        "home": heading(heading_home_deg(90, leg.wca_deg)),
        "cross": decimals(abs(runway.crosswind_kt), 0, language),
        "head": decimals(runway.headwind_kt, 0, language),
    }


def quick_drift(language: Language) -> Values:
    """Return the most drift and its share by the clock rule."""
    return {
        "most": exact(max_drift_deg(100, 20), language),
        "drift": exact(drift_by_clock_deg(100, 20, 30), language),
    }


def time(language: Language) -> Values:
    """Return a time over the ground, and statute miles as nautical ones."""
    return {"minutes": exact(minutes_for(45, 90), language), "miles": decimals(nm_from_sm(45), 1, language)}


def fuel(language: Language) -> Values:
    """Return how long the fuel lasts above the reserve, and what a leg burns."""
    return {
        "endurance": exact(int(endurance_min(100, 32, 45)), language),
        "leg": decimals(fuel_for(25, 32), 1, language),
    }


def doubled(language: Language) -> Values:
    """Return the headings back onto track and along it."""
    plan = double_track_error(80, 6, 10)
    return {"regain": heading(plan.regain_deg), "keep": heading(plan.keep_deg), "minutes": exact(10, language)}


def bearing(_language: Language) -> Values:
    """Return a bearing to a station and from it."""
    to = bearing_from_relative(300, 100)
    return {"to": heading(to), "back": heading(to + 180)}


def one_in_sixty(language: Language) -> Values:
    """Return a correction to the destination."""
    correction = track_correction(3, 30, 45)
    return {
        "error": exact(abs(correction.track_error_deg), language),
        "closing": exact(abs(correction.closing_angle_deg), language),
        "change": exact(abs(correction.heading_change_deg), language),
    }


def cruising(language: Language) -> Values:
    """Return a track whose two norths lie in different halves, and a runway."""
    magnetic = magnetic_from_true(175, -13)
    said = 0 if language == "en" else 1
    return {
        "magnetic": heading(magnetic),
        "south": HALVES[cruising_parity(magnetic)][said],
        "north": HALVES[cruising_parity(175)][said],
        "azimuth": heading(183),
        "runway": f"{runway_number(183):02d}",
    }


def settings(language: Language) -> Values:
    """Return the altitude flown on a wrong setting, by each rule and exactly, and the standard in both units."""
    altitudes = {
        "inches": altitude_by_inches_ft(4500, 30.12, 29.72),
        "at_thirty": altitude_by_hpa_ft(4500, 1020, 1006, 30),
        "at_27": altitude_by_hpa_ft(4500, 1020, 1006, 27),
        "exactly": altitude_with_setting_ft(4500, 1020, 1006),
    }
    return {
        **{name: decimals(altitude, 0, language) for name, altitude in altitudes.items()},
        "standard_inhg": decimals(STANDARD_SETTING_INHG, 2, language),
        "standard_hpa": decimals(hpa_from_inhg(STANDARD_SETTING_INHG), 1, language),
    }


def transition(language: Language) -> Values:
    """Return the pressure altitude of an indication on a low setting, and how far that is from the indication."""
    pressure_ft = pressure_altitude_by_inches_ft(18_000, 29.22)
    return {
        "low": decimals(29.22, 2, language),
        "pressure": decimals(pressure_ft, 0, language),
        "level": decimals(pressure_ft - 18_000, 0, language),
    }


def air(language: Language) -> Values:
    """Return density altitude and true airspeed by rule and exactly."""
    return {
        "da_rule": decimals(density_altitude_by_rule_ft(4000, 30), 0, language),
        "da_exact": decimals(density_altitude_ft(4000, 30), 0, language),
        "tas_rule": decimals(tas_by_rule_kt(100, 4000), 0, language),
        "tas_exact": decimals(tas_from_cas_kt(100, 4000, 30), 1, language),
    }


EXAMPLES: Mapping[str, Callable[[Language], Values]] = {
    each.__name__: each
    for each in (
        conversion, card, annual_change, turning, speed_change, roll_out, rate_one, gyro, wind, quick_drift, time,
        one_in_sixty, doubled, bearing, cruising, air, coefficients, dip, fuel, settings, transition,
    )
}  # fmt: skip
