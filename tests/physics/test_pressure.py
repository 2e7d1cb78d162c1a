import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.physics import pressure
from app.physics.errors import OutOfRange, Undefined
from tests.tolerances import EXACT

ALTITUDE = st.floats(-15_000.0, 64_000.0)
HALF_FOOT = 0.5
TENTH_KNOT = 0.05 + EXACT


@given(ALTITUDE)
def test_pressure_and_altitude_are_inverse(altitude: float) -> None:
    found = pressure.standard_altitude_ft(pressure.standard_pressure_hpa(altitude))
    assert found == pytest.approx(altitude, abs=1e-5)


@pytest.mark.parametrize("step_ft", [-0.01, 0.01])
def test_nothing_jumps_at_the_tropopause(step_ft: float) -> None:
    tropopause_ft = pressure.TROPOPAUSE_M / 0.3048
    at, near = (pressure.standard_pressure_hpa(tropopause_ft + step) for step in (0.0, step_ft))
    assert near == pytest.approx(at, abs=2e-4)
    assert pressure.standard_temperature_c(tropopause_ft + 5000.0) == pytest.approx(-56.5, abs=EXACT)


def test_true_rates_of_the_altimeter() -> None:
    """925 ft an inch and 27.3 ft a hectopascal at sea level: what 1000 and 30 stand for."""
    assert pressure.pressure_altitude_ft(0.0, 1012.25) == pytest.approx(27.3, abs=0.05)
    inch = pressure.pressure_altitude_ft(0.0, 1013.25 - 33.8639 / 100.0) * 100.0
    assert inch == pytest.approx(925.0, abs=1.0)


def test_pressure_altitude_by_rule() -> None:
    assert pressure.pressure_altitude_by_inches_ft(2000.0, 29.42) == pytest.approx(2500.0, abs=EXACT)
    assert pressure.pressure_altitude_by_hpa_ft(2000.0, 1003.0) == 2300.0
    assert pressure.pressure_altitude_by_hpa_ft(2000.0, 1023.0, 27.0) == 1730.0


@given(st.floats(0.0, 10_000.0), st.floats(980.0, 1050.0))
def test_rules_lie_near_the_exact_pressure_altitude(elevation: float, setting_hpa: float) -> None:
    """The 27 ft rule within 40 ft over the settings one meets; the inch within 110 ft of an inch and a bit."""
    exact = pressure.pressure_altitude_ft(elevation, setting_hpa)
    assert pressure.pressure_altitude_by_hpa_ft(elevation, setting_hpa, 27.0) == pytest.approx(exact, abs=40.0)
    by_inches = pressure.pressure_altitude_by_inches_ft(elevation, setting_hpa / 33.8639)
    assert by_inches == pytest.approx(exact, abs=110.0)


def test_density_altitude_exact_and_by_rule() -> None:
    """PA 4000 ft at 30 C: 6589 ft exact, 6750 by 120 ft a degree, worked out apart from this project."""
    assert pressure.density_altitude_ft(4000.0, 30.0) == pytest.approx(6589.0, abs=HALF_FOOT)
    assert pressure.density_altitude_by_rule_ft(4000.0, 30.0) == pytest.approx(6750.0, abs=HALF_FOOT)
    assert pressure.density_altitude_by_rule_ft(4000.0, 30.0, 2.0) == 6760.0


def test_tas_exact_and_by_rule() -> None:
    """CAS 100 kt: 110.4 exact at PA 4000 ft and 30 C, 108 by 2 %; 116.4 at 10 000 ft in ISA, 120.6 at ISA + 20."""
    assert pressure.tas_from_cas_kt(100.0, 4000.0, 30.0) == pytest.approx(110.4, abs=TENTH_KNOT)
    assert pressure.tas_by_rule_kt(100.0, 4000.0) == pytest.approx(108.0, abs=EXACT)
    isa = pressure.standard_temperature_c(10_000.0)
    assert pressure.tas_from_cas_kt(100.0, 10_000.0, isa) == pytest.approx(116.4, abs=TENTH_KNOT)
    assert pressure.tas_from_cas_kt(100.0, 10_000.0, isa + 20.0) == pytest.approx(120.6, abs=TENTH_KNOT)


@given(st.floats(50.0, 200.0), st.floats(0.0, 30_000.0), st.floats(-50.0, 40.0))
def test_cas_and_tas_are_inverse(cas: float, altitude: float, oat: float) -> None:
    tas = pressure.tas_from_cas_kt(cas, altitude, oat)
    assert pressure.cas_from_tas_kt(tas, altitude, oat) == pytest.approx(cas, abs=EXACT)


@given(st.floats(0.0, 14_000.0))
def test_standard_air_has_no_deviation(altitude: float) -> None:
    """Then density altitude is pressure altitude; the rule's 1.98 C stays within 0.02 C of the standard."""
    isa = pressure.standard_temperature_c(altitude)
    assert pressure.isa_deviation_c(altitude, isa) == 0.0
    assert pressure.density_altitude_ft(altitude, isa) == pytest.approx(altitude, abs=1e-5)
    assert pressure.isa_temperature_by_rule_c(altitude) == pytest.approx(isa, abs=0.02)


def test_low_pressure_means_lower_than_it_reads() -> None:
    assert pressure.altitude_by_inches_ft(5000.0, 29.92, 29.42) == pytest.approx(4500.0, abs=EXACT)
    assert pressure.altitude_by_hpa_ft(5000.0, 1013.0, 1003.0) == 4700.0
    assert pressure.altitude_by_hpa_ft(5000.0, 1003.0, 1013.0, 27.0) == 5270.0
    exact = pressure.altitude_with_setting_ft(5000.0, 1013.25, 1003.25)
    assert exact == pytest.approx(5000.0 - 273.0, abs=2.0)
    assert pressure.altitude_with_setting_ft(5000.0, 1003.0, 1003.0) == 5000.0


def test_cold_rule() -> None:
    """ICAO table at -20 C, 5000 ft above a station at sea level: 710 ft; the rule gives 700 (35 below standard)."""
    assert pressure.cold_correction_ft(5000.0, 35.0) == 700.0
    assert pressure.cold_correction_ft(3000.0, -10.0) == -120.0


@given(st.floats(1000.0, 6000.0), st.floats(0.0, 5000.0), st.floats(-30.0, 20.0))
def test_cold_rule_lies_near_the_stretched_column(above: float, station: float, warmer: float) -> None:
    """4 % for ten degrees is 15 % large at most: 283 K of standard air would want 3.5."""
    error = above - pressure.true_height_ft(above, station, warmer)
    rule = pressure.cold_correction_ft(above, -warmer)
    assert abs(rule - error) <= 0.16 * abs(rule) + EXACT
    assert error * warmer <= 0.0


@pytest.mark.parametrize(("ias", "cas"), [(50.0, 58.0), (55.0, 61.5), (60.0, 65.0), (75.0, 77.5), (80.0, 81.0)])
def test_position_error_is_interpolated(ias: float, cas: float) -> None:
    table = ((50.0, 60.0, 70.0, 80.0), (58.0, 65.0, 74.0, 81.0))
    assert pressure.calibrated_from_table(ias, *table) == pytest.approx(cas, abs=EXACT)


def test_position_error_table_is_checked() -> None:
    with pytest.raises(OutOfRange, match="ias_kt"):
        pressure.calibrated_from_table(85.0, (50.0, 80.0), (55.0, 81.0))
    with pytest.raises(Undefined, match="two rows"):
        pressure.calibrated_from_table(50.0, (50.0,), (55.0,))


@pytest.mark.parametrize(
    ("call", "name"),
    [
        (lambda: pressure.standard_pressure_hpa(70_000.0), "altitude_ft"),
        (lambda: pressure.standard_temperature_c(-20_000.0), "altitude_ft"),
        (lambda: pressure.standard_altitude_ft(10.0), "pressure_hpa"),
        (lambda: pressure.density_ratio(1000.0, 80.0), "oat_c"),
        (lambda: pressure.density_altitude_ft(60_000.0, -56.5), "density_altitude_ft"),
    ],
)
def test_out_of_range(call: object, name: str) -> None:
    assert callable(call)
    with pytest.raises(OutOfRange, match=name):
        call()
