"""A set on a projector: read from the last row, led by the keys of a presenter, with a countdown."""

from dataclasses import replace

from playwright.sync_api import Page, expect

from app.services.actor import Role
from tests.browser.classroom import signed_in
from tests.browser.conftest import Axe
from tests.browser.practising import assert_fits, follow
from tests.browser.windows import NARROW, Opener
from tests.web.members import OneSchool

READ_AT_EIGHT_METRES_PX = 28
SMALLEST = """() => {
  const px = (node) => {
    const element = node.parentElement, drawn = element.ownerSVGElement;
    const at = drawn && element.getScreenCTM(), scale = at ? Math.hypot(at.c, at.d) : 1;
    return [parseFloat(getComputedStyle(element).fontSize) * scale, node.textContent.trim()];
  };
  const walk = document.createTreeWalker(document.querySelector("main"), NodeFilter.SHOW_TEXT), found = [];
  while (walk.nextNode()) {
    const element = walk.currentNode.parentElement;
    if (!walk.currentNode.textContent.trim() || !element.getClientRects().length) continue;
    if (element.closest("title, desc, [hidden], .hidden-words")) continue;
    found.push(px(walk.currentNode));
  }
  return found.sort((a, b) => a[0] - b[0])[0];
}"""


def test_led_by_a_presenter_and_read_from_the_last_row(open_page: Opener, axe: Axe, school: OneSchool) -> None:
    page = signed_in(open_page, school, school.add(Role.INSTRUCTOR, "Ingrid", "fr"), replace(NARROW, alone=True))
    page.goto("/topic-sets/new")
    page.locator("details:has([name=fixed]) > summary").click()
    page.fill("[name=fixed]", "read-compass-face\ncard-for-steer\ntrue-to-compass")
    follow(page, "main form button.button")
    follow(page, "a[href*='/projector/1']")
    look(page, axe)
    assert_fits(page)
    page.set_viewport_size({"width": 1920, "height": 1080})
    expect(page.locator(".header")).to_be_hidden()
    for position in (1, 2, 3):
        expect(page.locator("[data-key=on]")).to_be_focused()
        assert f"/projector/{position}" in page.url
        look(page, axe)
        page.keyboard.press("PageDown")
        page.wait_for_url("**answer=1**")
        look(page, axe)
        page.keyboard.press("Enter" if position == 1 else "ArrowRight")
        page.wait_for_url(lambda address: "answer=1" not in address)
    expect(page.locator(".set-items")).to_be_visible()


def test_countdown_runs_and_hands_are_typed(open_page: Opener, school: OneSchool) -> None:
    page = signed_in(open_page, school, school.add(Role.INSTRUCTOR, "Ingrid", "fr"), NARROW)
    page.goto("/topic-sets/new")
    follow(page, "main form button.button")
    follow(page, "a[href*='/projector/1']")
    page.locator("[data-seconds='30']").click()
    expect(page.locator("[role=timer]")).to_contain_text("0:")
    expect(page.locator("[data-key=on]")).to_be_focused()
    expect(page.locator(".countdown")).to_be_hidden()


def look(page: Page, axe: Axe) -> None:
    assert not axe.faults(page)
    if (page.viewport_size or {"width": 0})["width"] == 1920:
        smallest, words = page.evaluate(SMALLEST)
        assert smallest >= READ_AT_EIGHT_METRES_PX, words
