"""An own question with numbers, on pages: written, refused at the word, read, released, asked, printed in versions."""

import re
from datetime import timedelta

import pytest

from app.services.actor import Role
from app.services.own_library import family_id, school_library
from app.services.quality_count import count_school
from tests.fakes import Clock
from tests.pages import Page, words_of
from tests.questions.engine import library
from tests.questions.own_reckoned import ENGLISH, changed
from tests.web.browsing import Browser
from tests.web.members import OneSchool
from tests.web.own.reckoned import as_sent
from tests.web.own.test_own_questions import FORM, RELEASE, own_id
from tests.web.sets.evening import DEFAULTS, SET_FORM

CHANGE = "//form[contains(@action, '/change')]"
DRAWS = "//div[@aria-label='Twenty draws']//tbody/tr"


@pytest.fixture
def family(ingrid: Browser, selma: Browser) -> str:
    """The released question."""
    write(ingrid, as_sent())
    selma.submit(selma.get_page(ingrid.address), {}, RELEASE)
    return family_id(own_id(ingrid))


def write(browser: Browser, sent: dict[str, str], status: int = 200) -> Page:
    return browser.submit(browser.get_page("/own-questions/new?answer=number"), sent, FORM, status)


def values(page: Page) -> dict[str, str]:
    """Return what stands in the fields of the form."""
    fields = page.find("//main//input[@type='text']|//main//textarea|//main//select")
    return {
        each.get("name"): each.get("value") or words_of(each) if each.tag != "select" else chosen(each)
        for each in fields
    }


def chosen(select: "Page") -> str:
    options = select.findall("option")  # type: ignore[attr-defined]
    return str(next((each for each in options if each.get("selected") is not None), options[0]).get("value"))


def test_either_kind_of_answer_is_a_link_away(ingrid: Browser) -> None:
    words = ingrid.get_page("/own-questions/new?topic=track")
    (link,) = words.find("//a[contains(@href, 'answer=number')]")
    numbers = ingrid.get_page(link.get("href"))
    assert numbers.find("//input[@name='answer.formula']")
    assert not words.find("//input[@name='answer.formula']")
    assert numbers.find("//select[@name='topic']/option[@value='track' and @selected]")


def test_the_writer_sees_an_example_the_formulas_and_twenty_draws(ingrid: Browser) -> None:
    page = write(ingrid, as_sent())
    assert "You fly DISTANCE NM to Osier at a groundspeed of SPEED kt" in page.text
    assert "drawn from 20 to 150 in steps of 5" in page.text
    rows = [[words_of(cell) for cell in row] for row in page.find(DRAWS)]
    assert len(rows) == 20
    for _, distance, speed, key, *wrong, _ in rows:
        assert int(key) == int(int(distance) / int(speed) * 60 + 0.5)
        assert int(wrong[3]) == int(int(distance) / int(speed) * 30 + 0.5)
    assert {row[-1].partition(":")[0] for row in rows} == {"yes", "no"}
    assert page.find("//article//b[contains(., 'min')]")


def test_a_formula_is_refused_at_its_word_and_nothing_typed_is_lost(ingrid: Browser) -> None:
    sent = as_sent() | {
        "answer.formula": "DISTANCE ÷ (SPEED % 60",
        "wrong.1": "speed × 2",
        "numbers.0.step": "0,5 NM",
        "numbers.1.name": "ground speed",
        "answer.tolerance": "close",
        "typed_only": "1",
    }
    page = write(ingrid, sent, 422)
    assert "“%” cannot stand in a formula" in page.words("//p[@id='answer.formula-refusal']")
    assert "“speed” is no name in capitals" in page.words("//p[@id='wrong.1-refusal']")
    assert "“0,5 NM” is no number" in page.words("//p[@id='numbers.0.step-refusal']")
    assert "“ground speed” cannot be the name" in page.words("//p[@id='numbers.1.name-refusal']")
    assert "“close” is no number" in page.words("//p[@id='answer.tolerance-refusal']")
    kept = values(page)
    for name, text in sent.items():
        if name != "typed_only":
            assert kept[name].split() == text.split(), name
    assert page.find("//input[@name='typed_only' and @checked]")


def test_names_that_no_number_has_are_told(ingrid: Browser) -> None:
    page = write(ingrid, as_sent() | {"answer.formula": "DISTENCE ÷ SPEED × 60"}, 422)
    assert "There is no number “DISTENCE” that could stand here. Accepted: DISTANCE, SPEED." in page.text


def test_too_little_is_told_where_it_is_missing(ingrid: Browser) -> None:
    page = write(ingrid, {"answer.formula": ""}, 422)
    told = {each.get("id") for each in page.find("//p[@class='refusal' and @id]")}
    assert {
        "numbers-refusal",
        "answer.formula-refusal",
        "wrong-refusal",
        "en.wrong-refusal",
        "en.title-refusal",
    } <= told


def test_what_was_kept_stands_in_the_form_again(ingrid: Browser) -> None:
    sent = as_sent(changed(numbers=[
        {"name": "DISTANCE", "low": 2.5, "high": 150, "step": 0.5, "shown": "1"},
        {"name": "SPEED", "low": 70, "high": 130, "step": 5, "shown": "0"},
        {"name": "HALF", "formula": "SPEED ÷ 2", "shown": "2"},
    ]))  # fmt: skip
    write(ingrid, sent)
    form = ingrid.get_page(f"{ingrid.address}/change")
    kept = values(form)
    for name, text in sent.items():
        assert kept[name].split() == text.split(), name
    assert form.find("//details[@open]//input[@name='numbers.2.formula']")
    page = ingrid.submit(form, kept, CHANGE)
    assert "drawn from 2.5 to 150 in steps of 0.5" in page.text


def test_a_question_that_cannot_be_fair_says_why_and_cannot_be_released(ingrid: Browser, selma: Browser) -> None:
    write(ingrid, as_sent(changed(wrong=["KEY + 9", "KEY + 10", "KEY + 11", "KEY + 9"])))
    page = selma.get_page(ingrid.address)
    assert "No draw makes a fair question yet" in page.text
    assert "100% of the draws make no fair question" in page.text
    assert page.find(f"{RELEASE}//button[@disabled]")
    assert "wrong answer 1 and wrong answer 2 lie too near" in words_of(page.find(DRAWS)[0])


def test_a_student_meets_new_numbers_each_time_and_no_formula(school: OneSchool, family: str) -> None:
    alice = school.browser_of(school.add(Role.STUDENT, "Alice"))
    seen = set()
    page = alice.start_drill(family, length=4)
    for _ in range(4):
        stem = words_of(page.find("//main//*[contains(@class, 'stem')]")[0])
        distance, speed = map(int, re.findall(r"(\d+)\s(?:NM|kt)", stem))
        seen.add((distance, speed))
        assert not re.search(r"DISTANCE|SPEED|KEY|own_|÷", page.text)
        key = int(distance / speed * 60 + 0.5)
        labels = {words_of(each).split()[-2]: each for each in page.find("//label[.//input[@name='choice']]")}
        if labels:
            answer = {"choice": labels[str(key)].find(".//input").get("value")}
        else:
            answer = {"value": str(int(distance / speed * 30 + 0.5))}
        verdict = alice.submit(page, answer)
        assert f"{distance} ÷ {speed} × 60 = {key}\u00a0min." in verdict.text
        assert labels or f"take {key} min, not {answer['value']}." in verdict.text.replace("\u00a0", " ")
        page = alice.get_page(verdict.find("//a[contains(@class, 'button')]")[0].get("href"))
    assert len(seen) == 4


def test_the_list_of_quality_says_whose_it_is(school: OneSchool, ingrid: Browser, family: str, clock: Clock) -> None:
    alice = school.browser_of(school.add(Role.STUDENT, "Alice"))
    page = alice.start_drill(family, length=1)
    choices = page.find("//input[@name='choice']/@value")
    alice.submit(page, {"choice": choices[0]} if choices else {"value": "1"})
    clock.forward(timedelta(minutes=10))
    count_school(school.backend.uow, school_library(school.backend.uow, school.id, library()), school.id, clock())
    (row,) = ingrid.get_page("/school/quality").find(f"//tbody/tr[.//a[contains(@href, '{family}')]]")
    assert "own question" in words_of(row)


def test_versions_of_a_sheet_have_other_numbers(ingrid: Browser, family: str) -> None:
    ingrid.submit(ingrid.get_page("/topic-sets/new"), DEFAULTS | {"fixed": f"{family} {family}"}, SET_FORM)
    address = ingrid.address
    sheet = ingrid.get_page(f"{address}/sheet?versions=4")
    stems = [words_of(each) for each in sheet.find("//section[@class='sheet']//article")]
    assert len(stems) == 8
    assert len({tuple(re.findall(r"\d+", stem)) for stem in stems}) == 8
    assert "÷" not in sheet.words("//main")
    key = ingrid.get_page(f"{address}/key?versions=4")
    assert len(key.find("//div[@class='keyed']")) == 8


def test_in_french_numbers_have_a_comma(ingrid: Browser) -> None:
    words = ENGLISH | {"situation": "DISTANCE NM, SPEED kt.", "why": ["a", "KEY"]}
    numbers = [
        {"name": "DISTANCE", "low": 20.5, "high": 150.5, "step": 1, "shown": "1"},
        {"name": "SPEED", "low": 70, "high": 130, "step": 5},
    ]
    write(ingrid, as_sent(changed(numbers=numbers, en=None, fr=words)))
    address = ingrid.address
    french = ingrid.submit(ingrid.get_page(address), {"language": "fr"}, "//form[@action='/language']")
    assert re.search(r"\d,5\u00a0NM", french.words("//article").replace(" NM", "\u00a0NM"))
    assert "tiré de 20,5 à 150,5 par pas de 1" in french.text
    assert ingrid.get_page(f"{address}/change").find("//input[@name='numbers.0.low' and @value='20,5']")
