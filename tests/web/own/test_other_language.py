"""Whoever reads the other language is told that an own question is written in one only, and it is marked as such."""

import pytest

from app.services.actor import Role
from app.services.own_library import family_id
from tests.pages import Page, words_of
from tests.web.browsing import Browser
from tests.web.members import OneSchool
from tests.web.own.test_own_questions import RELEASE, own_id, write
from tests.web.sets.evening import DEFAULTS, SET_FORM

SAID = "Cette question est rédigée en anglais seulement."


@pytest.fixture
def family(school: OneSchool) -> str:
    """The released question, in English alone."""
    ingrid, selma = (
        school.browser_of(school.add(role, name)) for role, name in ((Role.INSTRUCTOR, "Ina"), (Role.SCHOOL, "Selma"))
    )
    write(ingrid)
    selma.submit(selma.get_page(ingrid.address), {}, RELEASE)
    return family_id(own_id(ingrid))


def marked(page: Page) -> list[str]:
    """Return the words of the page that are marked as English."""
    return [words_of(each) for each in page.find("//main//*[@lang='en']")]


def into_french(browser: Browser) -> Browser:
    page = browser.get_page("/topics")
    browser.submit(page, {"language": "fr"}, "//form[@action='/language']")
    return browser


def test_in_a_drill_and_its_verdict(school: OneSchool, family: str) -> None:
    alice = into_french(school.browser_of(school.add(Role.STUDENT, "Alice")))
    question = alice.start_drill(family, length=1)
    assert SAID in question.text
    assert marked(question)[:2] == [
        "Which part of the compass stays with the aircraft?",
        "You sit in WZG <on the apron>.",
    ]
    assert "the two magnets" in marked(question)[2]
    wrong = next(
        each.find(".//input").get("value")
        for each in question.find("//label[.//input[@name='choice']]")
        if "magnets" in words_of(each)
    )
    verdict = alice.submit(question, {"choice": wrong})
    assert SAID in verdict.text
    english = marked(verdict)
    assert {"the two magnets", "The magnets hold the card to the field.", "Magnets and card are one."} <= set(english)
    assert any("The line is painted on the bowl." in each for each in english)


def test_in_a_set_its_sheet_and_its_key(school: OneSchool, family: str) -> None:
    berthe = into_french(school.browser_of(school.add(Role.INSTRUCTOR, "Berthe")))
    made = berthe.submit(berthe.get_page("/topic-sets/new"), DEFAULTS | {"fixed": family}, SET_FORM)
    assert SAID in made.text
    address = berthe.address
    for page in (made, berthe.get_page(f"{address}/sheet"), berthe.get_page(f"{address}/key")):
        assert any("Which part of the compass stays with the aircraft?" in each for each in marked(page))
        assert any("the lubber line" in each for each in marked(page))


def test_nothing_is_said_to_whoever_reads_its_language(school: OneSchool, family: str) -> None:
    alice = school.browser_of(school.add(Role.STUDENT, "Alice"))
    question = alice.start_drill(family, length=1)
    assert "written in English only" not in question.text
    assert not marked(question)
