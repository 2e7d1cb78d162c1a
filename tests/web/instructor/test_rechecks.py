"""From a weak spot to a set for those behind it, and before and after on both pages."""

from datetime import timedelta
from random import Random
from uuid import UUID

import pytest

from app.grader.made_up import fields_of, wrong_value
from app.services.actor import Role
from app.storage.models import Person
from tests.fakes import Clock
from tests.questions.engine import library
from tests.web.browsing import Browser
from tests.web.members import OneSchool
from tests.web.student.answers import item_of

RECHECK_FORM = "//form[contains(@action, '/rechecks')]"


def practise(school: OneSchool, clock: Clock, student: Person, misconception: str) -> None:
    """Answer five conversions: by a misconception wherever it can be shown, or all of them rightly."""
    browser = school.browser_of(student)
    page = browser.start_drill("compass-to-true", length=5)
    while page.find("//form[@id='answer']"):
        clock.forward(timedelta(minutes=1))
        item = item_of(school.app, page)
        wrong = wrong_value(library(), item, Random(1), {misconception}) if misconception else item.key
        browser.submit(page, fields_of(library(), item, wrong))
        page = browser.get_page(browser.get_page(browser.address).find("//a[contains(@class, 'next')]/@href")[0])


@pytest.fixture
def ingrid(school: OneSchool) -> Person:
    return school.add(Role.INSTRUCTOR, "Ingrid")


@pytest.fixture
def alice(school: OneSchool, clock: Clock) -> Person:
    alice = school.add(Role.STUDENT, "Alice Arrow")
    practise(school, clock, alice, "forward-sign")
    return alice


@pytest.fixture
def autumn(school: OneSchool, ingrid: Person, alice: Person) -> UUID:
    return school.add_class("Autumn", ingrid, alice, school.add(Role.STUDENT, "Bea"))


@pytest.fixture
def instructor(school: OneSchool, ingrid: Person) -> Browser:
    return school.browser_of(ingrid)


def test_a_set_from_a_row_is_for_those_behind_it_and_shows_before_and_after(
    school: OneSchool, clock: Clock, instructor: Browser, alice: Person, autumn: UUID
) -> None:
    spots = f"/classes/{autumn}/weak-spots"
    page = instructor.get_page(spots)
    asked = instructor.get_page(page.find("//a[starts-with(., 'Make a set for them')]/@href")[0])
    assert "For 1 of 1 students behind it: Alice Arrow." in asked.text
    title = asked.find("//input[@name='title']/@value")[0]
    made = instructor.submit(asked, {"title": title, "count": "4"}, RECHECK_FORM)
    set_address = instructor.address
    assert made.heading.startswith("Re-check: ")
    assert len(made.find("//ol[@class='set-items']/li")) == 4
    assert "None of them has answered such a question since" in made.text
    assign = instructor.get_page(made.find("//a[text()='Assign it']/@href")[0])
    assert assign.find("//input[@name='person' and @checked]/@value") == [str(alice.id)]
    practise(school, clock, alice, "")
    for address in (set_address, spots):
        after = instructor.get_page(address)
        assert "few: be careful" in after.words("//div[@class='before-after']")
        assert "Too few have answered again to tell." in after.text
        assert "Likely carried it: Alice Arrow." in after.text
    projector = instructor.get_page(f"{spots}?projector=1")
    assert "Too few have answered again to tell." in projector.text
    assert "Alice" not in projector.words("//main")


def test_a_kind_of_question_leads_to_a_set_too(instructor: Browser, autumn: UUID) -> None:
    page = instructor.get_page(f"/classes/{autumn}/weak-spots?weeks=4")
    asked = instructor.get_page(page.find("//a[starts-with(., 'Make a set:')]/@href")[0])
    assert asked.find("//input[@name='weeks']/@value") == ["4"]
    made = instructor.submit(asked, {"title": "Once more", "count": "6"}, RECHECK_FORM)
    assert made.heading == "Once more"


def test_what_was_typed_stays_where_it_is_refused(instructor: Browser, autumn: UUID) -> None:
    address = f"/classes/{autumn}/rechecks/new?family=compass-to-true"
    page = instructor.submit(instructor.get_page(address), {"title": "", "count": "2"}, RECHECK_FORM, 422)
    assert "0 characters" in page.text
    assert page.find("//select[@name='count']/option[@selected]")[0].text == "2"


def test_nobody_behind_a_row_is_said(instructor: Browser, autumn: UUID) -> None:
    page = instructor.get_page(f"/classes/{autumn}/rechecks/new?family=true-to-compass")
    assert "Nobody of the class is behind this row now." in page.text
    assert instructor.get(f"/classes/{autumn}/rechecks/new?family=astrology").status_code == 404


def test_french(school: OneSchool, ingrid: Person, autumn: UUID) -> None:
    browser = school.browser_of(ingrid, "fr")
    browser.send("/language", {"csrf_token": browser.get_page("/classes").token, "language": "fr", "here": "/"})
    page = browser.get_page(f"/classes/{autumn}/rechecks/new?family=compass-to-true")
    assert page.heading.startswith("Une série à partir d’un point faible")
