"""The log, for the school administrator alone."""

from datetime import timedelta
from typing import Any

from app.services import audit
from app.services.actor import Role
from app.services.audit import PAGE
from tests.fakes import START
from tests.pages import words_of
from tests.web.browsing import Browser
from tests.web.members import OneSchool


def test_lists_newest_first_a_page_at_a_time(school: OneSchool) -> None:
    ingrid, selma = school.add(Role.INSTRUCTOR, "Ingrid"), school.browser_of(school.add(Role.SCHOOL, "Selma"))
    with school.backend.uow.writer() as connection:
        for number in range(PAGE + 1):
            later = START + timedelta(seconds=number)
            audit.note_for(
                connection, school.id, (ingrid.id, ingrid.name), ("class-made", f"<b>{number}</b>"), later, days=7
            )
    page = selma.get_page("/school/audit")
    row = [words_of(each) for each in page.find("//tbody/tr[1]/*")]
    assert row[0].endswith("2026 10:31")  # 14:31 UTC in Toronto
    assert row[1:] == ["Ingrid", "made a class", "<b>100</b>", "days: 7"]
    older = selma.get_page(page.find("//main//a/@href")[0])
    assert len(older.find("//tbody/tr")) == 2  # the first entry, and Selma's own sign-in
    assert older.find("//main//a[@href='/school/audit']")


def test_details_are_words_and_what_is_empty_says_nothing(school: OneSchool) -> None:
    ingrid, sylvie = school.add(Role.INSTRUCTOR, "Ingrid"), school.add(Role.SCHOOL, "Sylvie", "fr")
    details: dict[str, Any] = {
        "kind": "taught",
        "corrects": True,
        "due_at": START.isoformat(),
        "overridden": "rehearsals, sections",
    }
    with school.backend.uow.writer() as connection:
        for later, each in enumerate(
            (details, {"due_at": None, "corrects": False, "reason": "", "lost": 0, "school_class": "student"})
        ):
            who, what = (ingrid.id, ingrid.name), ("record-entry", "Alice")
            audit.note_for(connection, school.id, who, what, START + timedelta(minutes=later), **each)
    page = school.browser_of(sylvie, "fr").get_page("/school/audit")
    empty, full = (words_of(each).replace("\u00a0", " ") for each in page.find("//tr[td='Alice']/td[last()]"))
    assert empty == "n’ont pu être notées de nouveau : 0; classe : student"
    assert full.startswith("genre : enseigné; en corrige une précédente; à rendre : 1 sept. 2026 10:30; malgré : rép")


def test_kinds_of_questions_and_settings_are_told_in_the_readers_words(school: OneSchool) -> None:
    ingrid, sylvie = school.add(Role.INSTRUCTOR, "Ingrid"), school.add(Role.SCHOOL, "Sylvie", "fr")
    with school.backend.uow.writer() as connection:
        for later, (action, named, details) in enumerate(
            (
                ("report-settled", "true-to-compass", {}),
                ("class-made", "true-to-compass", {}),
                ("question-withdrawn", "gone-from-the-packs", {}),
                ("school-changed", "Kestrel", {"bars": "{'rehearsals': 3}", "name": "Kestrel"}),
            )
        ):
            moment = START + timedelta(minutes=later)
            audit.note_for(connection, school.id, (ingrid.id, "Ingrid"), (action, named), moment, **details)
    page = school.browser_of(sylvie, "fr").get_page("/school/audit")
    told = [words_of(each).replace("\u00a0", " ") for each in page.find("//tr[td='Ingrid']/td[position() > 2]")]
    assert told[:2] == ["Kestrel", "ce qui est demandé avant une recommandation; nom : Kestrel"]
    assert told[2::2] == ["gone-from-the-packs", "true-to-compass", "Du vrai au magnétique au compas"]


def test_another_school_sees_nothing_of_it(school: OneSchool, other_school: OneSchool) -> None:
    school.browser_of(school.add(Role.INSTRUCTOR, "Ingrid"))
    dora = other_school.browser_of(other_school.add(Role.SCHOOL, "Dora"))
    assert "Ingrid" not in dora.get_page("/school/audit").text


def test_is_for_the_school_alone(school: OneSchool) -> None:
    for role in (Role.STUDENT, Role.INSTRUCTOR):
        school.browser_of(school.add(role, role.title())).get_page("/school/audit", status=403)
    page = Browser(school.app).get_page("/school/audit", status=403)
    assert page.find("//main//a[@href='/sign-in?onward=/school/audit']")
