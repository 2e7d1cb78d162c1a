"""A report goes from a student to the school and back; a kind of question is withdrawn and brought back."""

import csv
import json
from io import StringIO

import pytest

from app.questions.present import plain
from app.services.actor import Role
from tests.questions.replies import wrong_answer
from tests.web.browsing import Browser
from tests.web.members import OneSchool
from tests.web.student.answers import item_of


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


def test_saved_as_a_table_with_the_numbers_for_whoever_mends_it(school: OneSchool, selma: Browser) -> None:
    alice = school.browser_of(school.add(Role.STUDENT, "Alice"))
    page = alice.start_drill("compass-to-true", length=1)
    item = item_of(school.app, page)
    alice.submit(page, wrong_answer(item))
    report = alice.get_page(alice.get_page(alice.address).find("//a[contains(@href, '/report')]/@href")[0])
    alice.submit(report, {"text": "=1+1 is on the card"}, "//main//form")
    form = "//form[@action='/school/reports/table']"
    page = selma.get_page("/school/reports?family=compass-to-true")
    response = selma.post("/school/reports/table", page.fields(form))
    assert response.mimetype == "text/csv"
    header, row = csv.reader(StringIO(response.text.removeprefix("\ufeff")))
    told = dict(zip(header, row, strict=True))
    assert (told["Family"], told["State"], told["What is wrong"]) == (item.family, "open", "'=1+1 is on the card")
    assert (int(told["Seed"]), float(told["Key"])) == (item.seed, item.key)
    assert json.loads(told["Numbers"]) == plain(item.parameters)
    assert (told["Right"], bool(told["What was answered"])) == ("no", True)
    assert "Alice" not in response.text
    assert "saved the reports of problems as a table" in selma.get_page("/school/audit").text


def test_table_of_another_kind_or_school_is_empty(
    school: OneSchool, other_school: OneSchool, alice: Browser, selma: Browser
) -> None:
    fields = {"csrf_token": selma.get_page("/school/reports").token}
    assert len(selma.post("/school/reports/table", fields | {"family": "turn-rate"}).text.splitlines()) == 1
    stranger = other_school.browser_of(other_school.add(Role.SCHOOL, "Sam"))
    fields = {"csrf_token": stranger.get_page("/school/reports").token}
    assert len(stranger.post("/school/reports/table", fields).text.splitlines()) == 1
    fields = {"csrf_token": alice.get_page("/topics").token}
    assert alice.post("/school/reports/table", fields).status_code == 403
    ingrid = school.browser_of(school.add(Role.INSTRUCTOR, "Ingrid"))
    fields = {"csrf_token": ingrid.get_page("/school/reports").token}
    assert len(ingrid.post("/school/reports/table", fields).text.splitlines()) == 2
