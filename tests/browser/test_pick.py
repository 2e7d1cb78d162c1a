"""A question answered on its drawing: by pointer, by digit, with the arrows, on a phone, and without JavaScript."""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Axe
from tests.browser.practising import follow, start_drill
from tests.browser.windows import NARROW, NO_SCRIPT, WIDE, Opener, View


def pick_question(page: Page) -> Page:
    start_drill(page, "track", "position-line-fix")
    return page


def test_a_press_on_a_ring_chooses_its_option(open_page: Opener) -> None:
    page = pick_question(open_page(WIDE))
    expect(page.locator("#pick-hint")).to_be_visible()
    page.locator("[data-pick='3']").click()
    expect(page.locator("input[name=choice]").nth(2)).to_be_checked()
    expect(page.locator("[data-pick='3']")).to_have_class(re.compile("picked"))
    page.locator("[data-pick='1']").click()
    expect(page.locator("input[name=choice]").nth(0)).to_be_checked()
    expect(page.locator(".picked")).to_have_count(1)
    follow(page, "#answer button.button")
    expect(page.locator("#verdict")).to_be_focused()
    expect(page.locator(".pickable")).to_have_count(0)


def test_keys_choose_and_the_drawing_shows_it(open_page: Opener) -> None:
    page = pick_question(open_page(WIDE))
    page.keyboard.press("4")
    expect(page.locator("[data-pick='4']")).to_have_class(re.compile("picked"))
    page.keyboard.press("ArrowDown")
    expect(page.locator("input[name=choice]").nth(4)).to_be_checked()
    expect(page.locator("[data-pick='5']")).to_have_class(re.compile("picked"))
    expect(page.locator(".picked")).to_have_count(1)


def test_on_a_phone_each_ring_is_large_enough_to_touch(open_page: Opener) -> None:
    """24 CSS pixels at least: WCAG 2.2, 2.5.8."""
    page = pick_question(open_page(View(width=320)))
    for ring in page.locator("[data-pick]").all():
        box = ring.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= 24


def test_without_javascript_the_options_do(open_page: Opener) -> None:
    page = pick_question(open_page(NO_SCRIPT))
    expect(page.locator("#pick-hint")).to_be_hidden()
    expect(page.locator("[data-pick]")).to_have_count(5)
    page.locator("input[name=choice]").nth(1).check()
    follow(page, "#answer button.button")
    expect(page.locator("#verdict")).to_be_visible()


@pytest.mark.parametrize("view", [WIDE, NARROW], ids=["wide", "narrow"])
def test_nothing_to_find_for_axe(open_page: Opener, axe: Axe, view: View) -> None:
    assert axe.faults(pick_question(open_page(view))) == []
