"""An instructor and a student of a class in their browsers, and what they do with topic sets."""

from playwright.sync_api import Page

from app.services.actor import Role
from app.storage.models import Person
from tests.browser.practising import follow
from tests.browser.windows import Opener, View
from tests.fakes import START
from tests.services.tallied import tally
from tests.web.members import PASSWORD, OneSchool


def classroom(open_page: Opener, school: OneSchool, view: View) -> tuple[Page, Page]:
    """Sign in Ingrid and Alice, whom she teaches; return their pages."""
    ingrid = school.add(Role.INSTRUCTOR, "Ingrid", view.language)
    alice = school.add(Role.STUDENT, "Alice", view.language)
    school.add_class("Evening", ingrid, alice)
    return signed_in(open_page, school, ingrid, view), signed_in(open_page, school, alice, view)


def signed_in(open_page: Opener, school: OneSchool, person: Person, view: View) -> Page:
    """Sign somebody in and return their page."""
    page = open_page(view)
    page.goto("/sign-in")
    for name, value in (("school", school.code), ("login", person.login), ("password", PASSWORD)):
        page.fill(f"#{name}", value)
    follow(page, "main form button.button")
    return page


def compare_two(open_page: Opener, school: OneSchool, view: View) -> Page:
    """Put a class of five who answered and an empty one side by side, as the school's administrator."""
    ingrid, selma = school.add(Role.INSTRUCTOR, "Ingrid"), school.add(Role.SCHOOL, "Selma", view.language)
    pupils = [school.add(Role.STUDENT, f"Pupil{number}") for number in range(5)]
    tally(school.backend.uow, school.id, [each.visit_id for each in pupils], "true-to-compass", (10, 8), START)
    school.add_class("Day", ingrid, *pupils)
    school.add_class("Night", ingrid)
    page = signed_in(open_page, school, selma, view)
    page.goto("/school/cohorts")
    for box in page.locator("input[name=class]").all():
        box.check()
    follow(page, "main form button.button")
    return page


def build_set(page: Page, topic: str, count: int) -> str:
    """Make a set of a topic with the form's defaults; return its address."""
    page.goto("/topic-sets/new")
    page.check(f"input[name=topics][value={topic}]")
    page.fill("#count", str(count))
    follow(page, "main form button.button")
    return page.url.partition("?")[0].removeprefix(page.url.partition("/topic-sets")[0])


def assign_to_class(page: Page, address: str) -> str:
    """Assign a set to the one class there is; return the assignment's address."""
    page.goto(f"{address}/assign")
    page.check("input[name=class]")
    follow(page, "main form button.button")
    return page.url.removeprefix(page.url.partition("/assignments")[0])
