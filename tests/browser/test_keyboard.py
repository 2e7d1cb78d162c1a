"""Every journey by keyboard alone."""

import pytest
from playwright.sync_api import Page, expect

from app.services.actor import Role
from tests.browser.classroom import signed_in
from tests.browser.practising import follow, start_drill
from tests.browser.windows import NARROW, NO_SCRIPT, WIDE, Opener, View
from tests.web.members import OneSchool

MOST_TABS = 60


def tab_to(page: Page, selector: str) -> None:
    for _ in range(MOST_TABS):
        page.keyboard.press("Tab")
        if page.evaluate("(selector) => document.activeElement.matches(selector)", selector):
            return
    raise AssertionError(f"Tab does not lead to {selector}")


def enter(page: Page) -> None:
    """Press Enter on what leads to another page, and wait for that page."""
    with page.expect_navigation():
        page.keyboard.press("Enter")


def test_digits_choose_and_enter_answers_and_goes_on(open_page: Opener) -> None:
    page = open_page(WIDE)
    start_drill(page, "dynamic", "what-caused-the-swing")
    for position in (1, 2, 3):
        expect(page).to_have_title(
            f"Question {position} of 10: {page.locator('h1').inner_text()} · Lubberline".replace("\n", " ")
        )
        page.keyboard.press("2")
        expect(page.locator("input[name=choice]").nth(1)).to_be_checked()
        enter(page)
        expect(page.locator("#verdict")).to_be_focused()
        enter(page)
        expect(page.locator("#verdict")).to_have_count(0)


def test_digits_typed_in_a_box_are_digits(open_page: Opener) -> None:
    page = open_page(WIDE)
    start_drill(page, "reading", "mean-of-swing")
    tab_to(page, "#value")
    page.keyboard.type("45")
    page.keyboard.press("Tab")
    expect(page.locator("#value")).to_have_value("045")
    page.locator("#value").press("Enter")
    expect(page.locator("#verdict")).to_be_focused()


def test_arrows_turn_a_heading_and_pass_through_north(open_page: Opener) -> None:
    page = open_page(WIDE)
    start_drill(page, "reading", "mean-of-swing")
    box = page.locator("#value")
    for key, heading in (("ArrowUp", "001"), ("ArrowDown", "360"), ("Shift+ArrowDown", "350"), ("ArrowUp", "351")):
        box.press(key)
        expect(box).to_have_value(heading)
    box.fill("north")
    box.press("ArrowUp")
    expect(box).to_have_value("north")


def test_question_mark_lists_the_keys_and_leads_back_to_the_half_given_answer(open_page: Opener) -> None:
    page = open_page(WIDE)
    start_drill(page, "dynamic", "what-caused-the-swing")
    page.keyboard.press("3")
    page.keyboard.press("?")
    expect(page.locator("h1")).to_have_text("Keys")
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_have_text("Keys")  # nothing to go on to: only the link leads back
    tab_to(page, "a.back")
    enter(page)
    expect(page.locator("input[name=choice]").nth(2)).to_be_checked()


def test_question_mark_in_a_report_is_text(open_page: Opener) -> None:
    page = open_page(WIDE)
    start_drill(page, "dynamic", "what-caused-the-swing")
    page.get_by_role("link", name="Report a problem").click()
    page.locator("#text").press_sequentially("Why 3?")
    expect(page.locator("#text")).to_have_value("Why 3?")


def test_whole_way_by_tab(open_page: Opener) -> None:
    """From the first page over topics, a drill and its report to another home place, never touching a mouse."""
    page = open_page(WIDE)
    page.goto("/")
    page.keyboard.press("Tab")
    expect(page.locator(".skip")).to_be_focused()
    tab_to(page, "header nav a[href='/topics']")
    enter(page)
    tab_to(page, "main form button.button")
    enter(page)
    expect(page.locator(".progress")).to_contain_text("Question 1 of 10")
    tab_to(page, "#answer a[href$='/report']")
    enter(page)
    tab_to(page, "textarea")
    page.keyboard.type("A sentence.")
    tab_to(page, "main form button.button")
    enter(page)
    expect(page.get_by_role("status")).to_contain_text("Your report is kept")
    tab_to(page, ".place-line a[href='/home']")
    enter(page)
    tab_to(page, "#latitude_deg")
    page.keyboard.type("-43.5")
    expect(page.locator("input[value=typed]")).to_be_checked()
    tab_to(page, "#longitude_deg")
    page.keyboard.type("172.3")
    enter(page)
    expect(page.get_by_role("status")).to_contain_text("Kept.")


def test_focus_is_seen(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto("/")
    tab_to(page, "#answer input")
    style = page.evaluate(
        "(({outlineStyle, outlineWidth}) => [outlineStyle, outlineWidth])(getComputedStyle(document.activeElement))"
    )
    assert style == ["solid", "3px"]


def test_start_of_a_long_form_stays_in_sight_and_hides_no_box(open_page: Opener) -> None:
    page = open_page(View(width=320))
    page.goto("/topics/track")
    page.locator("input[name=family]").first.focus()
    for _ in range(8):
        page.keyboard.press("Tab")
        bar = page.locator(".stays").bounding_box()
        box = page.locator("input[name=family]:focus").bounding_box()
        assert bar
        assert box
        assert bar["y"] + bar["height"] <= 800 + 1
        assert box["y"] + box["height"] <= bar["y"]


@pytest.mark.parametrize("view", [NARROW, NO_SCRIPT], ids=["narrow", "no-script"])
def test_what_was_not_accepted_is_gone_to_however_far_down_the_page(
    open_page: Opener, school: OneSchool, view: View
) -> None:
    page = signed_in(open_page, school, school.add(Role.SCHOOL, "Selma", view.language), view)
    page.goto("/school/settings")
    page.fill("#section_percent", "30")
    follow(page, "form:has(#section_percent) button.button")
    expect(page.locator(".refusal")).to_be_focused()
    expect(page.locator(".refusal")).to_be_in_viewport()
    page.keyboard.press("Tab")
    expect(page.locator("#section_percent")).to_be_focused()
    expect(page.locator("#section_percent")).to_have_value("30")
