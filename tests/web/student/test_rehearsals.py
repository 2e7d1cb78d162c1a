"""Rehearsals as pages: keep, flag, change, time out, look back; the formula sheet is closed meanwhile."""

from datetime import timedelta
from uuid import UUID

import pytest
from flask import Flask

from app.services.actor import Role
from app.storage.base import table_of
from app.storage.models import DrillItem
from app.web.current import NAME
from tests.fakes import Clock
from tests.pages import Page
from tests.questions.replies import right_answer, wrong_answer
from tests.web.browsing import Browser
from tests.web.members import OneSchool
from tests.web.student.answers import item_of

UK = "//form[@action='/rehearsals'][input/@value='uk-navigation']"


def start(browser: Browser, *, strict: bool = True) -> str:
    """Start the paper of twelve questions and return the rehearsal's address."""
    page = browser.get_page("/rehearsals")
    browser.submit(page, {"strict": "1"} if strict else {}, UK)
    return browser.address


def fill_in(
    app: Flask, browser: Browser, address: str, position: int, *, right: bool = True, flag: bool = False
) -> Page:
    page = browser.get_page(f"{address}/questions/{position}")
    answer = right_answer(item_of(app, page)) if right else wrong_answer(item_of(app, page))
    return browser.submit(page, dict(answer) | ({"flag": "1"} if flag else {}))


def hand_in(browser: Browser, address: str) -> Page:
    return browser.submit(browser.get_page(address), {}, "//form[@id='end']")


def drill_of(app: Flask, item_id: UUID) -> UUID:
    table = table_of(DrillItem)
    with app.extensions[NAME].uow.reader() as connection:
        return connection.execute(table.select().where(table.c.id == item_id)).mappings().one()["drill_id"]


def test_profiles_say_where_their_figures_come_from(alice: Browser) -> None:
    words = alice.get_page("/rehearsals").words("//main")
    assert "The real exam: 100 questions in 180 minutes, 60% to pass." in words
    assert "is not confirmed" in words
    assert "seen only in a secondary text" in words
    assert words.count("Checked on 25 Nov 2026") == 3
    assert "Our topics cover about 20% of it, by our own estimate" in words


def test_walk_from_start_to_verdict(app: Flask, alice: Browser) -> None:
    address = start(alice)
    page = fill_in(app, alice, address, 1)
    assert alice.address == f"{address}/questions/2"
    assert "verdict" not in page.text
    fill_in(app, alice, address, 2, flag=True)
    assert alice.address == f"{address}/questions/2"
    rows = [" ".join(each.itertext()) for each in alice.get_page(address).find("//main//ol/li")]
    assert [row.split()[3:] for row in rows[:3]] == [["answered"], ["answered,", "flagged"], ["open"]]
    fill_in(app, alice, address, 2, right=False)
    result = hand_in(alice, address)
    assert result.heading == "Marks not reached"
    assert "1 of 12" in result.words("//table")
    verdict = alice.get_page(result.find("//main//ol/li/a/@href")[0])
    assert verdict.find("//section[@id='verdict']")
    summary = alice.get_page(verdict.find("//a[.='See the summary']/@href")[0])
    assert summary.heading == "1 of 2 right"
    assert "10 questions had no answer." in summary.words("//main")
    assert alice.get_page(summary.find("//a[.='Marks by section']/@href")[0]).heading == "Marks not reached"


def test_what_was_left_open_is_shown_with_its_key_once_it_is_over(app: Flask, alice: Browser) -> None:
    address = start(alice)
    fill_in(app, alice, address, 1)
    item = item_of(app, alice.get_page(f"{address}/questions/3"))
    third = hand_in(alice, address).find("//main//ol/li[3]/a")[0]
    assert "no answer" in " ".join(third.itertext())
    shown = alice.get_page(third.get("href"))
    key = right_answer(item)["choice"]
    assert shown.words("//*[@id='verdict']//h2").startswith("No answer. The right one")
    assert shown.find(f"//ol[contains(@class, 'answered')]/li[{int(key) + 1}]/*[.='the answer']")
    assert shown.find("//ol[@class='working']/li")
    assert "your answer" not in shown.words("//main").lower()
    summary = alice.get_page(shown.find("//a[.='See the summary']/@href")[0])
    assert third.get("href") in summary.find("//main//ol/li/a/@href")


def test_nothing_is_looked_back_on_before_the_end(app: Flask, alice: Browser) -> None:
    address = start(alice)
    page = alice.get_page(f"{address}/questions/1")
    item_id = page.find("//input[@name='item']/@value")[0]
    alice.get_page(f"/items/{item_id}", status=409)
    alice.get_page(f"/drills/{drill_of(app, UUID(item_id))}/summary")
    assert alice.address == address


def test_looking_back_goes_from_one_missed_question_to_the_next(app: Flask, alice: Browser) -> None:
    address = start(alice)
    for position, right in ((1, False), (2, True), (4, False), (5, False)):
        fill_in(app, alice, address, position, right=right)
    first, right_one, third, fourth, fifth, sixth = hand_in(alice, address).find("//main//ol/li/a/@href")[:6]

    def ways(item: str) -> dict[str, str]:
        links = alice.get_page(item).find("//p[@class='actions']/a[contains(., 'missed')]")
        return {link.text: link.get("href") for link in links}

    assert ways(first) == {"Next missed question": third}
    assert ways(right_one) == {"Next missed question": third, "Previous missed question": first}
    assert ways(third) == {"Next missed question": fourth, "Previous missed question": first}
    assert ways(fifth) == {"Next missed question": sixth, "Previous missed question": fourth}


@pytest.mark.parametrize(("to", "ends_at"), [("before", "/questions/1"), ("after", "/questions/3"), ("all", "")])
def test_going_elsewhere_keeps_what_was_chosen(app: Flask, alice: Browser, to: str, ends_at: str) -> None:
    address = start(alice)
    page = alice.get_page(f"{address}/questions/2")
    alice.submit(page, {**right_answer(item_of(app, page)), "to": to})
    assert alice.address == address + ends_at
    assert "11 questions have no answer yet." in alice.get_page(address).words("//main")


def test_going_elsewhere_asks_for_no_answer(alice: Browser) -> None:
    address = start(alice)
    alice.submit(alice.get_page(f"{address}/questions/1"), {"to": "after"})
    assert alice.address == f"{address}/questions/2"
    assert "12 questions have no answer yet." in alice.get_page(address).words("//main")


def test_kept_answer_is_shown_again(app: Flask, alice: Browser) -> None:
    """As after a lost connection: whoever comes back finds it as it was."""
    address = start(alice)
    fill_in(app, alice, address, 1)
    page = alice.get_page(f"{address}/questions/1")
    kept = page.find("//form[@id='answer']//input[@checked]/@value")
    assert kept == [right_answer(item_of(app, page))["choice"]]


def test_all_right_reaches_the_marks(app: Flask, alice: Browser) -> None:
    address = start(alice)
    for position in range(1, 13):
        fill_in(app, alice, address, position)
    assert alice.address == address
    assert hand_in(alice, address).heading == "Marks reached"


def test_time_out(app: Flask, alice: Browser, clock: Clock) -> None:
    address = start(alice)
    fill_in(app, alice, address, 1)
    late = alice.get_page(f"{address}/questions/2")
    clock.forward(timedelta(minutes=45))
    page = alice.submit(late, right_answer(item_of(app, late)))
    assert "Time was up at 1 Sep 2026 15:15" in page.words("//main")
    clock.forward(timedelta(days=1))
    assert alice.get_page(f"{address}/questions/2").find("//form[@id='end']")
    result = hand_in(alice, address)
    assert "1 of 12" in result.words("//table")
    assert "handed in 1 Sep 2026 15:15" in result.words("//main")


def test_unreadable_answer_is_said_and_stays(alice: Browser) -> None:
    address = start(alice)
    page = alice.get_page(f"{address}/questions/1")
    refused = alice.submit(page, {}, status=422)
    assert refused.find("//*[@id='refusal']")


def test_leads_to_what_is_open_and_hands_in_only_on_a_second_thought(app: Flask, alice: Browser) -> None:
    address = start(alice)
    fill_in(app, alice, address, 1)
    page = alice.get_page(address)
    assert page.find("//main//a[contains(@class, 'button')]/@href") == [f"{address}/questions/2"]
    assert page.find("//details[not(@open)]//form[@id='end']//button")
    for position in range(2, 13):
        fill_in(app, alice, address, position)
    page = alice.get_page(address)
    assert "Every question has an answer." in page.words("//main")
    assert page.find("//form[@id='end'][not(ancestor::details)]//button")


def test_pause_and_going_on(alice: Browser, clock: Clock) -> None:
    address = start(alice, strict=False)
    page = alice.submit(alice.get_page(address), {}, f"//form[@action='{address}/pause']")
    assert "Paused" in page.words("//main")
    clock.forward(timedelta(hours=3))
    assert "Paused" in alice.get_page(f"{address}/questions/1").words("//main")
    page = alice.submit(alice.get_page(address), {}, f"//form[@action='{address}/go-on']")
    assert page.words("//*[@role='timer']") == "Time left: 45 minutes"


def test_strict_offers_no_pause(alice: Browser) -> None:
    address = start(alice)
    page = alice.get_page(address)
    assert not page.find("//form[contains(@action, '/pause')]")
    assert "strict mode" in alice.send(f"{address}/pause", {"csrf_token": page.token}, 409).words("//main")


def test_formula_sheet_is_closed_for_the_one_who_rehearses(alice: Browser, bob: Browser) -> None:
    address = start(alice)
    closed = alice.get_page("/reference", 409)
    assert "formula sheet is closed" in closed.words("//main")
    assert closed.find("//main//a/@href") == [address]
    bob.get_page("/reference")
    hand_in(alice, address)
    alice.get_page("/reference")


def test_today_leads_back_to_a_rehearsal_that_is_not_marked(alice: Browser, clock: Clock) -> None:
    address = start(alice)
    back = f"//p[@class='notice']/a[@href='{address}']"
    assert alice.get_page("/today").words(back) == "Back to the rehearsal"
    clock.forward(timedelta(minutes=46))
    assert alice.get_page("/today").words(back) == "Time is up: see the result"
    hand_in(alice, address)
    assert not alice.get_page("/today").find(back)


@pytest.mark.parametrize("end", ["", "/questions/1"])
def test_stranger_finds_nothing(alice: Browser, bob: Browser, end: str) -> None:
    address = start(alice)
    bob.get_page(address + end, 404)
    token = bob.get_page("/rehearsals").token
    for path in ("/end", "/pause", "/go-on", "/questions/1"):
        bob.send(address + path, {"csrf_token": token}, 404)


def test_student_in_french(app: Flask, school: OneSchool) -> None:
    browser = school.browser_of(school.add(Role.STUDENT, "Amelie", "fr"), "fr")
    address = start(browser)
    fill_in(app, browser, address, 1)
    assert hand_in(browser, address).heading == "Notes de passage non atteintes"


def test_readiness_begins_with_not_enough(alice: Browser) -> None:
    page = alice.get_page("/readiness?profile=uk-navigation")
    assert "If you sat it today: not enough answers yet." in page.words("//main")
    drill = alice.submit(page, {"family": page.find("//input[@name='family']/@value")}, "//form[@action='/drills']")
    assert drill.title.startswith("Question 1 of 10")


def test_readiness_on_a_day(alice: Browser) -> None:
    assert "On 1 Dec 2026, without more practice:" in alice.get_page("/readiness?on=2026-12-01").words("//main")
    page = alice.get_page("/readiness?on=2020-01-01", 422)
    assert "“2020-01-01” is no day to sit an exam on" in page.words("//*[@id='on-refusal']")
    alice.get_page("/readiness?profile=nothing", 404)
