"""The workshop in a real browser: points under hand and keys, sliders, a link that holds the state, no JavaScript."""

import re

import pytest
from playwright.sync_api import FloatRect, Locator, Page, expect

from tests.browser.conftest import Axe
from tests.browser.practising import assert_fits, follow
from tests.browser.windows import NARROW, NO_SCRIPT, WIDE, Opener, View

EIGHT = "/bench/deviation?enter=deviations&" + "&".join(
    f"on_{heading:03d}={deviation}"
    for heading, deviation in ((360, 5), (45, 3), (90, -4), (135, -8), (180, -4), (225, 3), (270, 7), (315, 7))
)
VIEWS = {"wide": WIDE, "narrow-dark-french": NARROW, "dark": View(scheme="dark"), "no-script": NO_SCRIPT}
PATHS = (
    "/bench/deviation",
    EIGHT,
    "/bench/deviation?enter=readings&step=2",
    "/bench/deviation?enter=readings&readings=360+357",
    "/bench/deviation?view=projector",
)


def handle(page: Page, name: str) -> Locator:
    return page.locator(f".wide .handle[aria-label='{name}']")


def found(page: Page, place: int) -> str:
    """Return a deviation of the first row of the eight headings."""
    return page.locator("table:has(#left-caption) tbody tr:first-child td").nth(place).inner_text()


def test_a_point_is_dragged_and_the_server_draws(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto(EIGHT)
    point = handle(page, "On SE")
    before = page.locator(".wide svg path").nth(-1).get_attribute("d")
    box = point.bounding_box()
    assert box
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y - 20, steps=3)
    page.mouse.move(x, y - 40, steps=3)
    page.mouse.up()
    typed = float(page.input_value("#on_135"))
    assert -8 < typed < 10
    expect(point).to_have_attribute("aria-valuenow", f"{typed:g}")
    page.wait_for_url(re.compile(rf"on_135={typed:g}(&|$)"))
    expect(page.locator("table:has(#readings-caption) tbody tr").nth(3).locator("td").nth(1)).to_contain_text(
        f"{abs(typed):.1f}° {'E' if typed > 0 else 'W'}" if typed else "0°"
    )
    assert page.locator(".wide svg path").nth(-1).get_attribute("d") != before


def test_the_handle_lies_on_its_ring(open_page: Opener) -> None:
    for view in (WIDE, View(width=320)):
        page = open_page(view)
        page.goto(EIGHT)
        width = "wide" if view.width > 700 else "narrow"
        rings = page.locator(f".{width} svg circle[r='5']").all()
        handles = page.locator(f".{width} .handle").all()
        assert len(rings) == len(handles) == 8
        for ring, each in zip(rings, handles, strict=True):
            here, there = ring.bounding_box(), each.bounding_box()
            assert here
            assert there
            for one, other in zip(middle(here), middle(there), strict=True):
                assert one == pytest.approx(other, abs=1)


def test_arrow_keys_move_a_point_and_the_focus_stays(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto(EIGHT)
    point = handle(page, "On E")
    point.focus()
    for key in ("ArrowUp", "ArrowRight", "PageUp", "ArrowDown"):
        page.keyboard.press(key)
    expect(point).to_have_attribute("aria-valuetext", "1.5° E")
    assert page.input_value("#on_090") == "1.5"
    page.wait_for_url(re.compile(r"on_090=1\.5"))
    expect(point).to_be_focused()
    page.keyboard.press("Home")
    expect(point).to_have_attribute("aria-valuenow", "-30")
    page.wait_for_url(re.compile(r"on_090=-30"))
    page.reload()
    expect(handle(page, "On E")).to_have_attribute("aria-valuenow", "-30")


def test_sliders_stand_beside_the_coefficients(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto("/bench/deviation")
    slider = page.locator("#coefficient_b_deg + input[type=range]")
    slider.focus()
    page.keyboard.press("ArrowRight")
    expect(page.locator("#coefficient_b_deg")).to_have_value("-5.5")
    page.wait_for_url(re.compile(r"coefficient_b_deg=-5\.5"))
    expect(slider).to_have_attribute("aria-valuetext", "5.5° W")
    page.keyboard.press("PageUp")
    expect(page.locator("#coefficient_b_deg")).to_have_value("-0.5")
    page.fill("#coefficient_a_deg", "2 W")
    page.wait_for_url(re.compile(r"coefficient_a_deg=2\+W"))
    expect(page.locator("table:has(#coefficients-caption) tbody td").first).to_have_text("2.0° W")
    assert "coefficient_a_deg=-2" in (page.locator("a.state").get_attribute("href") or "")


def test_what_cannot_be_read_is_said_and_the_picture_stays(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto("/bench/deviation?enter=readings")
    page.fill("#readings", "360 357\n090 abc")
    expect(page.locator("#deviation-status")).to_contain_text("Line 2, “090 abc”")
    expect(page.locator(".wide svg")).to_be_visible()
    page.fill("#readings", "360 357\n090 093\n180 180\n270 268")
    expect(page.locator("#deviation-status")).to_be_empty()
    expect(page.locator("table:has(#readings-caption) tbody tr")).to_have_count(4)
    page.reload()
    assert page.input_value("#readings") == "360 357\n090 093\n180 180\n270 268"


def test_a_step_is_a_link(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto(EIGHT)
    follow(page, "table:has(#steps-caption) a >> nth=2")
    assert "step=2" in page.url
    expect(page.locator("table:has(#left-caption) tbody tr")).to_have_count(3)


def test_without_javascript_a_form_and_stills(open_page: Opener) -> None:
    page = open_page(NO_SCRIPT)
    page.goto(EIGHT)
    expect(page.locator(".handle, input[type=range]")).to_have_count(0)
    page.fill("#on_090", "6.5 E")
    with page.expect_navigation():
        page.click("#deviation-form button.button")
    assert "on_090=6.5" in page.url
    expect(page.locator("table:has(#readings-caption) tbody tr").nth(2).locator("td").nth(1)).to_have_text("6.5° E")
    expect(page.locator(".placard")).to_have_count(2)
    assert_fits(page)


def test_paper_has_the_card_and_the_caution_and_no_form(open_page: Opener) -> None:
    page = open_page(View(alone=True))
    page.goto("/bench/deviation?enter=readings")
    assert page.locator("button.print").is_visible()
    page.emulate_media(media="print")
    expect(page.locator("#deviation-form")).to_be_hidden()
    expect(page.locator(".placard").first).to_be_visible()
    expect(page.locator(".caution-note")).to_be_visible()


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
@pytest.mark.parametrize("path", PATHS)
def test_axe_finds_nothing_and_nothing_stands_out(open_page: Opener, axe: Axe, view: View, path: str) -> None:
    page = open_page(view)
    page.goto(path)
    if view.script:
        assert not axe.faults(page)
    assert_fits(page)


def middle(box: FloatRect) -> tuple[float, float]:
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
