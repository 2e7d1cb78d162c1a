"""Whoever's answers were marked again reads it once on the page of today."""

from sqlalchemy import update

from app.services.actor import Role
from app.services.regrading import apply
from app.storage.base import table_of
from app.storage.models import Attempt
from app.storage.queries.past_answers import Past
from tests.fakes import START
from tests.questions.engine import library
from tests.questions.replies import wrong_answer
from tests.web.members import OneSchool
from tests.web.student.answers import item_of

ATTEMPT = table_of(Attempt)


def test_notice_stands_until_it_was_read(school: OneSchool) -> None:
    alice = school.browser_of(school.add(Role.STUDENT, "Alice"))
    page = alice.start_drill("compass-to-true", length=1)
    alice.submit(page, wrong_answer(item_of(school.app, page)))
    assert not alice.get_page("/today").find("//form[contains(@action, 'regraded')]")
    uow = school.backend.uow
    with uow.writer() as connection:  # as an earlier key would have marked it
        wrongly = update(ATTEMPT).where(ATTEMPT.c.school_id == school.id).values(correct=True, share=1.0)
        connection.execute(wrongly)
    apply(uow, library(), school.id, Past("compass-to-true"), (None, "Selma"), START)
    page = alice.get_page("/today")
    assert "1 answer of yours was marked again" in page.words("//main")
    page = alice.submit(page, {}, "//form[contains(@action, 'regraded')]")
    assert "marked again" not in page.words("//main")
