"""axe-core (its rules of WCAG 2.2 A and AA and of best practice) finds nothing on any page, in either language."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from app.services.actor import Role
from app.services.quality_count import count_school
from app.services.withdrawals import withdraw
from app.storage.base import table_of
from app.storage.models import Attempt, MeasuredDifficulty
from app.storage.queries.measured import replace_measured
from tests.browser.classroom import assign_to_class, build_set, classroom, compare_two, signed_in
from tests.browser.conftest import Axe
from tests.browser.practising import answer, assert_fits, fill_in, follow, start_drill
from tests.browser.windows import NARROW, WIDE, Opener, View
from tests.fakes import START
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, sign_up
from tests.services.tallied import tally
from tests.services.test_quality import practise
from tests.web.members import OneSchool
from tests.web.own.reckoned import as_sent
from tests.web.own.written import WRITTEN

PLAIN_PAGES = (
    "/",
    "/topics",
    "/topics/reading",
    "/today",
    "/record",
    "/rehearsals",
    "/readiness",
    "/home",
    "/sign-in",
    "/first-sign-in",
    "/join",
    "/invited/nobody",
    "/about",
    "/keys",
    "/reference",
    "/syllabus",
    "/bench/deviation",
    "/nowhere",
)
# One family for each answer form and each kind of figure.
FAMILIES = {
    "choice": ("dynamic", "what-caused-the-swing"),
    "typed heading": ("reading", "mean-of-swing"),
    "sided number": ("datum", "find-variation-deviation"),
    "correction card": ("reading", "card-two-states"),
    "rule beside model": ("dynamic", "rollout-north-south"),
    "order": ("dynamic", "dip-compare-size"),
    "several": ("principle", "swing-required-when"),
    "groups": ("principle", "error-source-sort"),
    "match": ("datum", "term-match"),
    "boxes": ("principle", "preflight-compass-check"),
}
VIEWS = {"wide": WIDE, "narrow-dark-french": NARROW}


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
@pytest.mark.parametrize("path", PLAIN_PAGES)
def test_plain_pages(open_page: Opener, axe: Axe, path: str, view: View) -> None:
    page = open_page(view)
    page.goto(path)
    assert not axe.faults(page)


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
@pytest.mark.parametrize("family", FAMILIES.values(), ids=FAMILIES)
def test_questions_and_verdicts(open_page: Opener, axe: Axe, family: tuple[str, str], view: View) -> None:
    page = open_page(view)
    start_drill(page, *family)
    assert not axe.faults(page)
    answer(page)
    for fold in page.locator("details").all():
        fold.locator("summary").click()
    assert not axe.faults(page)


def refused_answer(page: Page) -> None:
    follow(page, "#answer button.button")
    expect(page.locator("#refusal")).to_be_visible()


def report(page: Page) -> None:
    follow(page, "#answer a[href$='/report']")
    follow(page, "main form button.button")


def summary(page: Page) -> None:
    answer(page)
    page.goto(str(page.locator("a.next").get_attribute("href")).partition("/questions")[0] + "/summary")


def expired_form(page: Page) -> None:
    fill_in(page)
    page.context.clear_cookies()
    follow(page, "#answer button.button")


def refused_home(page: Page) -> None:
    page.goto("/home")
    page.locator("#latitude_deg").fill("north")
    follow(page, "main form button.button")


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
@pytest.mark.parametrize("reach", [refused_answer, report, summary, expired_form, refused_home])
def test_pages_on_the_way(open_page: Opener, axe: Axe, reach: Callable[[Page], None], view: View) -> None:
    page = open_page(view)
    start_drill(page, "dynamic", "what-caused-the-swing")
    reach(page)
    assert not axe.faults(page)


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
def test_topic_sets(open_page: Opener, axe: Axe, school: OneSchool, view: View) -> None:
    teacher, student = classroom(open_page, school, view)
    address = build_set(teacher, "datum", count=4)
    assignment = assign_to_class(teacher, address)
    paths = ("", "/settings", "/assign", "/sheet?versions=2", "/key")
    for path in ("/topic-sets", "/topic-sets/new", assignment, *(address + path for path in paths)):
        teacher.goto(path)
        for fold in teacher.locator("details").all():
            fold.evaluate("each => { each.open = true }")
        assert not axe.faults(teacher)
        assert_fits(teacher)
    student.goto("/sets")
    assert not axe.faults(student)
    follow(student, "main form button.button")
    assert not axe.faults(student)
    fill_in(student)
    follow(student, "#answer button.button")
    follow(student, ".stem .notice a")
    assert not axe.faults(student)
    assert_fits(student)


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
def test_own_questions(open_page: Opener, axe: Axe, school: OneSchool, view: View) -> None:
    ingrid, selma = (school.add(role, role.title(), view.language) for role in (Role.INSTRUCTOR, Role.SCHOOL))
    writer, reader = (signed_in(open_page, school, each, view) for each in (ingrid, selma))

    def check(page: Page) -> None:
        for fold in page.locator("details").all():
            fold.evaluate("each => { each.open = true }")
        assert not axe.faults(page)
        assert_fits(page)

    writer.goto("/own-questions")
    check(writer)
    follow(writer, "main a.button")
    for fields in (as_sent(), WRITTEN):
        writer.goto("/own-questions/new" + ("?answer=number" if "answer.formula" in fields else ""))
        check(writer)
        follow(writer, "main form button.button")
        check(writer)
        for name, text in fields.items():
            field = writer.locator(f"[name='{name}']")
            field.select_option(text) if field.locator("option").count() else field.fill(text)
        follow(writer, "main form button.button")
        check(writer)
    reader.goto(writer.url)
    check(reader)
    follow(reader, "main form button.button >> nth=0")
    check(reader)
    reader.goto("/own-questions")
    check(reader)


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
def test_classes_side_by_side(open_page: Opener, axe: Axe, school: OneSchool, view: View) -> None:
    page = compare_two(open_page, school, view)
    assert not axe.faults(page)
    assert_fits(page)
    page.uncheck("input[name=class] >> nth=0")
    follow(page, "main form[method=get] button.button")
    assert not axe.faults(page)
    assert_fits(page)


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
def test_question_quality(open_page: Opener, axe: Axe, school: OneSchool, view: View) -> None:
    selma, alice = (school.add(role, role.title(), view.language) for role in (Role.SCHOOL, Role.STUDENT))
    tally(school.backend.uow, school.id, [alice.visit_id], "true-to-compass", (40, 8), START)
    count_school(school.backend.uow, library(), school.id, START)
    found = {"plain": -0.3, "weights": {}}
    with school.backend.uow.writer() as connection:
        replace_measured(
            connection, school.id, [MeasuredDifficulty(school.id, "true-to-compass", found, 0.2, 40, 1, START)]
        )
    page = signed_in(open_page, school, selma, view)
    for path in ("/school/quality", "/school/quality/true-to-compass", "/school/reports"):
        page.goto(path)
        assert not axe.faults(page)
        assert_fits(page)


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
def test_past_answers(open_page: Opener, axe: Axe, school: OneSchool, view: View) -> None:
    uow, family = school.backend.uow, CONVERSIONS[0]
    alice, selma = sign_up(uow, school.id, Role.STUDENT, "Alice"), sign_up(uow, school.id, Role.SCHOOL, "Sam")
    practise(uow, alice, "+-+-+-", (family,))
    attempt = table_of(Attempt)
    with uow.writer() as connection:
        connection.execute(attempt.update().where(attempt.c.school_id == school.id).values(correct=False, share=0.0))
    withdraw(uow, selma, library(), family, "The key is wrong.", START)
    page = signed_in(open_page, school, school.add(Role.SCHOOL, "Selma", view.language), view)
    for deed in ("marked", "set-aside"):
        page.goto(f"/school/quality/{family}/past-answers?version=&deed={deed}")
        assert page.locator("form[method=post] button.button").last.is_visible()
        assert not axe.faults(page)
        assert_fits(page)


def test_order_of_a_screen_reader(open_page: Opener) -> None:
    """Where I am, what is asked, the figure, the options, the button: by the accessibility tree."""
    page = open_page(WIDE)
    start_drill(page, "dynamic", "what-caused-the-swing")
    tree = page.locator("main").aria_snapshot()
    places = [tree.index(part) for part in ("Question 1 of 10", "heading", "figure", "radio", 'button "Answer"')]
    assert places == sorted(places)
    answer(page)
    tree = page.locator("main").aria_snapshot()
    assert tree.index("heading") < tree.index("region") < tree.index('link "Next question"')
