from datetime import date

import pytest

from app.services.bench_field import field_of
from app.services.bench_years import Years, years_of
from app.services.homes import HomeWish

DAY = date(2026, 9, 1)


def years_at(latitude_deg: float, longitude_deg: float) -> Years:
    found = years_of(field_of(HomeWish(DAY, None, latitude_deg, longitude_deg), None, "en"))
    assert found is not None
    return found


def test_changes_add_up() -> None:
    years = years_at(45.32, -75.67)
    assert [each.year for each in years.present] == [2025, 2026, 2027, 2028, 2029, 2030]
    assert years.present[-1].change_min is None
    for rows, apart in ((years.present, 1), (years.past, 5)):
        changed = sum(apart * (each.change_min or 0) for each in rows) / 60
        assert changed == pytest.approx(
            rows[-1].variation_deg - rows[0].variation_deg, abs=0.15 + apart * len(rows) / 120
        )


def test_the_two_models_meet() -> None:
    years = years_at(45.32, -75.67)
    assert years.past[-1].year == years.present[0].year == 2025
    assert years.apart_min <= 9  # 0.14 degree: the design's measured bound where the level field is strong
    assert years.past[-1].variation_deg == pytest.approx(years.present[0].variation_deg, abs=0.15)


def test_which_years_may_still_be_revised() -> None:
    sure = {each.year: each.definitive for each in years_at(45.32, -75.67).past}
    assert [year for year, holds in sure.items() if not holds] == [*range(1900, 1945, 5), 2025]


def test_a_field_of_one_s_own_does_not_change() -> None:
    assert years_of(field_of(HomeWish(DAY), 60, "en")) is None
