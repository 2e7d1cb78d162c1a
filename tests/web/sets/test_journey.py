"""From the instructor's set to the student's answers and back: the pages of all three roles."""

import csv
from datetime import timedelta
from io import StringIO
from typing import Any

import pytest
from flask import Flask

from app.services.actor import Role
from tests.fakes import Clock
from tests.pages import Page, words_of
from tests.questions.replies import right_answer, wrong_answer
from tests.web.browsing import Browser
from tests.web.members import OneSchool, new_school
from tests.web.sets.evening import Evening, evening_of
from tests.web.student.answers import item_of

START = "//form[contains(@action, '/sittings')]"
HAND_IN = "//form[contains(@action, '/hand-in')]"
EXPORT = "//form[contains(@action, '/results')]"
TELLS = ("your answer", "is right", "Long: right", "Misconceptions", "What your answer did")


@pytest.fixture
def evening(school: OneSchool) -> Evening:
    return evening_of(school)


def answer(evening: Evening, browser: Browser, page: Page, marks: str) -> Page:
    """Answer from an open question on, one for each mark, and return the page that comes."""
    for mark in marks:
        item = item_of(evening.school.app, page)
        page = browser.submit(page, right_answer(item) if mark == "+" else wrong_answer(item))
        if page.find("//a[contains(@class, 'next')]/@href") and page.find("//section[@id='verdict']"):
            page = browser.get_page(page.find("//a[contains(@class, 'next')]/@href")[0])
    return page


def test_whole_way(evening: Evening, clock: Clock) -> None:
    address = evening.make_conversions()
    followed = evening.assign(address)
    assert "Not started: 2. In progress: 0. Done: 0. Late: 0." in followed.words("//main")
    due = evening.alice.get_page("/sets")
    assert "Due 4 Sep 2026 17:00." in due.words("//main")
    question = evening.alice.submit(due, {}, START)
    assert "Conversions Right answers are shown at the end." in question.words("//article")
    question = answer(evening, evening.alice, question, "+-")
    assert question.title.startswith("Question 3 of 4")
    assert not [words for words in TELLS if words in question.text]
    clock.forward(timedelta(hours=1))
    other_device = evening.alice.get_page("/sets")
    question = evening.alice.submit(other_device, {}, START)
    assert question.title.startswith("Question 3 of 4"), "it goes on where it was stopped"
    summary = answer(evening, evening.alice, question, "-+")
    assert summary.heading == "2 of 4 right"
    assert "50% not passed" in summary.words("//main")
    followed = evening.ingrid.get_page(
        evening.ingrid.get_page(address).find("//a[contains(@href,'/assignments/')]/@href")[0]
    )
    assert "Not started: 1. In progress: 0. Done: 1. Late: 0." in followed.words("//main")
    line = followed.words("//tr[th='Alice']")
    assert all(words in line for words in ("done", "50%", "4/4"))
    assert "Bob" in followed.words("//p[starts-with(., 'Not finished')]")
    assert followed.find("//a[contains(@href, 'misconception=')]")


def test_verdicts_are_held_until_they_may_be_seen(evening: Evening, clock: Clock) -> None:
    address = evening.make_conversions(reveal="after-due")
    evening.assign(address)
    question = evening.alice.submit(evening.alice.get_page("/sets"), {}, START)
    assert "Right answers are shown once it is due for everybody." in question.words("//article")
    item = question.fields()["item"]
    held = answer(evening, evening.alice, question, "+--+")
    assert "Right answers are shown once it is due for everybody" in held.words("//main")
    drill = evening.alice.address.removesuffix("/summary")
    for path in (f"/items/{item}", f"{drill}/summary", f"{drill}/questions/1", drill, "/sets", f"/items/{item}/report"):
        response = evening.alice.get(path, follow_redirects=True)
        text = response.get_data(as_text=True)
        assert not [words for words in TELLS if words in text], path
    assert "Your answer is kept" in evening.alice.get_page(f"/items/{item}", status=409).words("//main")
    evening.alice.send(f"{drill}/again", {"csrf_token": held.token}, status=409)
    assert "The result is shown later." in evening.alice.get_page("/sets").words("//main")
    clock.forward(timedelta(days=4))
    assert evening.alice.get_page(f"{drill}/summary").heading == "2 of 4 right"
    assert evening.alice.get_page(f"/items/{item}").find("//section[@id='verdict']")


def test_time_limit_is_shown_and_kept(evening: Evening, clock: Clock) -> None:
    evening.assign(evening.make_conversions(minutes="10"))
    due = evening.alice.get_page("/sets")
    assert "Time limit: 10 minutes." in due.words("//main")
    question = evening.alice.submit(due, {}, START)
    assert "Time left: 10 minutes" in question.words("//main")
    question = answer(evening, evening.alice, question, "+")
    clock.forward(timedelta(minutes=10))
    refused = evening.alice.submit(question, right_answer(item_of(evening.school.app, question)), status=409)
    assert "time of this set is up" in refused.words("//main")
    assert evening.alice.get_page(refused.find("//a[contains(@href, '/summary')]/@href")[0]).heading == "1 of 1 right"


def test_handing_in_ends_it(evening: Evening) -> None:
    evening.assign(evening.make_conversions())
    question = evening.alice.submit(evening.alice.get_page("/sets"), {}, START)
    answer(evening, evening.alice, question, "+")
    stopped = evening.alice.get_page(evening.alice.address.partition("/questions")[0] + "/summary")
    done = evening.alice.submit(stopped, {}, HAND_IN)
    assert "25%" in done.words("//main")
    assert not evening.alice.get_page("/sets").find(START)


def test_late_is_flagged_and_an_extension_takes_the_flag_away(evening: Evening, clock: Clock) -> None:
    followed = evening.assign(evening.make_conversions())
    assignment = evening.ingrid.address
    assert "is due 4 Sep 2026 17:00" in followed.words("//textarea")
    clock.forward(timedelta(days=4))
    assert "was due 4 Sep 2026 17:00" in evening.ingrid.get_page(assignment).words("//textarea")
    assert "Late." in evening.alice.get_page("/sets").words("//main")
    assert "Late: 2" in evening.ingrid.get_page(assignment).words("//main")
    form = "//form[contains(@action, '/extensions')]"
    longer = {"person": evening.alice_id, "due_day": "2026-09-09", "due_time": "12:00"}
    followed = evening.ingrid.submit(followed, longer, form)
    assert "may take until 9 Sep 2026 12:00" in followed.words("//tr[th='Alice']")
    assert "Late." not in evening.alice.get_page("/sets").words("//main")
    for wrong, words in (({"due_day": "2026-09-04"}, "has passed"), ({"due_day": "soon"}, "“soon” is not a day")):
        refused = evening.ingrid.submit(followed, longer | wrong, form, status=422)
        assert words in refused.words("//p[@role='alert']")


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"due_day": "2026-08-01"}, "has passed"),
        ({"due_day": "2027-03-14", "due_time": "02:30"}, "skip 2027-03-14 02:30"),
        ({"due_day": "2026-11-01", "due_time": "01:30"}, "show 2026-11-01 01:30 twice"),
        ({"time_zone": "Mars/Olympus"}, "no time zone “Mars/Olympus”"),
        ({"class": []}, "at least one class or one student"),
    ],
)
def test_what_cannot_be_assigned_is_said(evening: Evening, fields: dict[str, str], words: str) -> None:
    address = evening.make_conversions()
    refused = evening.assign(address, 422, **fields)
    assert words in refused.words("//p[@role='alert']")
    typed = refused.find("//input[@name='due_day']/@value")
    assert typed == [fields.get("due_day", "2026-09-04")]
    assert not evening.ingrid.get_page(address).find("//a[contains(@href, '/assignments/')]")


def test_a_class_gets_a_set_once(evening: Evening) -> None:
    address = evening.make_conversions()
    evening.assign(address)
    assert "already assigned to Evening" in evening.assign(address, 409).words("//p[@role='alert']")


def test_strangers_do_not_reach_it(evening: Evening, app: Flask) -> None:
    address = evening.make_conversions()
    evening.assign(address)
    assignment = evening.ingrid.address
    due = evening.alice.get_page("/sets")
    start = due.find(f"{START}/@action")[0]
    evening.alice.submit(due, {}, START)
    drill = evening.alice.address.partition("/questions")[0]
    elsewhere = new_school(app)
    dora = elsewhere.browser_of(elsewhere.add(Role.INSTRUCTOR, "Dora"))
    charlie = elsewhere.browser_of(elsewhere.add(Role.STUDENT, "Charlie"))
    otto = evening.school.browser_of(evening.school.add(Role.INSTRUCTOR, "Otto"))
    carol = evening.school.browser_of(evening.school.add(Role.STUDENT, "Carol"))
    visitor = Browser(app)
    dora.get_page(assignment, status=404)
    otto.get_page(assignment, status=403)
    for browser, status in ((dora, 404), (otto, 403)):
        token = {"csrf_token": browser.get_page("/topic-sets").token}
        for path in ("/withdraw", "/results"):
            browser.send(assignment + path, token, status=status)
        browser.get_page(f"/classes/{evening.class_id}/sets", status=status)
    other_set = {"csrf_token": dora.get_page("/topic-sets").token, "class": evening.class_id}
    dora.send(f"{address}/assignments", other_set, status=404)
    for browser in (charlie, carol):
        token = {"csrf_token": browser.get_page("/sets").token}
        browser.send(start, token, status=404)
        browser.get_page(f"{drill}/summary", status=404)
        browser.send(f"{drill}/hand-in", token, status=404)
        browser.get_page(assignment, status=403)
    visitor.get_page("/sets", status=403)
    visitor.get_page(drill, status=404)
    visitor.get_page("/topic-sets", status=403)


def test_table_for_a_spreadsheet(evening: Evening) -> None:
    evening.school.add_class("Empty", evening.school.add(Role.INSTRUCTOR, "Otto"))
    followed = evening.assign(evening.make_conversions())
    evening.alice.submit(evening.alice.get_page("/sets"), {}, START)
    sent = evening.ingrid.post(followed.find(f"{EXPORT}/@action")[0], {"csrf_token": followed.token})
    assert sent.mimetype == "text/csv"
    assert "attachment" in sent.headers["Content-Disposition"]
    header, *rows = csv.reader(StringIO(sent.get_data(as_text=True).removeprefix("\ufeff")))
    alice = dict(zip(header, rows[0], strict=True))
    assert (alice["Name"], alice["State"], alice["Late"]) == ("Alice", "In progress", "No")
    assert (alice["Due, UTC"], alice["Due, America/Toronto"]) == ("2026-09-04 21:00", "2026-09-04 17:00")


def test_withdrawn(evening: Evening) -> None:
    followed = evening.assign(evening.make_conversions())
    gone = evening.ingrid.submit(followed, {}, "//form[contains(@action, '/withdraw')]")
    assert "Withdrawn 1 Sep 2026 10:30" in gone.words("//main")
    assert "Nothing has been assigned to you." in evening.alice.get_page("/sets").words("//main")


def test_single_students_and_what_a_class_was_given(evening: Evening) -> None:
    address = evening.make_conversions()
    alone: dict[str, Any] = {"class": [], "person": [evening.alice_id]}
    people = evening.assign(address, **alone)
    assert people.heading == "Conversions, for single students"
    assert not evening.bob.get_page("/sets").find(START)
    assert evening.alice.get_page("/sets").find(START)
    empty = evening.ingrid.get_page(f"/classes/{evening.class_id}/sets")
    assert "Nothing has been assigned to this class yet." in empty.words("//main")
    evening.assign(address)
    given = evening.ingrid.get_page(f"/classes/{evening.class_id}/sets")
    assert [words_of(each) for each in given.find("//ul/li")] == ["Conversions due 4 Sep 2026 17:00"]


def test_due_time_is_that_of_the_school_summer_and_winter(evening: Evening) -> None:
    """Toronto is at UTC-4 on 4 September and at UTC-5 on 4 December (IANA time zone data)."""
    for day, shown in (("2026-09-04", "Due 4 Sep 2026 17:00."), ("2026-12-04", "Due 4 Dec 2026 17:00.")):
        evening.assign(evening.make_conversions(), due_day=day)
        assert shown in evening.alice.get_page("/sets").words("//main")


def test_the_plan_for_today_leads_to_what_is_due(evening: Evening, clock: Clock) -> None:
    evening.assign(evening.make_conversions())
    today = evening.alice.get_page("/today")
    assert "Conversions Due 4 Sep 2026 17:00." in today.words("//main")
    assert today.find("//main//li/a[@href='/sets']")
    for forward, said in ((timedelta(days=3), "Due today, 4 Sep 2026 17:00."), (timedelta(hours=9), "Late.")):
        clock.forward(forward)
        assert said in evening.alice.get_page("/today").words("//main")


def test_assign_form_may_name_whom_it_is_for(evening: Evening) -> None:
    address = evening.make_conversions()
    page = evening.ingrid.get_page(f"{address}/assign?person={evening.alice_id}&class=nonsense")
    assert page.find("//input[@type='checkbox'][@checked]/@value") == [evening.alice_id]
    page = evening.ingrid.get_page(f"{address}/assign")
    assert page.find("//input[@type='checkbox'][@checked]/@value") == [evening.class_id]  # the only one she teaches


def test_two_clicks_from_the_first_page_to_who_has_not_done_it(evening: Evening) -> None:
    evening.assign(evening.make_conversions())
    first = evening.ingrid.get_page("/classes")
    second = evening.ingrid.get_page(first.find("//nav//a[contains(., 'Topic sets')]/@href")[0])
    third = evening.ingrid.get_page(second.find("//a[contains(@href, '/assignments/')]/@href")[0])
    assert "Not finished: Alice, Bob" in third.words("//main")


def test_pages_in_french(evening: Evening) -> None:
    amelie = evening.school.add(Role.STUDENT, "Amélie", "fr")
    evening.school.add_class("Soir", evening.school.add(Role.INSTRUCTOR, "Otto"), amelie)
    browser = evening.school.browser_of(amelie, "fr")
    assert browser.get_page("/sets").heading == "Séries de votre instructeur"
