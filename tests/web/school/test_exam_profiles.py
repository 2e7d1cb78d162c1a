"""A school's own exam profiles: copied, changed, taken away; nobody else's."""

import pytest

from app.services.actor import Role
from tests.pages import Page
from tests.web.browsing import Browser
from tests.web.members import OneSchool

UK = "//form[@action='/school/exam-profiles'][input/@value='uk-navigation']"
CHANGE = "//form[input/@name='version']"


@pytest.fixture
def selma(school: OneSchool) -> Browser:
    return school.browser_of(school.add(Role.SCHOOL, "Selma"))


def copy(browser: Browser) -> Page:
    return browser.submit(browser.get_page("/school/exam-profiles"), {}, UK)


def filled_in(page: Page) -> dict[str, object]:
    """The form as it stands."""
    fields: dict[str, object] = {
        each.get("name"): each.get("value", "") for each in page.find(f"{CHANGE}//input[@type='text']")
    }
    for each in page.find(f"{CHANGE}//input[@type='checkbox'][@checked]"):
        fields.setdefault(each.get("name"), [])
        fields[each.get("name")] += [each.get("value")]  # type: ignore[operator] # a list
    return fields


def test_copy_is_changed_and_rehearsed(school: OneSchool, selma: Browser) -> None:
    page = copy(selma)
    fields = filled_in(page) | {"name": "Our navigation paper", "asked_0": "3", "minutes": "40", "pass_0": "70"}
    listed = selma.submit(page, fields, CHANGE)
    words = listed.words("//main")
    assert "Our navigation paper" in words
    assert "12 questions in 40 minutes, 75% to pass." in words
    assert "3 questions here, own mark 70%" in words
    assert "(your school)" in words
    student = school.browser_of(school.add(Role.STUDENT, "Alice"))
    started = student.submit(
        student.get_page("/rehearsals"), {}, "//form[@action='/rehearsals'][contains(p/button, ': 3\u00a0questions')]"
    )
    assert started.heading == "Our navigation paper"
    assert len(started.find("//main//ol/li")) == 3
    assert "copied an exam profile" in selma.get_page("/school/audit").words("//main")


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("questions", "13", "The sections have 12 questions together; the exam has 13."),
        ("minutes", "many", "“many” is not accepted here. Accepted: a whole number from 1 to 480."),
        ("pass_0", "101", "“101” is not accepted here. Accepted: a whole number from 0 to 100."),
        ("asked_0", "0", "A rehearsal would ask 0 questions."),
        ("kinds_0", "no-such-kind", "“no-such-kind” is no kind of question."),
        ("source", "", "Accepted: 1 to 120 characters"),
    ],
)
def test_bad_value_is_named_and_nothing_is_lost(selma: Browser, field: str, value: str, said: str) -> None:
    page = copy(selma)
    refused = selma.submit(page, filled_in(page) | {"name": "Typed here", field: value}, CHANGE, 422)
    assert said in refused.words("//*[@role='alert']")
    assert filled_in(refused)["name"] == "Typed here"
    assert filled_in(refused)[field] == value
    assert "Typed here" not in selma.get_page("/school/exam-profiles").words("//main")


def test_section_that_asks_needs_a_topic(selma: Browser) -> None:
    page = copy(selma)
    refused = selma.submit(page, filled_in(page) | {"topics_0": []}, CHANGE, 422)
    assert "asks questions of no topic" in refused.words("//*[@role='alert']")


def test_second_writer_is_told(selma: Browser) -> None:
    page = copy(selma)
    selma.submit(page, filled_in(page), CHANGE)
    assert "Somebody has changed this profile" in selma.submit(page, filled_in(page), CHANGE, 409).words("//main")


def test_unchanged_words_stay_in_both_languages(selma: Browser) -> None:
    page = copy(selma)
    selma.submit(page, filled_in(page), CHANGE)
    page = selma.get_page("/school/exam-profiles")
    selma.submit(page, {"language": "fr"}, "//form[.//button[@value='fr']]")
    assert "Royaume-Uni, PPL" in selma.get_page("/school/exam-profiles").words("//h2")


def test_taken_away(selma: Browser) -> None:
    copy(selma)
    page = selma.get_page("/school/exam-profiles")
    listed = selma.submit(page, {}, "//form[contains(@action, '/remove')]")
    assert not listed.find("//form[contains(@action, '/remove')]")


def test_other_schools_and_roles_have_no_part(school: OneSchool, other_school: OneSchool, selma: Browser) -> None:
    page = copy(selma)
    address = selma.address
    dora = other_school.browser_of(other_school.add(Role.SCHOOL, "Dora"))
    dora.get_page(address, 404)
    token = dora.get_page("/school/exam-profiles").token
    for path in (address, f"{address}/remove"):
        dora.send(path, filled_in(page) | {"csrf_token": token}, 404)
    profile = address.rpartition("/")[2]
    dora.send("/school/exam-profiles", {"csrf_token": token, "profile": profile}, 404)
    dora.get_page(f"/readiness?profile={profile}", 404)
    for role in (Role.STUDENT, Role.INSTRUCTOR):
        school.browser_of(school.add(role, role.value)).get_page(address, 403)
