"""The page of one student, the training record, and what stands before a recommendation."""

from datetime import timedelta
from typing import Any
from uuid import UUID

import pytest

from app.services.actor import Role
from app.storage.models import Person
from tests.fakes import Clock
from tests.pages import Page
from tests.questions.replies import right_answer, wrong_answer
from tests.web.browsing import Browser
from tests.web.members import OneSchool
from tests.web.student.answers import item_of

TAUGHT = {"kind": "taught", "day": "2026-09-01", "text": "Deviation and the correction card", "minutes": "45"}


@pytest.fixture
def ingrid(school: OneSchool) -> Person:
    return school.add(Role.INSTRUCTOR, "Ingrid Vega")


@pytest.fixture
def alice(school: OneSchool, ingrid: Person, clock: Clock) -> Person:
    """A student of Ingrid's class, who answered three conversions, the first one wrongly."""
    row = school.add(Role.STUDENT, "Alice")
    school.add_class("Autumn", ingrid, row)
    browser = school.browser_of(row)
    page = browser.start_drill("compass-to-true", length=3)
    for number in range(3):
        clock.forward(timedelta(minutes=1))
        browser.submit(page, (right_answer if number else wrong_answer)(item_of(school.app, page)))
        page = browser.get_page(browser.get_page(browser.address).find("//a[contains(@class, 'next')]/@href")[0])
    return row


@pytest.fixture
def instructor(school: OneSchool, ingrid: Person) -> Browser:
    return school.browser_of(ingrid)


def send(browser: Browser, student: Person, what: str, fields: dict[str, str], status: int = 200) -> Page:
    address = f"/people/{student.id}"
    return browser.submit(browser.get_page(f"{address}/record"), fields, f"//form[@action='{address}/{what}']", status)


def test_page_shows_the_record_and_is_reached_from_the_person(instructor: Browser, alice: Person) -> None:
    person = instructor.get_page(f"/people/{alice.id}")
    page = instructor.get_page(person.find("//a[contains(@href, '/record')]/@href")[0])
    assert page.heading == "Record of Alice"
    assert "2 of 3 right" in page.words("//main")


def test_entries_are_added_with_initials_and_corrections_leave_the_first_to_be_read(
    instructor: Browser, alice: Person
) -> None:
    page = send(instructor, alice, "record", TAUGHT)
    assert "IV" in page.words("//table")
    first = page.find("//select[@name='corrects']/option[@value != '']/@value")[0]
    page = send(instructor, alice, "record", TAUGHT | {"minutes": "60", "corrects": first})
    assert list(page.find("//s//b/text()")) == ["Taught"]
    printed = instructor.get_page(f"/people/{alice.id}/training-record")
    assert "60 minutes taught" in printed.words("//main")
    assert "corrected below" in printed.words("//main")
    assert "does not replace" in printed.words("//main")


def test_notes_stay_beside_the_record_and_are_handed_over(
    school: OneSchool, instructor: Browser, alice: Person
) -> None:
    note = {"kind": "note", "day": "2026-09-01", "text": "Draws before reckoning."}
    page = send(instructor, alice, "record", note)
    assert "1 Sep 2026; entered by Ingrid Vega" in page.words("//section[@id='notes']")
    first = page.find("//select[@id='note-corrects']/option[@value != '']/@value")[0]
    page = send(instructor, alice, "record", note | {"text": "Draws first, then reckons.", "corrects": first})
    assert list(page.find("//section[@id='notes']//s/text()")) == ["Draws before reckoning."]
    send(instructor, alice, "record", TAUGHT | {"corrects": first}, 404)
    assert "Draws" not in instructor.get_page(f"/people/{alice.id}/training-record").words("//main")
    assert "Draws" not in school.browser_of(alice).get_page("/record").words("//main")
    handed: Any = school.browser_of(school.add(Role.SCHOOL, "Selma")).get(f"/school/people/{alice.id}/data.json").json
    texts = {each["text"] for each in handed["training_record_and_notes"]}  # entered at one moment: in no order
    assert texts == {"Draws before reckoning.", "Draws first, then reckons."}


@pytest.mark.parametrize(
    ("fields", "named"),
    [
        ({"kind": "baked"}, "“baked”"),
        ({"day": "2026-13-01"}, "“2026-13-01” is not a day"),
        ({"day": "2027-01-01"}, "“2027-01-01” is not a day"),
        ({"text": " "}, "This text has 0 characters"),
        ({"minutes": "ages"}, "“ages” minutes"),
    ],
)
def test_what_cannot_be_entered_is_named_and_nothing_is_kept(
    instructor: Browser, alice: Person, fields: dict[str, str], named: str
) -> None:
    page = send(instructor, alice, "record", TAUGHT | fields, 422)
    assert named in page.words("//p[@role='alert']")
    assert "Nothing is entered yet" in instructor.get_page(f"/people/{alice.id}/record").words("//main")


def test_recommendation_that_lacks_something_needs_a_written_reason(instructor: Browser, alice: Person) -> None:
    refused = send(instructor, alice, "recommendation", {"reason": " "}, 422)
    assert "This text has 0 characters" in refused.words("//p[@role='alert']")
    page = send(instructor, alice, "recommendation", {"reason": "Two years on the line as a navigator"})
    assert "although lacking" in page.words("//main")
    assert "each section over the bar" in page.words("//main")


def test_paper_is_one_pdf_page(instructor: Browser, alice: Person) -> None:
    send(instructor, alice, "record", TAUGHT)
    response = instructor.get(f"/people/{alice.id}/training-record.pdf")
    assert response.mimetype == "application/pdf"
    assert response.data.startswith(b"%PDF-")


def test_nobody_else_sees_it(school: OneSchool, alice: Person) -> None:
    address = f"/people/{alice.id}/record"
    for role in (Role.STUDENT, Role.INSTRUCTOR):
        assert school.browser_of(school.add(role, f"Other {role}")).get(address).status_code in {403, 404}
    assert Browser(school.app).get(address).status_code == 403
    assert school.browser_of(school.add(Role.SCHOOL, "Selma")).get(address).status_code == 200
    instructor_of_none = school.browser_of(school.add(Role.INSTRUCTOR, "Otto"))
    assert instructor_of_none.get(f"/people/{UUID(int=1)}/record").status_code == 404
