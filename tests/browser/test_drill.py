"""A drill of ten: wide, on a phone of 320 pixels in the dark in French, and without JavaScript."""

import re
from dataclasses import replace

import pytest
from playwright.sync_api import Page, expect

from tests.browser.practising import answer, assert_fits, fill_in, follow, go_on, start_drill
from tests.browser.windows import NARROW, NO_SCRIPT, WIDE, Opener, View

LENGTH = 10


@pytest.mark.parametrize("view", [WIDE, NARROW, NO_SCRIPT], ids=["wide", "narrow-dark-french", "no-script"])
def test_drill_of_ten_from_the_first_page(open_page: Opener, view: View) -> None:
    page = open_page(view)
    page.goto("/")
    for position in range(1, LENGTH + 1):
        assert_fits(page)
        answer(page)
        assert_fits(page)
        expect(page.locator(".progress")).to_contain_text(str(position))
        go_on(page)
    assert page.url.endswith("/summary")
    assert_fits(page)


def test_a_verdict_can_be_loaded_again(open_page: Opener) -> None:
    page = open_page(WIDE)
    start_drill(page, "datum")
    answer(page)
    expect(page).to_have_url(re.compile("/items/"))
    headline = page.locator("#verdict-title").inner_text()
    page.reload()
    assert page.locator("#verdict-title").inner_text() == headline
    assert not page.locator("#verdict[data-address]").count()
    page.go_back()
    assert page.locator("h1").count()


def test_focus_goes_to_the_verdict(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto("/")
    answer(page)
    assert page.evaluate("document.activeElement.id") == "verdict"
    assert page.evaluate("document.querySelector('#verdict').getBoundingClientRect().top") < 800


def test_looking_back_begins_with_the_question(open_page: Opener) -> None:
    page = open_page(View(width=390))
    start_drill(page, "datum", "true-to-compass")
    answer(page)
    page.goto(page.url.partition("#")[0])
    expect(page.locator("#verdict")).not_to_be_focused()
    assert page.evaluate("scrollY") == 0


def test_focus_goes_to_what_is_wrong(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto("/")
    follow(page, "#answer button.button")
    expect(page.locator("#refusal")).to_be_focused()


PLACES = """[...document.querySelectorAll('main *')].map((each) => {
    const {x, y, width, height} = each.getBoundingClientRect();
    return [x, y, width, height].join();
})"""


def test_nothing_moves_under_the_pointer(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto("/")
    before = page.evaluate(PLACES)
    page.locator(".option").nth(1).hover()
    assert page.evaluate(PLACES) == before
    page.locator(".option").nth(1).click()
    assert page.evaluate(PLACES) == before


@pytest.mark.parametrize("script", [True, False])
def test_language_switch_keeps_the_question(open_page: Opener, script: bool) -> None:  # noqa: FBT001
    page = open_page(View(script=script))
    start_drill(page, "datum", "true-to-compass")
    stamp = page.locator("input[name=stamp]").get_attribute("value")
    fill_in(page)
    given = given_answer(page)
    page.get_by_role("button", name="Français").click()
    expect(page.locator("html")).to_have_attribute("lang", "fr")
    assert page.locator("input[name=stamp]").get_attribute("value") == stamp
    if script:
        assert given_answer(page) == given


def given_answer(page: Page) -> list[str]:
    return [
        str(field.get_attribute("value")) if field.get_attribute("type") == "radio" else field.input_value()
        for field in page.locator("#answer input:checked, #answer input[type=text]").all()
    ]


def test_half_given_answer_is_not_put_into_another_question(open_page: Opener) -> None:
    page = open_page(WIDE)
    start_drill(page, "datum", "true-to-compass")
    fill_in(page)
    start_drill(page, "datum", "true-to-compass")
    assert not [text for text in given_answer(page) if text]


def test_what_is_left_of_a_drill_by_minutes_runs_down_and_is_said(open_page: Opener) -> None:
    page = open_page(replace(NARROW, alone=True))
    page.clock.install()
    page.goto("/today")
    page.locator("input[value='minutes 10']").first.check()
    follow(page, "form[action='/today'] button")
    left = page.locator(".time-left")
    expect(left).to_contain_text(re.compile(r"10:00|9:5\d"))
    said = page.locator(".clock [role=status]")
    expect(said).to_be_empty()
    page.clock.run_for(5 * 60_000)
    expect(left).to_contain_text(re.compile(r"5:00|4:5\d"))
    expect(said).to_have_text("Il reste cinq minutes.")
    page.clock.run_for(6 * 60_000)
    expect(left).to_contain_text("0:00")
    expect(said).to_have_text("Il reste une minute.")
    expect(page.locator("#answer")).to_be_visible()
    assert_fits(page)
