"""The page of classes side by side: chosen, compared, opened by topic, saved."""

from uuid import UUID

import pytest

from app.services.actor import Role
from tests.fakes import START
from tests.services.tallied import tally
from tests.web.browsing import Browser
from tests.web.members import OneSchool


@pytest.fixture
def selma(school: OneSchool) -> Browser:
    return school.browser_of(school.add(Role.SCHOOL, "Selma"))


@pytest.fixture
def two(school: OneSchool) -> tuple[UUID, UUID]:
    """Day with five students who answered, and evening with one."""
    ingrid = school.add(Role.INSTRUCTOR, "Ingrid")
    day = [school.add(Role.STUDENT, f"Day{number}") for number in range(5)]
    tally(school.backend.uow, school.id, [each.visit_id for each in day], "true-to-compass", (10, 8), START)
    evening = school.add(Role.STUDENT, "Evening")
    return school.add_class("Day", ingrid, *day), school.add_class("Night", ingrid, evening)


def address(*class_ids: UUID, more: str = "") -> str:
    return "/school/cohorts?" + "&".join(f"class={each}" for each in class_ids) + more


def test_a_school_without_two_classes_is_told(selma: Browser) -> None:
    assert "This needs two classes at least" in selma.get_page("/school/cohorts").text


def test_from_the_header_to_a_topics_kinds_of_questions(selma: Browser, two: tuple[UUID, UUID]) -> None:
    page = selma.get_page(selma.get_page("/classes").find("//header//a[.='Side by side']/@href")[0])
    assert not page.find("//table")
    page = selma.get_page(address(*two))
    assert "5 students, 50 answers" in page.text
    assert "fewer than 5 students: not shown" in page.text
    assert page.find("//tr[th='Answers a week']//*[local-name()='svg']")
    inside = selma.get_page(page.find("//a[contains(@href, 'topic=datum')]/@href")[0])
    assert "5 students, 50 answers" in inside.text
    assert inside.find("//a[.='All topics']")
    assert inside.words("//main/section[1]/p[1]") == "Variation, deviation and conversions; All answers"
    weeks = selma.get_page(address(*two, more="&weeks=4"))
    assert weeks.words("//main/section[1]/p[1]") == "All topics; The latest 4 weeks"


def test_what_cannot_be_compared_is_said_and_the_choice_is_kept(selma: Browser, two: tuple[UUID, UUID]) -> None:
    page = selma.get_page(address(two[0], more="&weeks=4"), 422)
    assert page.words("//p[@id='class-refusal']") == "Number of classes chosen: 1. Accepted: 2 to 4."
    assert page.find("//input[@name='class'][@checked]/@value") == [str(two[0])]
    assert page.find("//option[@selected]/@value") == ["4"]
    assert "latest 7 weeks" in selma.get_page(address(*two, more="&weeks=7"), 422).words("//p[@id='weeks-refusal']")
    selma.get_page("/school/cohorts?class=day&class=night", 404)


def test_saved_as_a_table_and_noted(selma: Browser, two: tuple[UUID, UUID]) -> None:
    page = selma.get_page(address(*two))
    form = "//form[@action='/school/cohorts/table']"
    fields = page.fields(form) | {"class": [str(each) for each in two]}
    response = selma.post("/school/cohorts/table", fields)
    assert response.mimetype == "text/csv"
    assert "Day" in response.text
    assert "saved classes side by side as a table" in selma.get_page("/school/audit").text


def test_french(school: OneSchool, two: tuple[UUID, UUID]) -> None:
    page = school.browser_of(school.add(Role.SCHOOL, "Sylvie", "fr"), "fr").get_page(address(*two))
    assert page.heading == "Classes côte à côte"
    assert "5 élèves, 50 réponses" in page.text


def test_others_are_kept_out(school: OneSchool, other_school: OneSchool, two: tuple[UUID, UUID]) -> None:
    assert school.browser_of(school.add(Role.INSTRUCTOR, "Otto")).get(address(*two)).status_code == 403
    assert Browser(school.app).get(address(*two)).status_code == 403
    assert other_school.browser_of(other_school.add(Role.SCHOOL, "Dora")).get(address(*two)).status_code == 404
