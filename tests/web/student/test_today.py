"""The plan for today and one's own record, through their pages, over days."""

import csv
import json
from datetime import timedelta
from random import Random

import pytest
from flask import Flask

from app.grader.made_up import fields_of, wrong_value
from app.learner.evidence import Level, Skill
from app.learner.recall import Recall
from app.services.actor import Role
from app.services.learning import LearnerState, SkillState
from tests.fakes import Clock
from tests.pages import Page
from tests.questions.engine import library
from tests.questions.replies import right_answer, wrong_answer
from tests.web.browsing import Browser
from tests.web.members import OneSchool
from tests.web.student.answers import item_of

TODAY = "//form[@action='/today']"


def drill(app: Flask, browser: Browser, clock: Clock, *, rightly: bool, size: str = "items 5") -> Page:
    """Do today's drill to its end, a minute a question, and return the last verdict."""
    page = browser.submit(browser.get_page("/today"), {"size": size}, f"({TODAY})[1]")
    return to_the_end(app, browser, clock, page, rightly=rightly)


def to_the_end(app: Flask, browser: Browser, clock: Clock, page: Page, *, rightly: bool) -> Page:
    """Answer from an open question to the drill's end, a minute a question, and return the last verdict."""
    while page.find("//form[@id='answer']"):
        clock.forward(timedelta(minutes=1))
        item = item_of(app, page)
        page = browser.submit(page, (right_answer if rightly else wrong_answer)(item))
        onward = page.find("//a[contains(@class, 'next')]/@href")[0]
        if onward.endswith("summary"):
            break
        page = browser.get_page(onward)
    return page


def test_guest_finds_what_is_new(alice: Browser) -> None:
    page = alice.get_page("/today")
    assert page.heading == "Today"
    assert "Nothing is known of you yet" in page.text
    assert [" ".join(each.itertext()) for each in page.find("//h2")] == ["New"]
    assert "fills with your answers" in alice.get_page("/record").text


@pytest.mark.parametrize("language", ["en", "fr"])
def test_everything_mastered_and_a_month_away(
    app: Flask, clock: Clock, monkeypatch: pytest.MonkeyPatch, language: str
) -> None:
    now, browser = clock(), Browser(app, language)
    recall = Recall(now + timedelta(days=20), now, 20.0, 5.0, None, 2)
    skill = SkillState(Skill(4.0, 0.1, 20, 20, last_at=now), recall, mastered=True)
    known = LearnerState(Level(), dict.fromkeys(library().families, skill))
    monkeypatch.setattr("app.services.today.shown_state", lambda *_: known)
    words = browser.get_page("/today").words("//main")
    quiet = {
        "en": ("Nothing is due until 21 Sep 2026", "every kind"),
        "fr": ("avant le 21 sept. 2026", "tous les genres"),
    }
    assert all(each in words for each in quiet[language])
    clock.forward(timedelta(days=31))
    page = browser.get_page("/today")
    assert {"en": "31 days ago. Start with", "fr": "remonte à 31 jours. Commencez"}[language] in page.words("//main")
    assert page.find("//form[@action='/today']//button")


def test_drill_says_how_many_there_will_be_and_ends_there(app: Flask, alice: Browser, clock: Clock) -> None:
    page = alice.submit(alice.get_page("/today"), {"size": "items 5"}, f"({TODAY})[1]")
    assert "of 5" in page.title
    verdict = drill(app, alice, clock, rightly=True)
    assert "5" in verdict.title


def test_drill_of_one_topic_keeps_to_it(app: Flask, alice: Browser) -> None:
    page = alice.submit(alice.get_page("/today"), {"size": "items 5", "topic": "wind"}, f"({TODAY})[1]")
    assert item_of(app, page).pack == "wind"


def test_header_leads_a_student_to_today_and_the_record(school: OneSchool) -> None:
    browser = school.browser_of(school.add(Role.STUDENT, "Alice"))
    page = browser.get_page("/record")
    assert page.find("//nav/a[@aria-current]/@href") == ["/record"]
    assert browser.get_page("/readiness").find("//nav/a[@aria-current]/@href") == ["/today"]
    assert page.find("//nav/a[@href='/today']")


def test_drill_by_minutes_says_what_is_left(alice: Browser, clock: Clock) -> None:
    page = alice.submit(alice.get_page("/today"), {"size": "minutes 10"}, f"({TODAY})[1]")
    clock.forward(timedelta(minutes=3, seconds=1))
    again = alice.get_page(page.find("//form[@id='answer']/@action")[0])
    assert "Time left: 7 minutes" in again.words("//main")
    assert again.find("//*[@data-seconds]/@data-seconds") == ["419"]
    assert again.words("//title").startswith("Question 1, 7 min left: ")
    assert "of 1" not in again.words("//*[@class='progress']")
    assert "Time left" not in alice.get_page("/").words("//main")


def test_drill_by_minutes_ends_after_the_question_in_hand(app: Flask, alice: Browser, clock: Clock) -> None:
    drill(app, alice, clock, rightly=True, size="minutes 10")
    page = alice.get_page("/record")
    assert page.words("//main/p[1]").startswith("10 of 10 right")


def test_next_question_asked_for_when_the_time_is_over_is_the_summary(app: Flask, alice: Browser, clock: Clock) -> None:
    page = alice.submit(alice.get_page("/today"), {"size": "minutes 10"}, f"({TODAY})[1]")
    verdict = alice.submit(page, right_answer(item_of(app, page)))
    onward = verdict.find("//a[contains(@class, 'next')]/@href")[0]
    assert onward.endswith("/questions/2")
    assert alice.get_page("/today").find("//a[starts-with(@href, '/drills/')]")
    clock.forward(timedelta(minutes=11))
    assert alice.get_page(onward).words("//h1") == "1 of 1 right"
    assert not alice.get_page("/today").find("//a[starts-with(@href, '/drills/')]")


@pytest.mark.parametrize(("size", "named"), [("items 0", "0 questions"), ("minutes 500", "500"), ("hours", "0")])
def test_size_that_cannot_be_is_named(alice: Browser, size: str, named: str) -> None:
    page = alice.submit(alice.get_page("/today"), {"size": size}, f"({TODAY})[1]", 422)
    assert named in page.words("//main//strong")


def test_reviews_fall_due_mistakes_are_kept_and_leave(app: Flask, alice: Browser, clock: Clock) -> None:
    drill(app, alice, clock, rightly=False)
    record = alice.get_page("/record")
    assert record.words("//main/p[1]").startswith("0 of 5 right")
    mistakes = record.find("//ol//a/@href")
    assert len(mistakes) == 5
    assert alice.get_page(mistakes[0]).find("//section[@id='verdict']")
    for _ in range(14):
        clock.forward(timedelta(days=3))
        drill(app, alice, clock, rightly=True, size="items 20")
    assert alice.get_page("/today").heading == "Today"
    later = alice.get_page("/record")
    assert len(later.find("//ol//a/@href")) < 5
    assert later.find("//td[normalize-space()='yes']")


def test_record_stays_short_whatever_was_missed(app: Flask, alice: Browser, clock: Clock) -> None:
    everything = alice.submit(alice.get_page("/topics"), {"length": "20"}, "//main//form")
    to_the_end(app, alice, clock, everything, rightly=False)
    drill(app, alice, clock, rightly=False)
    page = alice.get_page("/record")
    kinds = page.find("//ol/li")
    assert len(page.find("//ol//a/@href")) == 25 > len(kinds)
    assert len(page.find("//ol[not(ancestor::details)]/li")) == 10
    assert page.find(f"//details/summary[starts-with(normalize-space(), '{len(kinds) - 10} other kinds')]")
    assert page.find("//table[not(ancestor::details)]") == []
    assert {words.strip() for words in page.find("//tr/td[3]/text()")} == {"fewer than six answers"}


def test_misconception_shown_is_offered_to_mend(app: Flask, alice: Browser, clock: Clock) -> None:
    for _ in range(3):
        drill(app, alice, clock, rightly=False, size="items 20")
    page = alice.get_page("/today")
    named = page.find("//input[@name='misconception']/@value")
    assert named
    form = f"//form[.//input[@value='{named[0]}']]"
    question = alice.submit(page, {}, form)
    item = item_of(app, question)
    name = named[0].partition("/")[2]
    assert name in item.misconceptions


def test_summary_says_what_became_of_what_was_to_be_mended(app: Flask, alice: Browser, clock: Clock) -> None:
    for _ in range(3):
        drill(app, alice, clock, rightly=False, size="items 20")
    page = alice.get_page("/today")
    misconception = page.find("//input[@name='misconception']/@value")[0]
    again = f"//form[.//input[@value='{misconception}']]"
    held = misconception.partition("/")[2]
    page = alice.submit(page, {}, again)
    for _ in range(5):
        item = item_of(app, page)
        verdict = alice.submit(page, fields_of(library(), item, wrong_value(library(), item, Random(1), {held})))
        page = alice.get_page(verdict.find("//a[contains(@class, 'next')]/@href")[0])
    assert "Still open" in page.text
    mended = to_the_end(app, alice, clock, alice.submit(page, {}, again), rightly=True)
    summary = alice.get_page(mended.find("//a[contains(@class, 'next')]/@href")[0])
    assert "Mended" in summary.text
    assert not summary.find(again)


def test_own_data_holds_every_answer_and_a_guest_has_none(
    app: Flask, alice: Browser, bob: Browser, clock: Clock
) -> None:
    drill(app, alice, clock, rightly=False)
    sent = alice.get("/record/answers.json")
    assert sent.mimetype == "application/json"
    answers = json.loads(sent.get_data(as_text=True))["answers"]
    assert len(answers) == 5
    assert {"numbers", "shown", "answer", "right", "misconceptions"} <= set(answers[0])
    assert bob.get("/record/answers.json").status_code == 404


def test_own_answers_open_in_a_spreadsheet(app: Flask, alice: Browser, bob: Browser, clock: Clock) -> None:
    drill(app, alice, clock, rightly=False)
    sent = alice.get("/record/answers.csv")
    assert sent.mimetype == "text/csv"
    rows = list(csv.reader(sent.get_data(as_text=True).lstrip("\ufeff").splitlines()))
    assert rows[0][:2] == ["Answered, UTC", "Kind of question"]
    assert [row[4] for row in rows[1:]] == ["0"] * 5
    assert [row for row in rows[1:] if not (row[2] and row[3])] == []
    assert {row[6] for row in rows[1:]} == {"60"}
    assert bob.get("/record/answers.csv").status_code == 404


def test_student_reads_french(school: OneSchool, clock: Clock) -> None:
    browser = school.browser_of(school.add(Role.STUDENT, "Amélie", "fr"), "fr")
    assert browser.get_page("/today").heading == "Aujourd’hui"
    drill(school.app, browser, clock, rightly=False)
    assert browser.get_page("/record").heading == "Mon dossier"


def test_what_was_withdrawn_cannot_be_mended_and_the_pages_say_why(school: OneSchool, clock: Clock) -> None:
    head, browser = (
        school.browser_of(school.add(Role.SCHOOL, "Selma")),
        school.browser_of(school.add(Role.STUDENT, "Alice")),
    )
    mend = {"misconception": "true-to-compass/both-signs", "size": "items 5"}
    page = browser.submit(browser.get_page("/today"), mend, f"({TODAY})[1]")
    for _ in range(5):
        clock.forward(timedelta(minutes=1))
        item = item_of(school.app, page)
        fields = fields_of(library(), item, wrong_value(library(), item, Random(1), {"both-signs"}))
        summary = browser.submit(page, fields).find("//a[contains(@class, 'next')]/@href")[0]
        page = browser.get_page(summary)
    assert browser.get_page(summary).find("//main//input[@name='misconception']")
    quality = head.get_page("/school/quality/true-to-compass")
    withdrawing = "//form[contains(@action, 'withdraw')]"
    head.submit(quality, {"reason": "The key is wrong."}, withdrawing)
    after = browser.get_page(summary)
    assert "your school has withdrawn these questions" in after.text
    assert not after.find("//main//input[@name='misconception']")
    refused = browser.submit(browser.get_page("/today"), mend, f"({TODAY})[1]", 409)
    assert "withdrawn these questions: True to magnetic to compass" in refused.text
