"""A topic set in real browsers: the instructor builds, swaps and assigns, the student sits, the instructor sees."""

from datetime import timedelta
from time import monotonic

import pytest
from playwright.sync_api import Page, expect

from tests.browser.classroom import assign_to_class, build_set, classroom
from tests.browser.practising import fill_in, follow
from tests.browser.windows import NO_SCRIPT, WIDE, Opener, View
from tests.web.members import OneSchool

TWO_MINUTES = timedelta(minutes=2).total_seconds()


@pytest.mark.parametrize("view", [WIDE, NO_SCRIPT], ids=["wide", "phone-no-script"])
def test_from_the_lesson_to_the_results(open_page: Opener, school: OneSchool, view: View) -> None:
    teacher, student = classroom(open_page, school, view)
    began = monotonic()
    address = build_set(teacher, "datum", count=10)
    assert monotonic() - began < TWO_MINUTES
    expect(teacher.locator(".set-items > li")).to_have_count(10)
    before = items_of(teacher)
    follow(teacher, "#item-4 form button")
    assert [a == b for a, b in zip(before, items_of(teacher), strict=True)] == [True] * 3 + [False] + [True] * 6
    assignment = assign_to_class(teacher, address)
    sit(student, count=10)
    expect(student.locator("h1")).to_contain_text("of 10 right")
    teacher.goto(assignment)
    expect(teacher.locator("tr", has_text="Alice")).to_contain_text("done")
    expect(teacher.locator("tr", has_text="Alice")).to_contain_text("10/10")


def items_of(page: Page) -> list[str]:
    """Return each question's text; the swap buttons are the same on all."""
    return [each.inner_text() for each in page.locator(".set-items > li").all()]


def sit(page: Page, count: int) -> None:
    page.goto("/sets")
    follow(page, "main form button.button")
    for _ in range(count):
        fill_in(page)
        follow(page, "#answer button.button")
        assert not page.locator("#verdict").count(), "verdicts wait for the end"


def test_sheet_prints_black_on_white_with_its_head_on_every_page(open_page: Opener, school: OneSchool) -> None:
    teacher, _ = classroom(open_page, school, View(scheme="dark", alone=True))
    address = build_set(teacher, "reading", count=6)
    teacher.goto(f"{address}/sheet?versions=2")
    teacher.emulate_media(media="print")
    style = "(selector, name) => getComputedStyle(document.querySelector(selector))[name]"
    looks = {
        (".sheet", "color"): "rgb(0, 0, 0)",
        (".sheet", "backgroundColor"): "rgb(255, 255, 255)",
        (".sheet-head", "display"): "table-header-group",
        (".sheet-head", "breakInside"): "avoid",
        (".sheet-item", "breakInside"): "avoid",
        (".sheet", "breakAfter"): "page",
        ("header", "display"): "none",
        (".not-printed", "display"): "none",
    }
    found = {each: teacher.evaluate(f"([selector, name]) => ({style})(selector, name)", list(each)) for each in looks}
    assert found == looks


def test_on_paper_a_drawing_stands_beside_its_question(open_page: Opener, school: OneSchool) -> None:
    """Most sets of ten fill two pages so, not three; at 50 mm every letter of a figure is legible."""
    teacher, _ = classroom(open_page, school, View(alone=True))
    teacher.goto("/topic-sets/new")
    teacher.locator("details:has([name=fixed]) > summary").click()
    teacher.fill("[name=fixed]", "read-compass-face\ncard-for-steer")
    teacher.fill("#count", "2")
    follow(teacher, "main form button.button")
    teacher.goto(f"{teacher.url.partition('?')[0]}/sheet")
    teacher.emulate_media(media="print")
    for item in teacher.locator(".sheet-item").all():
        text, drawing = item.locator("p").first.bounding_box(), item.locator(".figure").first.bounding_box()
        assert text is not None
        assert drawing is not None
        assert drawing["x"] >= text["x"] + text["width"]
        assert abs(drawing["y"] - text["y"]) < 8
        assert drawing["width"] >= 50 / 25.4 * 96
