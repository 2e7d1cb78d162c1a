"""Invitations: one account each, with the role they say, until used, taken back or expired."""

from datetime import timedelta

import pytest

from app.services.actor import Role
from app.services.invitations import HOLDS
from app.storage.queries.people import find_person_by_login
from tests.fakes import Clock
from tests.web.browsing import Browser
from tests.web.members import OneSchool

FORM = "//main//form"
NEWCOMER = {"name": "Ingrid Aas", "password": "a lubber line of my own"}


@pytest.fixture
def selma(school: OneSchool) -> Browser:
    return school.browser_of(school.add(Role.SCHOOL, "Selma"))


def invite(selma: Browser, role: str = "instructor") -> str:
    """Make an invitation and return where its link leads."""
    page = selma.submit(selma.get_page("/school/invitations"), {"remark": "Ingrid", "role": role}, FORM)
    link = page.words("//p[@class='value']")
    assert link.startswith("http://localhost/invited/")
    return link.removeprefix("http://localhost")


@pytest.mark.parametrize("role", [Role.INSTRUCTOR, Role.SCHOOL])
def test_link_makes_one_account_with_its_role(school: OneSchool, selma: Browser, role: Role) -> None:
    link, ingrid = invite(selma, role), Browser(school.app)
    fields = NEWCOMER | {"role": "school", "login": "boss"}
    page = ingrid.submit(ingrid.get_page(link), fields, FORM)
    assert "Your account is made" in page.words("//*[@role='status']")
    assert page.find("//b[text()='ingrid.aas']")
    with school.backend.uow.reader() as connection:
        found = find_person_by_login(connection, school.id, "ingrid.aas")
    assert found is not None
    assert found.role == role
    again = Browser(school.app).get_page(link, 409)
    assert "used, taken back or expired" in again.words("//main")
    assert "used on" in selma.get_page("/school/invitations").words("//tbody")


def test_bad_password_leaves_the_invitation(school: OneSchool, selma: Browser) -> None:
    link, ingrid = invite(selma), Browser(school.app)
    page = ingrid.submit(ingrid.get_page(link), NEWCOMER | {"password": "short"}, FORM, 422)
    assert "5 characters" in page.words("//*[@id='password-refusal']")
    assert page.find("//input[@id='name']/@value") == ["Ingrid Aas"]
    ingrid.submit(page, NEWCOMER, FORM)


def test_taken_back_and_expired_links_open_nothing(school: OneSchool, selma: Browser, clock: Clock) -> None:
    first = invite(selma)
    clock.forward(timedelta(minutes=1))
    second = invite(selma)
    opened = Browser(school.app)
    stale = opened.get_page(first)
    page = selma.get_page("/school/invitations")
    selma.submit(page, {}, "//tbody/tr[2]//form")  # the newest stands first
    opened.submit(stale, NEWCOMER, FORM, 409)
    clock.forward(HOLDS - timedelta(seconds=1))
    Browser(school.app).get_page(second)
    clock.forward(timedelta(seconds=1))
    Browser(school.app).get_page(second, 409)


def test_made_up_links_open_nothing(school: OneSchool, selma: Browser) -> None:
    link = invite(selma)
    swapped = link[:-1] + ("A" if link[-1] != "A" else "B")
    for address in ("/invited/x", swapped, link[: len("/invited/") + 20]):
        Browser(school.app).get_page(address, 409)


def test_only_the_own_school_invites_and_takes_back(school: OneSchool, other_school: OneSchool, selma: Browser) -> None:
    invite(selma)
    action = selma.get_page("/school/invitations").find("//tbody//form/@action")[0]
    dora = other_school.browser_of(other_school.add(Role.SCHOOL, "Dora"))
    dora.send(action, {"csrf_token": dora.get_page("/").token}, 404)
    assert "Ingrid" not in dora.get_page("/school/invitations").words("//main")
    ingrid = school.browser_of(school.add(Role.INSTRUCTOR, "Ingrid"))
    ingrid.send("/school/invitations", {"csrf_token": ingrid.get_page("/").token, "role": "school"}, 403)


@pytest.mark.parametrize(
    ("fields", "field"), [({"remark": ""}, "remark"), ({"remark": "x", "role": "student"}, "role")]
)
def test_values_that_cannot_be_are_named(selma: Browser, fields: dict[str, str], field: str) -> None:
    page = selma.submit(selma.get_page("/school/invitations"), {"role": "instructor"} | fields, FORM, 422)
    assert "Accepted" in page.words(f"//*[@id='{field}-refusal']")
