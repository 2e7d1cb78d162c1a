"""The school's journey in a browser: a first administrator, an invited instructor, a class, a student with a slip."""

import re

import pytest
from flask import Flask
from playwright.sync_api import Page, expect

from app.services.schools import NewSchool, Slip, create_school
from app.web.current import NAME, utc_now
from tests.browser.conftest import Axe
from tests.browser.practising import follow
from tests.browser.windows import NARROW, NO_SCRIPT, WIDE, Opener, View

VIEWS = {"wide": WIDE, "narrow-dark-french": NARROW, "no-script": NO_SCRIPT}
PASSWORD = "nine geese over the lake"  # noqa: S105 - of nobody
SUBMIT = "main form button.button"


@pytest.fixture
def slip(served: Flask, request: pytest.FixtureRequest) -> Slip:
    """The first administrator's slip of a school that only this test has."""
    code = f"school-{abs(hash(request.node.name)) % 10**9}"
    wanted = NewSchool(code, "Tern River", "en", "America/Toronto", "Selma Ring")
    return create_school(served.extensions[NAME].uow, wanted, "en", utc_now())


def come_in(page: Page, slip: Slip) -> None:
    page.goto(f"/first-sign-in?school={slip.school_code}&login={slip.login}")
    page.locator("#code").fill(slip.code.lower())
    page.locator("#password").fill(PASSWORD)
    follow(page, SUBMIT)


def narrow_enough(page: Page) -> bool:
    return bool(page.evaluate("document.documentElement.scrollWidth <= window.innerWidth"))


class Visits:
    """Pages that are looked at on the way: none too wide, none with a fault."""

    def __init__(self, open_page: Opener, axe: Axe, view: View) -> None:
        self.open, self.axe, self.view = open_page, axe, view

    def check(self, page: Page) -> None:
        assert narrow_enough(page), page.url
        if self.view.script:
            assert not self.axe.faults(page)

    def look(self, page: Page, *paths: str) -> None:
        for path in paths:
            page.goto(path)
            self.check(page)

    def send(self, page: Page, **fields: str) -> None:
        """Fill in the page's first form and send it."""
        for name, text in fields.items():
            page.locator(f"#{name}").fill(text)
        follow(page, f"{SUBMIT} >> nth=0")
        self.check(page)


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
def test_school_from_its_first_administrator_to_a_student(open_page: Opener, axe: Axe, slip: Slip, view: View) -> None:
    visits = Visits(open_page, axe, view)
    selma, ingrid, zoe = (open_page(view) for _ in range(3))
    visits.look(selma, "/sign-in")
    come_in(selma, slip)
    expect(selma).to_have_url(re.compile("/classes$"))
    visits.look(selma, "/classes", "/school/invitations")
    visits.send(selma, remark="Ingrid")

    visits.look(ingrid, selma.locator("p.value").inner_text())
    visits.send(ingrid, name="Ingrid Aas", password=PASSWORD)
    ingrid.goto("/classes")
    visits.send(ingrid, name="Private pilots, autumn")
    follow(ingrid, "a[href$='/roster']")
    visits.check(ingrid)
    visits.send(ingrid, names="Zoé Núñez\nAlice Roy")
    code = ingrid.locator(".slips li").first.locator("dd").last.inner_text()

    come_in(zoe, Slip("Zoé", slip.school_code, "zoe.nunez", code, slip.expires_at))
    visits.look(zoe, "/account")
    expect(zoe.locator("main")).to_contain_text("Private pilots, autumn")
    for page in (ingrid, selma):
        visits.look(page, "/people")
        follow(page, "tbody tr:first-child a")
        visits.check(page)
    visits.look(selma, "/school/audit")


def test_account_by_keyboard_alone(open_page: Opener, slip: Slip) -> None:
    page = open_page(WIDE)
    page.goto(f"/first-sign-in?school={slip.school_code}&login={slip.login}")
    page.locator("#code").focus()
    page.keyboard.type(slip.code)
    page.keyboard.press("Tab")
    page.keyboard.type(PASSWORD)
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_have_text("Classes")
