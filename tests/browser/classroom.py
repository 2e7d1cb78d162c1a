"""An instructor and a student of a class in their browsers, and what they do with topic sets."""

from playwright.sync_api import Page

from app.services.actor import Role
from tests.browser.conftest import Opener, View
from tests.browser.practising import follow
from tests.web.members import PASSWORD, OneSchool


def classroom(open_page: Opener, school: OneSchool, view: View) -> tuple[Page, Page]:
    """Sign in Ingrid and Alice, whom she teaches; return their pages."""
    ingrid = school.add(Role.INSTRUCTOR, "Ingrid", view.language)
    alice = school.add(Role.STUDENT, "Alice", view.language)
    school.add_class("Evening", ingrid, alice)
    pages = []
    for person in (ingrid, alice):
        page = open_page(view)
        page.goto("/sign-in")
        for name, value in (("school", school.code), ("login", person.login), ("password", PASSWORD)):
            page.fill(f"#{name}", value)
        follow(page, "main form button.button")
        pages.append(page)
    return pages[0], pages[1]


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
