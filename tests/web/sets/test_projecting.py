"""A set on a projector: a question at a time, the key only when it is asked for, hands kept nowhere."""

import pytest

from app.packs.spec import Form
from tests.pages import Page, words_of
from tests.questions.engine import library
from tests.web.members import OneSchool
from tests.web.sets.evening import DEFAULTS, SET_FORM, Evening, evening_of

OPTIONS = "//ol[contains(@class, 'projector-options')]/li"
FORM = "//form[.//*[@class='projector-ways']]"


@pytest.fixture
def evening(school: OneSchool) -> Evening:
    return evening_of(school)


def show(evening: Evening, **fields: object) -> Page:
    """Make a set and show its first question."""
    made = evening.make(**{"topics": [], **fields})
    return evening.ingrid.get_page(made.find("//a[contains(@href, '/projector/1')]/@href")[0])


def tell(evening: Evening, page: Page, **hands: str) -> Page:
    sent = "&".join(f"{name}={value}" for name, value in ({"answer": "1"} | hands).items())
    return evening.ingrid.get_page(f"{page.find(f'{FORM}/@action')[0]}?{sent}")


def test_question_then_hands_then_answer_then_the_next(evening: Evening) -> None:
    page = show(evening, fixed="true-to-compass\ncompass-to-true", forms="choice", count="2")
    assert "Question 1 of 2" in page.text
    assert len(page.find(f"{OPTIONS}//input")) == 4
    assert not page.find(f"{FORM}//*[@class='working' or @class='key']")
    assert page.find(f"{FORM}//button[@autofocus][.='Show the answer']")
    told = tell(evening, page, hands_a="7", hands_b="many", hands_c="9999", hands_d="1")
    hands = [words_of(each) for each in told.find(f"{OPTIONS}/span[contains(., ' hand')]")]
    assert hands == ["7 hands", "1 hand"]
    assert len(told.find(f"{OPTIONS}[@class='key']")) == 1
    assert len(told.find(f"{OPTIONS}//i")) == 3
    assert told.find("//ol[@class='working']")
    last = tell(evening, evening.ingrid.get_page(told.find("//a[@autofocus][.='Next question']/@href")[0]))
    assert words_of(last.find("//a[@autofocus]")[0]) == "Back to the set"
    evening.ingrid.get_page(f"{page.find(f'{FORM}/@action')[0].rpartition('/')[0]}/3", 404)


@pytest.mark.parametrize(
    ("family", "form"),
    [
        (next(f.id for f in library().families.values() for ask in f.asks if form in ask.forms), form)
        for form in ("typed", "several", "order", "match", "groups", "pick", "boxes")
    ],
)
def test_every_way_of_answering_can_be_shown(evening: Evening, family: str, form: Form) -> None:
    page = show(evening, fixed=family, forms=form)
    assert bool(page.find(f"{OPTIONS}//input")) == (form == "pick")
    told = tell(evening, page)
    assert told.find("//ol[@class='working']")
    assert told.find(f"{OPTIONS}[@class='key']") or "The answer" in told.words("//h2")


def test_no_student_stands_on_it_and_it_follows_the_language_of_the_set(evening: Evening) -> None:
    page = evening.ingrid.get_page("/topic-sets/new")
    sent = DEFAULTS | {"fixed": "true-to-compass", "language": "fr"}
    made = evening.ingrid.submit(page, sent, SET_FORM)
    evening.assign(evening.ingrid.address)
    page = evening.ingrid.get_page(made.find("//a[contains(@href, '/projector/1')]/@href")[0])
    assert page.language == "fr"
    assert not {"Alice", "Bob"} & set(page.words("//body").split())
    assert page.find("//link[contains(@href, 'projector.css')]")
