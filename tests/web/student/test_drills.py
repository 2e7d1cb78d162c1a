"""Starting, resuming and looking back on drills."""

import pytest
from flask import Flask

from tests.pages import Page
from tests.questions.replies import right_answer, wrong_answer
from tests.web.browsing import Browser
from tests.web.student.answers import item_of

FAMILIES = ("true-to-compass", "compass-to-true")
NEXT = "//a[contains(@class, 'next')]/@href"


def go_through(app: Flask, browser: Browser, page: Page, *, right: bool) -> Page:
    """Answer a whole drill from its first question on, and return its summary."""
    answer = right_answer if right else wrong_answer
    while page.find("//form[@id='answer']"):
        verdict = browser.submit(page, answer(item_of(app, page)))
        page = browser.get_page(verdict.find(NEXT)[0])
    return page


def test_drill_ends_in_its_summary(app: Flask, alice: Browser) -> None:
    summary = go_through(app, alice, alice.start_drill(*FAMILIES, length=5), right=True)
    assert summary.heading == "5 of 5 right"
    assert "Every answer was right." in summary.words("//main")
    assert len(summary.find("//ol/li/a[starts-with(@href, '/items/')]")) == 5
    assert not summary.find("//form[contains(@action, '/again')]")


def test_summary_names_misconceptions_with_remedies(app: Flask, alice: Browser) -> None:
    summary = go_through(app, alice, alice.start_drill(*FAMILIES, length=5), right=False)
    assert summary.heading == "0 of 5 right"
    met = summary.find("//ul[contains(@class, 'misconceptions')]/li")
    assert met
    assert all(each.xpath("./b") and each.xpath("./br/following-sibling::text()") for each in met)
    assert "0 of 5" in summary.words("//table[caption='Right answers by topic']/tbody")


def test_drill_again_holds_what_was_missed(app: Flask, alice: Browser) -> None:
    summary = go_through(app, alice, alice.start_drill("true-to-compass", length=3), right=False)
    question = alice.submit(summary, {}, form="//form[contains(@action, '/again')]")
    assert question.title.startswith("Question 1 of ")
    assert item_of(app, question).family == "true-to-compass"


def test_nothing_to_drill_again(app: Flask, alice: Browser) -> None:
    summary = go_through(app, alice, alice.start_drill("true-to-compass", length=1), right=True)
    again = alice.address.replace("/summary", "/again")
    page = alice.send(again, {"csrf_token": summary.token}, status=409)
    assert "nothing to drill again" in page.words("//main")
    assert page.find("//a[contains(@href, '/summary')]")


def test_summary_of_a_drill_not_yet_begun(alice: Browser) -> None:
    alice.start_drill("true-to-compass", length=5)
    page = alice.get_page(alice.address.partition("/questions")[0] + "/summary")
    assert page.heading == "0 of 0 right"
    assert "5 questions are still open." in page.words("//main")
    assert "once you have answered" in page.words("//main")


def test_resume_goes_to_the_first_open_question(alice: Browser) -> None:
    first = alice.start_drill(*FAMILIES, length=3)
    drill = alice.address.partition("/questions")[0]
    alice.submit(first, {"choice": "0", "value": "001"})
    assert "Question 2 of 3" in alice.get_page(drill).title


def test_resume_of_a_finished_drill_is_its_summary(app: Flask, alice: Browser) -> None:
    first = alice.start_drill("true-to-compass", length=1)
    drill = alice.address.partition("/questions")[0]
    go_through(app, alice, first, right=True)
    assert alice.get_page(drill).heading == "1 of 1 right"


def test_progress_is_drawn(app: Flask, alice: Browser) -> None:
    first = alice.start_drill(*FAMILIES, length=3)
    second = alice.get_page(alice.submit(first, wrong_answer(item_of(app, first))).find(NEXT)[0])
    alice.submit(second, right_answer(item_of(app, second)))
    third = alice.get_page(alice.address.replace(alice.address, "/topics"))
    drill = third.find("//main//a[starts-with(@href, '/drills/')]/@href")[0]
    page = alice.get_page(drill)
    assert "Right so far: 1. Missed: 1." in page.words("//div[@class='progress']")
    marks = "".join(page.find("//div[@class='progress']//*[local-name()='path']/@d"))
    assert (marks.count("v16"), marks.count("v7"), marks.count("v24"), marks.count("v2M")) == (1, 1, 1, 0)


@pytest.mark.parametrize("length", ["0", "51", "-1", "ten", "9999", "٣"])
def test_length_is_checked(alice: Browser, length: str) -> None:
    token = alice.get_page("/").token
    alice.send("/drills", {"csrf_token": token, "length": length}, status=422)


def test_unknown_family_or_topic(alice: Browser) -> None:
    token = alice.get_page("/").token
    alice.send("/drills", {"csrf_token": token, "family": "no-such-family"}, status=404)
    alice.send("/drills", {"csrf_token": token, "topic": "no-such-topic"}, status=404)


def test_hides_other_visitors(alice: Browser, bob: Browser) -> None:
    alice.start_drill("true-to-compass")
    drill = alice.address.partition("/questions")[0]
    bob.start_drill("true-to-compass")
    token = bob.get_page("/").token
    bob.get_page(drill, status=404)
    bob.get_page(f"{drill}/summary", status=404)
    bob.send(f"{drill}/again", {"csrf_token": token}, status=404)


def test_works_in_french(app: Flask, amelie: Browser) -> None:
    summary = go_through(app, amelie, amelie.start_drill(*FAMILIES, length=2), right=False)
    assert summary.heading == "0 sur 2 justes"
    assert "À revoir" in summary.words("//main")
