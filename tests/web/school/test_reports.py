"""A report goes from a student to the school and back; a kind of question is withdrawn and brought back."""

import pytest

from app.services.actor import Role
from tests.web.browsing import Browser
from tests.web.members import OneSchool


@pytest.fixture
def selma(school: OneSchool) -> Browser:
    return school.browser_of(school.add(Role.SCHOOL, "Selma"))


@pytest.fixture
def alice(school: OneSchool) -> Browser:
    """Alice, who has reported a question."""
    browser = school.browser_of(school.add(Role.STUDENT, "Alice"))
    page = browser.start_drill("compass-to-true", length=1)
    report = browser.get_page(page.find("//a[contains(@href, '/report')]/@href")[0])
    browser.submit(report, {"text": "The card is <b>upside down</b>."}, "//main//form")
    return browser


def test_nobody_has_reported_anything(selma: Browser) -> None:
    assert "Nobody has reported a problem." in selma.get_page("/school/reports").text


def test_report_is_settled_and_the_reporter_reads_the_answer(school: OneSchool, alice: Browser, selma: Browser) -> None:
    page = selma.get_page(selma.get_page("/school/reports").find("//tbody//a/@href")[0])
    assert "The card is <b>upside down</b>." in page.words("//blockquote")
    assert page.find("//main//details//ol")
    refused = selma.submit(page, {"answer": " "}, "//main//form", status=422)
    assert "Accepted: 1 to 2000" in refused.words("//*[@role='alert']")
    settled = selma.submit(page, {"answer": "It is turned now."}, "//main//form")
    assert "It is turned now." in settled.words("//main")
    assert not settled.find("//main//form")
    assert "It is turned now." in alice.get_page("/record").words("//main")
    assert "It is turned now." in alice.get_page(alice.address.partition("?")[0]).words("//main")
    ingrid = school.browser_of(school.add(Role.INSTRUCTOR, "Ingrid"))
    assert not ingrid.get_page(page.find("//main//form/@action")[0]).find("//main//form")


def test_question_is_withdrawn_and_brought_back(selma: Browser) -> None:
    page = selma.get_page("/school/quality/compass-to-true")
    assert "Accepted: 1 to 500" in selma.submit(page, {"reason": ""}, "//main//form", status=422).text
    page = selma.submit(page, {"reason": "The key is wrong."}, "//main//form")
    assert "Withdrawn by Selma" in page.words("//main")
    assert "compass-to-true" not in selma.get_page("/topics/datum").text
    page = selma.submit(page, {}, "//main//form")
    assert "Withdrawn by" not in page.text
    assert "withdrew a kind of question" in selma.get_page("/school/audit").text
