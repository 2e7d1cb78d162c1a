"""From a weak spot to a set and back, on a phone in French: a set of a row, the student answers, before and after."""

from playwright.sync_api import Page, expect

from app.services.actor import Role
from tests.browser.classroom import signed_in
from tests.browser.conftest import Axe
from tests.browser.practising import assert_fits, fill_in, follow
from tests.browser.windows import NARROW, Opener
from tests.fakes import START
from tests.questions.engine import library
from tests.services.tallied import tally
from tests.web.members import OneSchool

PAPER_PX = 700  # A4 between margins of a centimetre and a half
FAMILY, COUNT = "true-to-compass", 2


def test_from_a_weak_spot_to_before_and_after(open_page: Opener, axe: Axe, school: OneSchool) -> None:
    ingrid, alice = (
        school.add(*who, NARROW.language) for who in ((Role.INSTRUCTOR, "Ingrid"), (Role.STUDENT, "Alice"))
    )
    spots = f"/classes/{school.add_class('Evening', ingrid, alice)}/weak-spots"
    tally(school.backend.uow, school.id, [alice.visit_id], FAMILY, (6, 1), START)
    for pack in library().packs.values():  # a column for every topic
        tally(school.backend.uow, school.id, [alice.visit_id], pack.families[-1], (6, 6), START)
    teacher = signed_in(open_page, school, ingrid, NARROW)
    look(teacher, axe, spots)
    rows_are_blocks(teacher)
    teacher.set_viewport_size({"width": PAPER_PX, "height": 800})
    row_heads_stay(teacher)
    teacher.emulate_media(media="print")
    assert_fits(teacher)
    teacher.emulate_media(media="screen")
    teacher.set_viewport_size({"width": 320, "height": 800})
    what_matters_comes_first(teacher)
    expect(teacher.locator("nav.actions a[aria-current]")).to_have_css("font-weight", "700")
    follow(teacher, f"td a[href*='rechecks/new?family={FAMILY}']")
    assert not axe.faults(teacher)
    assert_fits(teacher)
    teacher.select_option("#count", str(COUNT))
    follow(teacher, "main form button.button")
    set_page = teacher.url
    follow(teacher, "a.button[href*='/assign']")
    expect(teacher.locator("input[name=person]")).to_be_checked()
    follow(teacher, "main form button.button")
    sit(signed_in(open_page, school, alice, NARROW))
    for address in (set_page, spots):
        look(teacher, axe, address)
        expect(teacher.locator(".before-after tbody tr")).to_have_count(2)
    look(teacher, axe, f"{spots}?projector=1")
    expect(teacher.locator(".before-after tbody tr")).to_have_count(2)
    expect(teacher.locator("main")).not_to_contain_text("Alice")


def look(page: Page, axe: Axe, address: str) -> None:
    page.goto(address)
    assert not axe.faults(page)
    assert_fits(page)


def what_matters_comes_first(page: Page) -> None:
    """On a phone three topics stand there with how many students, the rest is opened by itself, and by the keyboard."""
    topics, kinds = (page.locator(f"section:has(> h2:text-is('{name}'))") for name in ("Thèmes", "Genres de questions"))
    assert page.evaluate("document.documentElement.scrollHeight") < 3 * 800
    for folded, seen in ((True, 3), (False, len(library().packs))):
        rows = topics.locator("tbody tr:visible")
        expect(rows).to_have_count(seen)
        expect(rows.first.locator("td[data-label='Élèves']")).to_have_text("1 peu : prudence")
        topics.locator(".phone-fold summary").press("Enter" if folded else "Space")
    expect(kinds.locator("table")).to_be_hidden()
    kinds.locator(".phone-fold summary").click()
    expect(kinds.locator("table")).to_be_visible()
    page.locator(".phone-fold:has(+ nav) summary").click()


def rows_are_blocks(page: Page) -> None:
    """On a phone what a row is of stands over its values, each behind its heading; it is a table to listeners still."""
    table = page.locator("table.blocks").first
    head, cell = table.locator("tbody th").first, table.locator("tbody td:not(.says-nothing)").first
    above, below = head.bounding_box(), cell.bounding_box()
    assert above
    assert below
    assert above["y"] + above["height"] <= below["y"]
    label = cell.evaluate("each => getComputedStyle(each, '::before').content")
    assert label.strip('" ') in table.locator("thead th").all_inner_texts()
    tree = table.aria_snapshot()
    assert all(part in tree for part in ("table", "columnheader", "rowheader", "cell"))


def row_heads_stay(page: Page) -> None:
    """Whose row it is stays in sight when the cells of a wide table are moved sideways."""
    table = page.locator(".scroller:has(table)").last
    head, cell = table.locator("tbody th").first, table.locator("tbody td").first
    before = head.bounding_box(), cell.bounding_box()
    table.evaluate("element => element.scrollTo(element.scrollWidth, 0)")
    after = head.bounding_box(), cell.bounding_box()
    assert all((*before, *after))
    assert after[0] == before[0]
    assert after[1] != before[1]


def sit(page: Page) -> None:
    page.goto("/sets")
    follow(page, "main form button.button")
    for _ in range(COUNT):
        fill_in(page)
        follow(page, "#answer button.button")
