"""Blocked lines: the published behaviour (FAA-H-8083-25C ch. 8, seen), each cell of the table by the pressures."""

import pytest

from app.physics.errors import OutOfRange
from app.physics.pitot_static import FlightState, shown_on_alternate_static, shown_with_blockage

BLOCKED = FlightState(4000.0, 100.0)
ABOVE, LEVEL, BELOW = FlightState(6000.0, 100.0), BLOCKED, FlightState(3000.0, 100.0)
FASTER = FlightState(4000.0, 120.0)


def verdict(shown: float, real: float) -> str:
    if shown == pytest.approx(real, abs=1e-6):
        return "right"
    return "too high" if shown > real else "too low"


@pytest.mark.parametrize("now", [ABOVE, LEVEL, BELOW, FASTER])
def test_nothing_blocked_shows_the_truth(now: FlightState) -> None:
    found = shown_with_blockage("none", BLOCKED, now)
    assert (found.altitude_ft, found.cas_kt) == pytest.approx((now.altitude_ft, now.cas_kt), abs=1e-6)


@pytest.mark.parametrize("now", [ABOVE, LEVEL, BELOW, FASTER])
def test_ram_blocked_with_the_drain_open_falls_to_nothing(now: FlightState) -> None:
    found = shown_with_blockage("ram", BLOCKED, now)
    assert found.cas_kt == 0.0
    assert verdict(found.altitude_ft, now.altitude_ft) == "right"


@pytest.mark.parametrize(("now", "airspeed"), [(ABOVE, "too high"), (LEVEL, "right"), (BELOW, "too low")])
def test_ram_and_drain_blocked_acts_like_an_altimeter(now: FlightState, airspeed: str) -> None:
    found = shown_with_blockage("ram-and-drain", BLOCKED, now)
    assert verdict(found.cas_kt, now.cas_kt) == airspeed
    assert verdict(found.altitude_ft, now.altitude_ft) == "right"


def test_ram_and_drain_blocked_does_not_feel_a_change_of_speed() -> None:
    assert shown_with_blockage("ram-and-drain", BLOCKED, FASTER).cas_kt == pytest.approx(100.0, abs=1e-6)


@pytest.mark.parametrize(
    ("now", "airspeed"), [(ABOVE, "too low"), (LEVEL, "right"), (BELOW, "too high"), (FASTER, "right")]
)
def test_static_blocked_reads_low_above_its_level(now: FlightState, airspeed: str) -> None:
    found = shown_with_blockage("static", BLOCKED, now)
    assert verdict(found.cas_kt, now.cas_kt) == airspeed
    assert found.altitude_ft == pytest.approx(BLOCKED.altitude_ft, abs=1e-6)


@pytest.mark.parametrize("now", [ABOVE, LEVEL, BELOW, FASTER])
def test_all_blocked_freezes_both(now: FlightState) -> None:
    found = shown_with_blockage("all", BLOCKED, now)
    assert (found.altitude_ft, found.cas_kt) == pytest.approx((4000.0, 100.0), abs=1e-6)


def test_far_above_a_blocked_static_line_the_airspeed_is_gone() -> None:
    assert shown_with_blockage("static", BLOCKED, FlightState(9000.0, 60.0)).cas_kt == 0.0


def test_cabin_air_makes_both_read_a_little_high() -> None:
    found = shown_on_alternate_static(LEVEL, 1.0)
    assert verdict(found.altitude_ft, 4000.0) == verdict(found.cas_kt, 100.0) == "too high"
    assert found.altitude_ft < 4040.0
    assert found.cas_kt < 105.0


def test_out_of_range() -> None:
    with pytest.raises(OutOfRange, match="suction_hpa"):
        shown_on_alternate_static(LEVEL, -1.0)
    with pytest.raises(OutOfRange, match="cas_kt"):
        shown_with_blockage("none", BLOCKED, FlightState(4000.0, 400.0))
