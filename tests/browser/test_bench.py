"""The bench in a real browser: play, scrub, keyboard, a link that holds the state, calm motion, no JavaScript, axe."""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Axe
from tests.browser.practising import assert_fits
from tests.browser.windows import NARROW, NO_SCRIPT, WIDE, Opener, View

TURN = "/bench?place_id=otterlea&when=2026-09-01&target_deg=90&start_deg=270"
VIEWS = {"wide": WIDE, "narrow-dark-french": NARROW, "dark": View(scheme="dark"), "no-script": NO_SCRIPT}


@pytest.fixture
def moving(open_page: Opener) -> Page:
    """A page of somebody who does not mind motion."""
    return at_ten_seconds(open_page(View(motion=True)))


def at_ten_seconds(page: Page) -> Page:
    page.goto(f"{TURN}&at=10")
    page.wait_for_selector("#player[data-ready]")
    return page


def now(page: Page, name: str = "time") -> float:
    return float(page.locator(f"[data-now={name}]").inner_text().rstrip("°").replace("\u2212", "-"))


def wait_past(page: Page, seconds: float) -> None:
    for _ in range(300):
        if now(page) > seconds:
            return
        page.wait_for_timeout(50)
    pytest.fail(f"the flight never came past {seconds} s")


def test_play_advances_and_pause_keeps_the_moment_in_the_address(moving: Page) -> None:
    moving.select_option("#pace", "4")
    moving.click("[data-do=play]")
    expect(moving.locator("[data-do=play]")).to_have_text("Pause")
    wait_past(moving, 14)
    moving.click("[data-do=play]")
    expect(moving.locator("[data-do=play]")).to_have_text("Play")
    stopped = now(moving)
    assert stopped > 14
    assert f"at={stopped:.1f}" in moving.url
    real = moving.locator("[data-now=real]").inner_text()
    moving.reload()
    moving.wait_for_selector("#player[data-ready]")
    assert now(moving) == stopped
    assert moving.locator("[data-now=real]").inner_text() == real


def test_what_was_out_of_sight_while_it_played_is_drawn_when_it_stops(open_page: Opener) -> None:
    moving = at_ten_seconds(open_page(View(motion=True, alone=True)))
    plot = moving.locator(".plot .wide svg > g path").first
    moving.set_viewport_size({"width": 1280, "height": 400})
    before = plot.get_attribute("d")
    moving.click("[data-do=play]")
    wait_past(moving, 10.5)
    moving.click("[data-do=play]")
    expect(moving.locator("[data-do=play]")).to_have_text("Play")
    assert plot.get_attribute("d") != before


def test_plays_to_the_end_and_stops(moving: Page) -> None:
    last = float(moving.locator("#scrub").get_attribute("max") or 0)
    moving.locator("#scrub").fill(f"{last - 0.5:.1f}")
    moving.click("[data-do=play]")
    expect(moving.locator("[data-do=play]")).to_have_text("Play")
    wait_past(moving, last - 0.11)
    assert moving.locator("[data-now=reading]").inner_text() == "090"


def test_keys_step_and_play(moving: Page) -> None:
    moving.locator("main").focus()
    moving.keyboard.press("ArrowRight")
    assert now(moving) == 10.5
    moving.keyboard.press("ArrowLeft")
    moving.keyboard.press("ArrowLeft")
    assert now(moving) == 9.5
    moving.keyboard.press(" ")
    wait_past(moving, 9.5)
    moving.keyboard.press(" ")
    expect(moving.locator("[data-do=play]")).to_have_text("Play")
    moving.locator("#start_deg").press("ArrowRight")
    before = now(moving)
    moving.locator("#start_deg").press(" ")
    assert now(moving) == before


def test_scrub_moves_everything(moving: Page) -> None:
    """At 35.5 s the nose is on north and the face reads 325: what the server's own still says."""
    moving.locator("#scrub").fill("35.5")
    assert moving.locator("[data-now=real]").inner_text() == "360"
    assert moving.locator("[data-now=reading]").inner_text() == "325"
    assert now(moving, "bank") == 15
    shown = moving.locator("[data-still=drum] text[transform]:not([display=none])").all_text_contents()
    assert {"N", "33", "30"} <= set(shown)
    card = moving.locator("[data-still=heading-indicator] g g").first.get_attribute("transform") or ""
    turned = float((re.search(r"-?[\d.]+", card) or [0])[0])
    assert min(abs(turned) % 360, 360 - abs(turned) % 360) < 1


def test_above_the_critical_bank_no_card_is_drawn(moving: Page) -> None:
    moving.goto(f"{TURN}&rate=bank&bank_deg=30&at=0")
    moving.wait_for_selector("#player[data-ready]")
    for at, steady in (("20", False), ("3", True)):
        moving.locator("#scrub").fill(at)
        for still in ("tilted-card", "apparent-vertical"):
            expect(moving.locator(f"[data-still={still}]")).to_be_visible(visible=steady)
        expect(moving.locator("[data-unsteady]")).to_be_visible(visible=not steady)
        assert (moving.locator("[data-now=settled]").inner_text() == "–") != steady


def test_what_one_fills_in_says_what_is_meant(moving: Page) -> None:
    """Coordinates choose a place of one's own; the bank is asked for only where the rate goes by it."""
    moving.locator("#bench-form summary").click()
    moving.fill("#longitude_deg", "12")
    assert moving.input_value("#place_id") == "typed"
    moving.fill("#dip_deg", "60")
    assert moving.input_value("#place_id") == "dip"
    expect(moving.locator("#bank_deg")).to_be_hidden()
    moving.select_option("#rate", "bank")
    expect(moving.locator("#bank_deg")).to_be_visible()


def test_on_a_phone_the_flight_comes_first(open_page: Opener) -> None:
    page = open_page(NARROW)
    page.goto(f"{TURN}&at=10")
    page.wait_for_selector("#player[data-ready]")
    expect(page.locator("#bench-form")).to_be_hidden()
    box = page.locator("[data-do=on]").bounding_box()
    assert box
    assert box["y"] < 800
    page.locator("#asked > summary").click()
    expect(page.locator("#bench-form")).to_be_visible()
    page.goto(f"{TURN}&at=900")
    expect(page.locator("#at")).to_be_visible()


def dots(page: Page) -> list[list[float]]:
    """Return where the two dots of the moment, each on its halo, stand on the wide plot."""
    found = page.locator(".plot .wide svg > g circle").all()
    return [[float(dot.get_attribute(name) or 0) for name in ("cx", "cy")] for dot in found]


def test_the_moment_on_the_plot_stays_where_the_server_drew_it(open_page: Opener, moving: Page) -> None:
    """What JavaScript draws at the server's moment is what the server drew: one frame, one track."""
    drawn = dots(moving)
    plain = open_page(View(script=False))
    plain.goto(moving.url)
    served = dots(plain)
    assert len(served) == 4
    for here, there in zip(drawn, served, strict=True):
        assert here == pytest.approx(there, abs=4)


def test_calm_motion_has_no_play(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto(TURN)
    page.wait_for_selector("#player[data-ready]")
    expect(page.locator("[data-do=play]")).to_be_hidden()
    expect(page.locator("#scrub")).to_be_visible()
    page.click("[data-do=on]")
    assert "at=" in page.url


def test_without_javascript_form_stills_and_plot(open_page: Opener) -> None:
    page = open_page(NO_SCRIPT)
    page.goto(TURN)
    expect(page.locator(".controls")).to_be_hidden()
    page.fill("#at", "35.5")
    with page.expect_navigation():
        page.click("#bench-form button.button")
    assert page.locator("[data-now=reading]").inner_text() == "325"
    expect(page.locator(".stills svg")).to_have_count(6)
    expect(page.locator(".plot .narrow svg")).to_be_visible()
    assert_fits(page)


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
@pytest.mark.parametrize(
    "path",
    [
        TURN,
        "/bench?doing=speed&start_deg=90",
        "/bench/compare",
        "/bench/years",
        "/bench?start_deg=x",
        "/bench?view=projector",
    ],
)
def test_axe_finds_nothing_and_nothing_stands_out(open_page: Opener, axe: Axe, view: View, path: str) -> None:
    page = open_page(view)
    page.goto(path)
    if view.script:
        assert not axe.faults(page)
    assert_fits(page)
