"""How pages stand other ways of looking: forced colours, print, zoom, touch."""

import re

import pytest
from playwright.sync_api import Page

from app.services.actor import Role
from tests.browser.classroom import signed_in
from tests.browser.practising import answer, assert_fits, follow, start_drill
from tests.browser.windows import WIDE, Opener, View
from tests.web.members import OneSchool

TOUCH_PX = 44
PATHS = (
    "/",
    "/topics",
    "/topics/reading",
    "/today",
    "/readiness",
    "/home",
    "/about",
    "/keys",
    "/reference",
    "/syllabus",
    "/bench",
    "/bench/deviation",
)
PRESSED = (
    "header nav a, header nav button, .name, .place-line a, main .button, main .plain-button, .actions a, "
    ".bench-links a, .option, .tick, summary, select, input[type=text], .footer a"
)


@pytest.mark.parametrize("path", PATHS)
def test_zoom_of_200_percent(open_page: Opener, path: str) -> None:
    """A window of 1280 pixels at 200 % shows 640 of the page's."""
    page = open_page(View(width=640))
    page.goto(path)
    assert_fits(page)


@pytest.mark.parametrize("path", PATHS)
def test_what_one_presses_is_large_enough(open_page: Opener, path: str) -> None:
    page = open_page(View(width=320))
    page.goto(path)
    small = [
        each.inner_text() for each in page.locator(PRESSED).all() if each.is_visible() and height(page, each) < TOUCH_PX
    ]
    assert not small


def height(page: Page, each: object) -> float:
    return float(page.evaluate("(element) => element.getBoundingClientRect().height", each.element_handle()))  # type: ignore[attr-defined]


def test_on_a_phone_the_ways_begin_in_the_line_of_the_name(open_page: Opener) -> None:
    page = open_page(View(width=320))
    page.goto("/")
    name, way = (page.locator(each).first.bounding_box() for each in (".name", "header nav a"))
    assert name
    assert way
    assert (way["y"], way["height"]) == (name["y"], name["height"])


def test_print_leaves_out_what_only_a_screen_needs(open_page: Opener) -> None:
    page = open_page(View(alone=True))
    start_drill(page, "datum", "true-to-compass")
    answer(page)
    page.goto(str(page.locator("a.next").get_attribute("href")).partition("/questions")[0] + "/summary")
    assert page.locator("button.print").is_visible()
    page.emulate_media(media="print")
    assert not page.locator("header nav").is_visible()
    assert not page.locator(".actions").first.is_visible()
    assert page.evaluate("getComputedStyle(document.documentElement).color") == "rgb(0, 0, 0)"
    assert page.evaluate("getComputedStyle(document.documentElement).backgroundColor") == "rgb(255, 255, 255)"


def test_a_printed_verdict_follows_its_question_and_has_its_folds_open(open_page: Opener) -> None:
    page = open_page(View(alone=True))
    start_drill(page, "datum", "true-to-compass")
    answer(page)
    assert not page.locator(".sources").is_visible()
    page.emulate_media(media="print")
    assert page.locator(".sources").is_visible()
    assert page.evaluate("getComputedStyle(document.querySelector('.verdict')).breakInside") == "auto"


def test_paper_says_whose_page_it_is_and_of_when(open_page: Opener, school: OneSchool) -> None:
    page = signed_in(open_page, school, school.add(Role.STUDENT, "Alice"), View(alone=True))
    page.goto("/record")
    line = page.locator(".printed")
    assert not line.is_visible()
    page.emulate_media(media="print")
    assert line.is_visible()
    assert re.fullmatch(r"Alice, \d{1,2} \w{3} \d{4} \d\d:\d\d", line.inner_text())


def test_print_button_needs_script(open_page: Opener) -> None:
    page = open_page(View(script=False))
    start_drill(page, "datum", "true-to-compass")
    answer(page)
    follow(page, "a.next")
    page.goto(page.url.partition("/questions")[0] + "/summary")
    assert not page.locator("button.print").is_visible()


def test_forced_colours_give_radios_back_to_the_system(open_page: Opener) -> None:
    page = open_page(View(alone=True))
    page.emulate_media(forced_colors="active")
    page.goto("/")
    assert page.evaluate("getComputedStyle(document.querySelector('.option input')).appearance") == "auto"
    button = page.evaluate(
        "(({color, backgroundColor}) => [color, backgroundColor])(getComputedStyle(document.querySelector('.button')))"
    )
    assert button[0] != button[1]


def test_dark_is_the_browsers_wish(open_page: Opener) -> None:
    page = open_page(View(scheme="dark"))
    page.goto("/")
    assert page.evaluate("getComputedStyle(document.documentElement).backgroundColor") == "rgb(17, 22, 28)"


def test_fonts_are_ours(open_page: Opener) -> None:
    page = open_page(WIDE)
    page.goto("/")
    assert page.evaluate("document.fonts.ready.then(() => [...document.fonts].map((font) => font.status))") == [
        "loaded",
        "loaded",
    ]
