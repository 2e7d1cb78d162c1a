"""The school looks at what marking past answers again would change, confirms it, and finds it noted."""

import pytest
from sqlalchemy import update

from app.services import past_answers
from app.services.actor import Role
from app.storage.base import table_of
from app.storage.models import Attempt
from tests.questions.replies import wrong_answer
from tests.web.browsing import Browser
from tests.web.members import OneSchool
from tests.web.student.answers import item_of

ATTEMPT = table_of(Attempt)
FAMILY = "compass-to-true"
PAGE = f"/school/quality/{FAMILY}/past-answers"
LOOK = f"{PAGE}?version=&since=&until="
CONFIRM = "//main//form[@method='post']"


@pytest.fixture
def selma(school: OneSchool) -> Browser:
    return school.browser_of(school.add(Role.SCHOOL, "Selma"))


@pytest.fixture
def alice(school: OneSchool) -> Browser:
    """Alice has missed two questions; an earlier key called both right."""
    browser = school.browser_of(school.add(Role.STUDENT, "Alice Roy"))
    page = browser.start_drill(FAMILY, length=2)
    for _ in range(2):
        browser.submit(page, wrong_answer(item_of(school.app, page)))
        page = browser.get_page(browser.get_page(browser.address).find("//a[contains(@class, 'next')]/@href")[0])
    spoil(school)
    return browser


def spoil(school: OneSchool) -> None:
    with school.backend.uow.writer() as connection:
        of_school = update(ATTEMPT).where(ATTEMPT.c.school_id == school.id)
        connection.execute(of_school.values(correct=True, share=1.0, misconceptions=[]))


def test_nothing_was_answered_yet(selma: Browser) -> None:
    assert "Nobody in this school has answered it yet." in selma.get_page(PAGE).text
    selma.get_page("/school/quality/no-such-family/past-answers", status=404)


@pytest.mark.usefixtures("alice")
def test_look_changes_nothing_and_shows_what_would_change(selma: Browser) -> None:
    page = selma.get_page(
        selma.get_page(f"/school/quality/{FAMILY}").find("//a[contains(@href, 'past-answers')]/@href")[0]
    )
    assert not page.find(CONFIRM)
    for _ in range(2):
        page = selma.get_page(LOOK)
        assert "Right then, missed today 2" in page.words("//section")
        assert "1 person Alice Roy" in page.words("//section")
        assert page.words("//section//ol/li[1]").endswith("then right · now missed")


def test_confirmed_once_told_and_noted(selma: Browser, alice: Browser) -> None:
    done = selma.submit(selma.get_page(LOOK), {}, CONFIRM)
    assert "2 answers marked again; 0 now right, 2 now missed" in done.words("//section[@id='done']")
    assert "there is nothing to do" in selma.get_page(LOOK).words("//section")
    assert "2 answers of yours were marked again" in alice.get_page("/today").words("//main")
    assert "had past answers marked again" in selma.get_page("/school/audit").text


@pytest.mark.usefixtures("alice")
def test_what_is_not_as_seen_is_shown_again(selma: Browser) -> None:
    page = selma.get_page(LOOK)
    again = selma.submit(page, {"seen": "something else"}, CONFIRM, status=409)
    assert "Nothing was done" in again.words("//*[@role='alert']")
    assert selma.submit(again, {}, CONFIRM).find("//section[@id='done']")
    twice = selma.submit(page, {}, CONFIRM, status=409)
    assert "there is nothing to do" in twice.words("//section")


@pytest.mark.usefixtures("alice")
@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("version=two", "“two” is no version"),
        ("version=&since=soon", "“soon” is no day"),
        ("version=&since=2026-09-02&until=2026-09-01", "lies before the first"),
    ],
)
def test_what_cannot_be_read_is_named(selma: Browser, asked: str, said: str) -> None:
    assert said in selma.get_page(f"{PAGE}?{asked}", status=422).words("//*[@role='alert']")


@pytest.mark.usefixtures("alice")
def test_days_and_versions_leave_the_others_alone(selma: Browser) -> None:
    assert "Looked at 0" in selma.get_page(f"{PAGE}?version=99").words("//section")
    assert "Looked at 2" in selma.get_page(f"{PAGE}?version=&since=2026-09-01&until=2026-09-01").words("//section")
    assert "Looked at 0" in selma.get_page(f"{PAGE}?version=&until=2026-08-31").words("//section")


@pytest.mark.usefixtures("alice")
def test_what_was_not_withdrawn_cannot_be_set_aside(selma: Browser) -> None:
    said = selma.get_page(f"{LOOK}&deed=set-aside", status=409).words("//*[@role='alert']")
    assert "Withdraw it first" in said
    assert "“erase” cannot be done" in selma.get_page(f"{LOOK}&deed=erase", status=422).text


def test_set_aside_seen_by_the_student_and_taken_back(selma: Browser, alice: Browser) -> None:
    summary = alice.address.partition("?")[0]
    page = selma.get_page(f"/school/quality/{FAMILY}")
    selma.submit(page, {"reason": "The key is wrong."}, "//main//form")
    page = selma.get_page(f"{LOOK}&deed=set-aside")
    assert "To be set aside 2 answers, 2 of them right" in page.words("//section")
    done = selma.submit(page, {}, CONFIRM)
    assert "2 answers set aside" in done.words("//section[@id='done']")
    assert "2 set aside" in done.words("//select[@id='version']")
    assert "set 2 answers of yours aside" in alice.get_page("/today").words("//main")
    page = alice.get_page(summary)
    assert page.heading == "0 of 0 right"
    verdict = alice.get_page(page.find("//main//ol//a[contains(., 'set aside')]/@href")[0])
    assert "counts nowhere any more" in verdict.words("//main")
    back = selma.submit(selma.get_page(f"{LOOK}&deed=counted"), {}, CONFIRM)
    assert "2 answers count again" in back.words("//section[@id='done']")
    assert "that were set aside count again" in alice.get_page("/today").words("//main")
    assert alice.get_page(summary).heading == "2 of 2 right"
    log = selma.get_page("/school/audit").text
    assert "set past answers aside" in log
    assert "let answers that were set aside count again" in log


@pytest.mark.usefixtures("alice")
def test_more_than_a_page_can_do_is_for_the_command(selma: Browser, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(past_answers, "MOST_AT_ONCE", 1)
    said = selma.get_page(LOOK, status=409).words("//*[@role='alert']")
    assert "These are 2 answers; a page takes at most 1." in said
    assert f"regrade {FAMILY}" in said


@pytest.mark.usefixtures("alice")
def test_in_french(school: OneSchool) -> None:
    page = school.browser_of(school.add(Role.SCHOOL, "Selma", "fr"), "fr").get_page(LOOK)
    assert page.heading.startswith("Réponses passées : ")
    assert "Réussies alors, manquées aujourd’hui 2" in page.words("//section")


def test_it_is_for_the_school_alone(school: OneSchool, alice: Browser) -> None:
    alice.get_page(PAGE, status=403)
    ingrid = school.browser_of(school.add(Role.INSTRUCTOR, "Ingrid"))
    ingrid.get_page(PAGE, status=403)
    assert not ingrid.get_page(f"/school/quality/{FAMILY}").find("//a[contains(@href, 'past-answers')]")


@pytest.mark.usefixtures("alice")
def test_another_school_sees_none_of_it(other_school: OneSchool) -> None:
    stranger = other_school.browser_of(other_school.add(Role.SCHOOL, "Sam"))
    assert "Nobody in this school" in stranger.get_page(LOOK).text
