"""Joining a class by its code, and making a school where that is open."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from uuid import UUID

import pytest
from flask import Flask

from app.services.actor import Role
from app.services.throttle import MOST
from app.storage.queries import classes
from app.storage.queries.people import find_person_by_login
from app.web.factory import running
from app.web.settings import Settings
from tests.fakes import Clock, PlainHasher, Seeds
from tests.web.browsing import Browser
from tests.web.members import OneSchool

FORM = "//main//form"
NEWCOMER = {"name": "Alice Roy", "password": "a lubber line of my own"}


@pytest.fixture
def autumn(school: OneSchool) -> UUID:
    return school.add_class("Autumn", school.add(Role.INSTRUCTOR, "Ingrid"))


@pytest.fixture
def code(school: OneSchool, autumn: UUID) -> str:
    """The class's join code, open for a week."""
    selma = school.browser_of(school.add(Role.SCHOOL, "Selma"))
    page = selma.submit(selma.get_page(f"/classes/{autumn}"), {"days": "7"}, "//form[contains(@action, 'joining')]")
    return page.words("//b[@class='value']")


def test_code_makes_a_student_in_the_class(school: OneSchool, autumn: UUID, code: str) -> None:
    alice = Browser(school.app)
    page = alice.get_page(f"/join?school={school.code}&join_code={code.lower()}")
    fields = {"school": school.code, "join_code": code.lower(), "role": "school"} | NEWCOMER
    page = alice.submit(page, fields, FORM)
    assert "Autumn" in page.words("//main")
    with school.backend.uow.reader() as connection:
        found = find_person_by_login(connection, school.id, "alice.roy")
        assert found is not None
        assert found.role == Role.STUDENT
        assert classes.list_attended(connection, school.id, found.id) == {autumn}


def test_practised_drills_come_along_where_that_is_ticked(school: OneSchool, code: str) -> None:
    alice, bob = Browser(school.app), Browser(school.app)
    for browser, ticked in ((alice, {"take": "1"}), (bob, {})):
        question = browser.start_drill("true-to-compass", length=3)
        browser.submit(question, {"choice": "0"})
        page = browser.get_page("/join")
        assert page.find("//input[@name='take']")
        fields = {"school": school.code, "join_code": code, "name": "Pupil", "password": NEWCOMER["password"]}
        browser.submit(page, fields | ticked, FORM)
    assert alice.get_page("/").find("//a[contains(., 'Go on with your last drill')]")
    assert not bob.get_page("/").find("//a[contains(., 'Go on with your last drill')]")


@pytest.mark.parametrize("change", [{"join_code": "ABCDEFGH"}, {"join_code": ""}, {"school": "nowhere"}])
def test_wrong_codes_get_the_same_words(school: OneSchool, code: str, change: dict[str, str]) -> None:
    browser = Browser(school.app)
    fields = {"school": school.code, "join_code": code} | NEWCOMER | change
    page = browser.submit(browser.get_page("/join"), fields, FORM, 422)
    assert "No class can be joined" in page.words("//*[@id='join_code-refusal']")
    assert page.find("//input[@id='name']/@value") == ["Alice Roy"]


def test_code_ends_with_its_time(school: OneSchool, code: str, clock: Clock) -> None:
    clock.forward(timedelta(days=7))
    browser = Browser(school.app)
    fields = {"school": school.code, "join_code": code} | NEWCOMER
    browser.submit(browser.get_page("/join"), fields, FORM, 422)


def test_guessing_codes_is_slowed_down(school: OneSchool, code: str) -> None:
    browser = Browser(school.app, address="2001:db8:2::1")
    page = browser.get_page("/join")
    for _ in range(MOST["address"]):
        browser.submit(page, {"school": school.code, "join_code": "ABCDEFGH"} | NEWCOMER, FORM, 422)
    browser.submit(page, {"school": school.code, "join_code": code} | NEWCOMER, FORM, 429)
    neighbour = Browser(school.app, address="2001:db8:2::2")  # of the same network
    neighbour.submit(neighbour.get_page("/join"), {"school": school.code, "join_code": code} | NEWCOMER, FORM, 429)


def test_student_with_an_account_joins_another_class(school: OneSchool, other_school: OneSchool, code: str) -> None:
    alice = school.browser_of(school.add(Role.STUDENT, "Alice"))
    fields = {"school": school.code, "join_code": code}
    page = alice.submit(alice.get_page("/join"), fields, FORM)
    assert "Autumn" in page.words("//main")
    charlie = other_school.browser_of(other_school.add(Role.STUDENT, "Charlie"))
    charlie.submit(charlie.get_page("/join"), fields, FORM, 422)


def test_schools_are_made_on_a_page_only_where_that_is_open(app: Flask) -> None:
    Browser(app).get_page("/new-school", 404)
    page = Browser(app).get_page("/")
    browser = Browser(app)
    browser.send("/new-school", {"csrf_token": browser.get_page("/").token, "code": "open"}, 404)
    assert not page.find("//a[@href='/new-school']")


@pytest.fixture
def open_app(settings: Settings, clock: Clock, seeds: Seeds) -> Iterator[Flask]:
    with running(replace(settings, open_schools=True), clock, seeds, PlainHasher()) as app:
        yield app
    clock.reset()


def test_school_is_made_on_a_page(open_app: Flask) -> None:
    browser = Browser(open_app)
    fields = {"name": "Tern River", "code": "Tern-River", "administrator": "Selma Ring", "language": "fr"}
    page = browser.submit(browser.get_page("/new-school"), fields | {"time_zone": "Ottawa"}, FORM, 422)
    assert "“Ottawa”" in page.words("//*[@id='time_zone-refusal']")
    page = browser.submit(page, fields | {"time_zone": "America/Toronto"}, FORM)
    once = {"school": "tern-river", "login": page.words("//dd[3]"), "code": page.words("//dd[4]")}
    door = browser.get_page(page.find("//a[.='Sign in with this code']/@href")[0])
    assert door.find("//input[@id='school' or @id='login']/@value") == [once["school"], once["login"]]
    browser.submit(door, once | {"password": NEWCOMER["password"]}, FORM)
    assert browser.address == "/classes"
    assert browser.get_page("/classes").language == "fr"
