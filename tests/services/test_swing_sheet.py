"""A swing sheet: what is read, what is refused and how, and the coefficients that fit."""

from dataclasses import astuple

import pytest

from app.physics.deviation import Coefficients, deviation_deg
from app.services.errors import Invalid
from app.services.swing_sheet import Reading, fit_sheet, read_sheet, reading_at, write_sheet
from tests.authorities.published import rows

# NGA, Handbook of Magnetic Compass Adjustment (2004), ch. V par. 501: the swing whose row stands in
# tests/authorities/deviation.toml, as a sheet of magnetic and compass headings.
NGA = next(row for row in rows("deviation") if row["id"] == "nga-swing")["inputs"]
NGA_SHEET = """Magnetic	Compass
360	349.5
045	025
090	078.5
135	136.2
180	185.5
225	233
270	282.5
315	321.8
"""


def test_a_pasted_table_is_read_with_its_title() -> None:
    readings = read_sheet(NGA_SHEET, "en")
    assert [each.magnetic_deg % 360 for each in readings] == NGA["heading"]
    assert [each.deviation_deg for each in readings] == pytest.approx(NGA["deviation"])


def test_published_swing_gives_its_coefficients() -> None:
    """Least squares of the published swing: 1.00, 11.94, 7.96, 5.00, 1.50, residuals up to 0.07 (computed)."""
    fit = fit_sheet(read_sheet(NGA_SHEET, "en"), "en")
    assert astuple(fit.coefficients) == pytest.approx((1.00, 11.94, 7.96, 5.00, 1.50), abs=0.01)
    assert abs(fit.residuals_deg[fit.largest]) == pytest.approx(0.07, abs=0.01)
    assert fit.terms == 5


@pytest.mark.parametrize(
    "line",
    ["090 093", "90\t93", "090;093", "090, 093", "090,093", "90/93", "090° 093°", "  090 : 093  ", "090 | 093.0"],
)
def test_ways_to_write_a_line(line: str) -> None:
    readings = read_sheet(f"360 360\n{line}\n180 180\n270 270", "en")
    assert Reading(90.0, 93.0) in readings


def test_decimals_with_a_comma_and_north_either_way() -> None:
    readings = read_sheet("0 357,5\n90 90\n180 180\n270 270", "fr")
    assert readings[0] == Reading(360.0, 357.5)
    assert readings[0].deviation_deg == 2.5


@pytest.mark.parametrize(
    ("sheet", "said"),
    [
        ("", "on the sheet: 0, too few"),
        ("360 357\n090 093\n180 180", "on the sheet: 3, too few"),
        ("\n".join(f"{h} {h}" for h in range(1, 360, 9)), "on the sheet: 40, too many"),
        ("360 357\n090 abc\n180 180\n270 270", "Line 2, “090 abc”"),
        ("360 357\n090 093 3\n180 180\n270 270", "Line 2, “090 093 3”"),
        ("360 357\n090\n180 180\n270 270", "Line 2, “090”"),
        ("360 357\n390 393\n180 180\n270 270", "Line 2: 390 is not a heading"),
        ("360 357\n090 -93\n180 180\n270 270", "Line 2, “090 -93”"),
        ("360 357\n090 135\n180 180\n270 270", "Line 2: 090 and 135 are 45 degrees apart"),
        ("360 357\n090 093\n90 094\n270 270", "090 stands on the sheet twice"),
        ("360 357\n000 358\n090 093\n270 270", "360 stands on the sheet twice"),
        ("010 010\n020 020\n030 030\n040 040\n050 050", "From 050 to 010, 320 degrees"),
    ],
)
def test_refusals_name_the_line_and_what_is_accepted(sheet: str, said: str) -> None:
    with pytest.raises(Invalid) as refused:
        fit_sheet(read_sheet(sheet, "en"), "en")
    assert said in refused.value.message
    assert "Accepted" in refused.value.message
    assert refused.value.field == "readings"
    with pytest.raises(Invalid, match="Accepté"):
        fit_sheet(read_sheet(sheet, "fr"), "fr")


def test_thirty_degrees_off_are_still_read() -> None:
    assert read_sheet("360 330\n90 90\n180 180\n270 270", "en")[0].deviation_deg == 30


def test_four_headings_fix_three_coefficients_and_leave_one_freedom() -> None:
    wanted = Coefficients(1.0, -4.0, 3.0, 0.0, 0.0)
    readings = [reading_at(h or 360.0, deviation_deg(wanted, h)) for h in (0, 90, 180, 270)]
    fit = fit_sheet(readings, "en")
    assert fit.terms == 3
    assert astuple(fit.coefficients) == pytest.approx(astuple(wanted))


def test_five_spread_headings_fix_all_five() -> None:
    wanted = Coefficients(1.0, -4.0, 3.0, 2.0, -1.0)
    readings = [reading_at(h or 360.0, deviation_deg(wanted, h)) for h in (0, 72, 144, 216, 288)]
    fit = fit_sheet(readings, "en")
    assert fit.terms == 5
    assert astuple(fit.coefficients) == pytest.approx(astuple(wanted), abs=0.15)  # readings are rounded to a tenth
    assert max(map(abs, fit.residuals_deg)) < 1e-5


def test_what_is_written_is_read() -> None:
    readings = read_sheet(NGA_SHEET, "en")
    assert read_sheet(write_sheet(readings), "en") == readings
    assert write_sheet([reading_at(360.0, -0.04), reading_at(45.0, 2.5)]) == "360 360\n045 042.5"
