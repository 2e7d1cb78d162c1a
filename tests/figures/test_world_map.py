"""The map's lines, read back from the file and held to the model place by place."""

import re
from datetime import date
from functools import cache
from itertools import accumulate

import pytest
from lxml import etree

from app.environment import ROOT
from app.figures.world_map import draw_world
from app.physics.angles import difference
from app.physics.field import field_at
from app.physics.world_field import world_field

DAY = date(2026, 11, 28)
NUMBER = re.compile(r"-?[\d.]+(?:e-?\d+)?")


@cache
def layers() -> etree._Element:
    return etree.fromstring(draw_world(world_field(DAY), "en"))


def points(name: str) -> list[tuple[float, float]]:
    """Return latitudes and longitudes of a layer's points."""
    (path,) = layers().xpath(f"//*[@id='{name}']/@d")
    found = []
    for piece in path.split("M")[1:]:
        numbers = [float(each) for each in NUMBER.findall(piece)]
        xs, ys = accumulate(numbers[::2]), accumulate(numbers[1::2])
        found += [(90 - y / 2, x / 2 - 180) for x, y in zip(xs, ys, strict=True)]
    return found


def inland(spots: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Leave out the frame and what lies so near a dip pole that a grid of 2 degrees is too coarse."""
    return [
        (lat, max(-180.0, min(180.0, lon))) for lat, lon in spots
        if abs(lat) < 75 and field_at(lat, max(-180.0, min(180.0, lon)), DAY).horizontal_nt > 8000
    ]  # fmt: skip


def test_agonic_line_has_no_variation() -> None:
    spots = inland(points("agonic"))
    assert len(spots) > 50
    assert all(abs(field_at(*spot, DAY).declination_deg) < 0.7 for spot in spots)


def test_magnetic_equator_has_no_dip() -> None:
    spots = points("equator")
    assert min(lon for _, lon in spots) < -179
    assert max(lon for _, lon in spots) > 179
    assert all(abs(field_at(lat, max(-180.0, min(180.0, lon)), DAY).dip_deg) < 0.7 for lat, lon in spots)


@pytest.mark.parametrize(("layer", "step"), [("isogonals", 10), ("isoclinals", 20)])
def test_lines_have_the_values_they_are_drawn_for(layer: str, step: int) -> None:
    for spot in inland(points(layer)):
        field = field_at(*spot, DAY)
        value = field.declination_deg if layer == "isogonals" else field.dip_deg
        assert abs(difference(value, step * round(value / step))) < 1.2


@pytest.mark.parametrize(("layer", "limit_nt"), [("caution", 6000), ("blackout", 2000)])
def test_zones_end_where_the_report_says(layer: str, limit_nt: int) -> None:
    """WMM2025 report: blackout zones under 2000 nT, caution zones from 2000 to 6000 nT, round both dip poles."""
    spots = [(lat, lon) for lat, lon in points(layer) if abs(lat) < 89.5 and abs(lon) < 179.5]
    assert {lat > 0 for lat, _ in spots} == {True, False}
    for lat, lon in spots:
        assert field_at(lat, lon, DAY).horizontal_nt == pytest.approx(limit_nt, abs=200)


def test_names_in_both_languages() -> None:
    english = {"".join(each.itertext()) for each in layers().xpath("//*[@id='isogonal-names']/*")}
    assert "10°\u00a0W" in english
    assert "10°\u00a0O" in draw_world(world_field(DAY), "fr")
    spots = [(float(t.get("x")), float(t.get("y"))) for t in layers().xpath("//*[local-name()='text']")]
    assert all(10 < x < 710 and 10 < y < 350 for x, y in spots)


def test_land_is_small_and_within_the_map() -> None:
    file = (ROOT / "static" / "maps" / "coast.svg").read_text("utf-8")
    assert len(file) < 40_000
    assert "Natural Earth" in file
    assert "public domain" in file
