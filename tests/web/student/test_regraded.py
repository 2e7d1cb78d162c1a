"""Whoever's answers were marked again reads it once on the page of today."""

import pytest
from sqlalchemy import select, update

from app.services import regrade_notice
from app.services.actor import Role
from app.services.regrading import apply
from app.storage.base import table_of
from app.storage.models import Attempt
from app.storage.queries.past_answers import Past
from app.storage.queries.regrading import UntoldRow, list_untold
from tests.fakes import START
from tests.questions.engine import library
from tests.questions.replies import wrong_answer
from tests.web.browsing import Browser
from tests.web.members import OneSchool
from tests.web.student.answers import item_of

ATTEMPT = table_of(Attempt)


@pytest.fixture
def alice(school: OneSchool) -> Browser:
    """Alice, who missed a question."""
    browser = school.browser_of(school.add(Role.STUDENT, "Alice"))
    page = browser.start_drill("compass-to-true", length=1)
    browser.submit(page, wrong_answer(item_of(school.app, page)))
    return browser


def regrade(school: OneSchool) -> None:
    with school.backend.uow.writer() as connection:  # as an earlier key would have marked it
        wrongly = update(ATTEMPT).where(ATTEMPT.c.school_id == school.id).values(correct=True, share=1.0)
        connection.execute(wrongly)
    apply(school.backend.uow, library(), school.id, Past("compass-to-true"), (None, "Selma"), START)


def test_notice_names_question_and_both_marks_until_it_was_read(school: OneSchool, alice: Browser) -> None:
    assert not alice.get_page("/today").find("//form[contains(@action, 'regraded')]")
    regrade(school)
    page = alice.get_page("/today")
    assert "1 answer of yours was marked again" in page.words("//main")
    assert page.words("//form[@class='notice']//li") == "Compass to magnetic to true: before: right; now: missed"
    verdict = alice.get_page(page.find("//form[@class='notice']//li/a/@href")[0])
    assert verdict.find("//*[@id='verdict']")
    page = alice.get_page("/today")
    page = alice.submit(page, {}, "//form[contains(@action, 'regraded')]")
    assert "marked again" not in page.words("//main")


def test_mark_that_is_held_back_stays_so(school: OneSchool, alice: Browser, monkeypatch: pytest.MonkeyPatch) -> None:
    regrade(school)
    (item,) = (row.drill_item_id for row in untold(school))
    monkeypatch.setattr(regrade_notice, "held_items", lambda *_: frozenset({item}))
    notice = alice.get_page("/today").words("//form[@class='notice']//li")
    assert notice == "Compass to magnetic to true: its mark is shown once the set’s answers are."


def untold(school: OneSchool) -> tuple[UntoldRow, ...]:
    with school.backend.uow.reader() as connection:
        (visit,) = connection.execute(select(ATTEMPT.c.visit_id).where(ATTEMPT.c.school_id == school.id)).scalars()
        return list_untold(connection, school.id, visit)
