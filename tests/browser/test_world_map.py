"""The map in a real browser: a press goes there, arrows and Enter too, layers are drawn, no JavaScript, axe."""

import re

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Axe
from tests.browser.practising import assert_fits
from tests.browser.windows import NARROW, NO_SCRIPT, WIDE, Opener, View

MAP = "/bench/map?place_id=typed&latitude_deg=45&longitude_deg=-75&when=2026-09-01&start_deg=360&target_deg=90"


def test_press_on_the_map_flies_there(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto(MAP)
    box = page.locator("#map svg").bounding_box()
    assert box
    with page.expect_navigation():
        page.mouse.click(box["x"] + box["width"] * 0.75, box["y"] + box["height"] * 0.75)
    found = re.search(r"latitude_deg=(-?[\d.]+)&longitude_deg=(-?[\d.]+)", page.url)
    assert found
    assert float(found[1]) == pytest.approx(-45, abs=0.3)
    assert float(found[2]) == pytest.approx(90, abs=0.3)
    assert page.input_value("#target_deg") == "090"
    assert page.input_value("#place_id") == "typed"


def test_arrows_move_the_cross_and_enter_flies_there(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto(MAP)
    page.focus("#map")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Shift+ArrowLeft")
    expect(page.locator("#cross-words")).to_have_text("46, -85")
    assert page.input_value("#latitude_deg") == "46"
    with page.expect_navigation():
        page.keyboard.press("Enter")
    assert "latitude_deg=46&longitude_deg=-85" in page.url


def test_goes_round_the_date_line_and_stops_at_the_pole(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto(MAP.replace("latitude_deg=45&longitude_deg=-75", "latitude_deg=85&longitude_deg=175"))
    page.focus("#map")
    page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("Shift+ArrowUp")
    expect(page.locator("#cross-words")).to_have_text("90, -175")


@pytest.mark.parametrize("view", [WIDE, View(scheme="dark"), NARROW, NO_SCRIPT])
def test_layers_are_drawn_and_axe_finds_nothing(open_page: Opener, axe: Axe, view: View) -> None:
    page = open_page(view)
    page.goto(MAP)
    for layer in ("land", "isogonals", "blackout", "isoclinal-names"):
        box = page.locator(f"use.map-{layer}").bounding_box()
        assert box
        assert box["width"] > 100
    if view.script:
        assert not axe.faults(page)
    assert_fits(page)


def test_without_javascript_coordinates_go_there(open_page: Opener) -> None:
    page = open_page(NO_SCRIPT)
    page.goto(MAP)
    page.fill("#latitude_deg", "12.5")
    with page.expect_navigation():
        page.click("#map-form .button >> nth=0")
    assert "12.50, -75.00" in page.locator(".place-line").inner_text()


def test_home_place_is_filled_in(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto(MAP)
    with page.expect_navigation():
        page.click("#map-form .second-button")
    assert page.input_value("#longitude_deg") == "-75"
    assert page.is_checked("input[name=where][value=typed]")
