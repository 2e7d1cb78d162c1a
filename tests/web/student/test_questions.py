"""Asking and answering: Alice's conversions, in choice and in typed form."""

from datetime import timedelta
from random import Random
from uuid import UUID

import pytest
from flask import Flask

from app.grader.made_up import fields_of, wrong_value
from app.questions.model import Item
from app.storage.base import table_of
from app.storage.models import Attempt
from app.web.current import NAME
from app.web.question_page import CAUTIONS, CAUTIONS_AFTER
from tests.counted import counting
from tests.fakes import Clock
from tests.pages import Page
from tests.questions.engine import library
from tests.questions.replies import right_answer, unlike_answer, wrong_answer
from tests.web.browsing import Browser
from tests.web.student.answers import item_of

STATEMENTS = 7  # visit, item, attempt, tally, learner read, level, skill
FAMILY = "true-to-compass"
NEXT = "//a[contains(@class, 'next')]"


def question_of_form(browser: Browser, form: str) -> Page:
    """A drill's first question in one answer form: the forms take turns."""
    page = browser.start_drill(FAMILY, length=2)
    has_options = bool(page.find("//input[@name='choice']"))
    return page if has_options == (form == "choice") else browser.get_page(browser.address.replace("/1", "/2"))


@pytest.fixture
def typed(alice: Browser) -> Page:
    return question_of_form(alice, "typed")


@pytest.fixture
def choice(alice: Browser) -> Page:
    return question_of_form(alice, "choice")


def shown(item: Item, value: float | None = None) -> str:
    return f"{item.key if value is None else value:03.0f}"


def test_choice_works(choice: Page) -> None:
    assert len(choice.find("//input[@name='choice']")) == len(choice.find("//label[contains(@class, 'option')]")) == 4
    assert choice.find("//*[local-name()='svg'][@role='img']")
    assert "Question" in choice.words("//div[@class='progress']")


def test_typed_works(typed: Page) -> None:
    box = typed.find("//input[@id='value']")[0]
    assert box.get("inputmode") == "numeric"
    assert "degrees" in typed.words("//span[contains(@class, 'unit')]")
    assert "Three digits, 001 to 360" in typed.words("//*[@id='value-hint']")


@pytest.mark.parametrize("form", ["choice", "typed"])
def test_right_answer(app: Flask, alice: Browser, form: str) -> None:
    page = question_of_form(alice, form)
    item = item_of(app, page)
    verdict = alice.submit(page, right_answer(item))
    assert verdict.words("//section[@id='verdict']/div/h2") == f"{shown(item)} is right."
    assert "your answer, and right" in verdict.words("//ol[contains(@class, 'answered')]")
    assert "What your answer did" not in verdict.words("//section[@id='verdict']")
    assert verdict.find("//ol[@class='working']/li")


@pytest.mark.parametrize("form", ["choice", "typed"])
def test_wrong_answer_is_explained(app: Flask, alice: Browser, form: str) -> None:
    page = question_of_form(alice, form)
    item = item_of(app, page)
    verdict = alice.submit(page, wrong_answer(item))
    words = verdict.words("//section[@id='verdict']")
    for part in (f"The answer is {shown(item)}.", "What your answer did", "The working", "Remember", "Sources"):
        assert part in words
    assert "your answer" in verdict.words("//ol[contains(@class, 'answered')]")
    assert verdict.words("//ol[@class='working']//b")
    assert verdict.find("//details[not(@open)]/ul[@class='sources'][@lang='en']/li")
    assert verdict.find("//section[@id='verdict']//figure")


def test_the_verdict_that_comes_at_once_is_the_verdict(app: Flask, alice: Browser, typed: Page) -> None:
    asked_at, wrong = alice.address, wrong_answer(item_of(app, typed))
    at_once = alice.submit(typed, wrong | {"at-once": "1"})
    assert alice.address == asked_at
    section = at_once.find("//section[@id='verdict']")[0]
    later = alice.get_page(str(section.get("data-address")))
    assert at_once.words("//main") == later.words("//main")
    assert at_once.words("//title") == later.words("//title")
    again = alice.submit(typed, right_answer(item_of(app, typed)) | {"at-once": "1"})
    assert "your first answer counts" in again.words("//section[@id='verdict']")


def test_unmatched_answer_says_so(app: Flask, alice: Browser, typed: Page) -> None:
    verdict = alice.submit(typed, unlike_answer(item_of(app, typed)))
    words = verdict.words("//section[@id='verdict']")
    assert "It matches no usual mistake" in words
    assert "The working" in words
    assert "Remember" not in words


def test_a_true_statement_left_out_is_said_to_be_true(app: Flask, alice: Browser) -> None:
    page = alice.start_drill("slaved-compass", length=1)
    item = item_of(app, page)
    false = next(option.value for option in item.options if not option.correct)
    words = alice.submit(page, fields_of(library(), item, (false,))).words("//section[@id='verdict']")
    missed = [code for code in item.key if (code, "left-out") not in item.solution.slips]
    assert ("You left out what is true" in words) == bool(missed)
    assert "It matches no usual mistake" not in words


def test_a_box_right_on_an_earlier_slip_says_so(app: Flask, alice: Browser) -> None:
    question = alice.start_drill("leg-compass-heading", length=2)
    if question.find("//input[@name='choice']"):
        question = alice.get_page(alice.address.replace("/1", "/2"))
    item = item_of(app, question)
    true, magnetic = list(item.key)[:2]
    slipped = {name: (item.key[name] + 20) % 360 for name in (true, magnetic)}
    parts = alice.submit(question, fields_of(library(), item, item.key | slipped)).find("//ul[@class='parts']/li")
    said = ["right on your own earlier value" in "".join(part.itertext()) for part in parts]
    assert said[:2] == [False, True]


def test_a_sentence_that_answers_is_not_stopped_twice(app: Flask, alice: Browser) -> None:
    question = alice.start_drill("object-near-compass", length=1)
    item = item_of(app, question)
    wrong = fields_of(library(), item, wrong_value(library(), item, Random(1)))
    headline = alice.submit(question, wrong).words("//h2[@id='verdict-title']")
    assert headline.endswith(".")
    assert not headline.endswith("..")


def test_cautions_stand_where_they_belong(alice: Browser) -> None:
    for family, said in (
        ("true-to-compass", "deviation from your aircraft’s own card."),
        ("card-for-steer", "Sample card: not your aircraft."),
        ("read-compass-face", ""),
        ("turn-start-indication", "Simplified model: the size differs by compass, latitude and handling."),
    ):
        question = alice.start_drill(family)
        words = question.words("//main")
        assert words.count(said) == 1 if said else "not your aircraft" not in words


def test_title_tells_the_verdict_first(app: Flask, alice: Browser, typed: Page) -> None:
    item = item_of(app, typed)
    assert alice.submit(typed, right_answer(item)).title.startswith(f"{shown(item)} is right.")


@pytest.mark.parametrize("text", ["361", "-5", "abc", "36O", "<b>", "9" * 61])
def test_shows_form_errors(alice: Browser, typed: Page, text: str) -> None:
    refused = alice.submit(typed, {"value": text}, status=422)
    said = refused.words("//*[@id='refusal']")
    assert "001 to 360" in said or "at most 60" in said
    assert refused.find("//input[@id='value']/@value") == [text]
    assert refused.find("//input[@id='value' and @aria-invalid='true']")
    assert (refused.heading, refused.fields()["stamp"]) == (typed.heading, typed.fields()["stamp"])


@pytest.mark.parametrize("form", ["choice", "typed"])
def test_empty_answer_is_said(alice: Browser, form: str) -> None:
    page = question_of_form(alice, form)
    assert alice.submit(page, {}, status=422).words("//*[@id='refusal']")


def test_refused_answer_can_be_corrected(app: Flask, alice: Browser, typed: Page) -> None:
    refused = alice.submit(typed, {"value": "abc"}, status=422)
    assert "is right" in alice.submit(refused, right_answer(item_of(app, typed))).title


def test_second_answer_changes_nothing(app: Flask, alice: Browser, typed: Page) -> None:
    item = item_of(app, typed)
    first = alice.submit(typed, wrong_answer(item))
    second = alice.submit(typed, right_answer(item))
    heading = "//section[@id='verdict']/div/h2"
    assert second.words(heading) == first.words(heading)
    assert "your first answer counts" in second.words("//section[@id='verdict']")


def test_answered_question_leads_to_its_verdict(alice: Browser, choice: Page) -> None:
    address = choice.find("//form[@id='answer']/@action")[0]
    alice.submit(choice, {"choice": "0"})
    verdict = alice.address
    alice.get_page(address)
    assert alice.address == verdict


def test_other_numbers_than_shown_count_nothing(alice: Browser, choice: Page) -> None:
    refused = alice.submit(choice, {"choice": "0", "stamp": "0" * 16}, status=409)
    assert "Nothing was counted" in refused.words("//*[@id='refusal']")
    assert refused.find("//input[@name='choice' and @value='0' and @checked]")


def test_time_taken_is_kept(app: Flask, alice: Browser, typed: Page, clock: Clock) -> None:
    clock.forward(timedelta(seconds=41))
    alice.submit(typed, {"value": "001"})
    attempt = table_of(Attempt)
    with app.extensions[NAME].uow.reader() as connection:
        own = attempt.select().where(attempt.c.drill_item_id == UUID(typed.fields()["item"]))
        assert connection.execute(own).mappings().one()["took_ms"] == 41_000


def test_answer_takes_few_statements_and_one_commit(app: Flask, alice: Browser, typed: Page) -> None:
    fields = typed.fields() | right_answer(item_of(app, typed))
    with counting() as counted:
        alice.post(typed.find("//form[@id='answer']/@action")[0], fields)
    assert len(counted.queries) <= STATEMENTS
    assert counted.commits == 1


def test_key_is_not_on_the_page(app: Flask, typed: Page) -> None:
    item = item_of(app, typed)
    assert shown(item) not in typed.words("//main")


def test_hides_other_visitors(alice: Browser, bob: Browser, choice: Page) -> None:
    address = choice.find("//form[@id='answer']/@action")[0]
    bob.start_drill(FAMILY)
    bob.get_page(address, status=404)
    token = bob.get_page("/").token
    bob.send(address, choice.fields() | {"choice": "0", "csrf_token": token}, status=404)
    alice.submit(choice, {"choice": "0"})
    bob.get_page(alice.address, status=404)


def test_guest_has_no_drills(bob: Browser, choice: Page) -> None:
    bob.get_page(choice.find("//form[@id='answer']/@action")[0], status=404)


def test_unanswered_item_has_no_verdict(alice: Browser, choice: Page) -> None:
    page = alice.get_page(f"/items/{choice.fields()['item']}", status=409)
    assert "no answer yet" in page.words("//main")


@pytest.mark.parametrize("position", [0, 3, 99])
def test_unknown_position(alice: Browser, choice: Page, position: int) -> None:
    address = choice.find("//form[@id='answer']/@action")[0].rpartition("/")[0]
    alice.get_page(f"{address}/{position}", status=404)


@pytest.mark.parametrize("item", ["", "x", "0" * 32])
def test_unknown_item(alice: Browser, choice: Page, item: str) -> None:
    alice.submit(choice, {"choice": "0", "item": item}, status=404)


def test_works_in_french(app: Flask, amelie: Browser) -> None:
    page = question_of_form(amelie, "typed")
    assert "Question" in page.title
    refused = amelie.submit(page, {"value": "36O"}, status=422)
    assert "«\u00a036O\u00a0» ne peut pas être lu" in refused.text
    verdict = amelie.submit(refused, wrong_answer(item_of(app, page)))
    assert "Ce qu’a fait votre réponse" in verdict.words("//section[@id='verdict']")
    assert verdict.words(NEXT) == "Question suivante"


def test_cautions_name_topics_and_kinds_that_there_are() -> None:
    assert set(CAUTIONS) <= set(library().packs)
    assert set(CAUTIONS_AFTER) <= set(library().families)


@pytest.mark.parametrize(
    ("family", "caution"),
    [("compass-unserviceable", "In doubt the aircraft does not fly"), ("swing-residuals", "Knowledge only")],
)
def test_what_a_mechanic_decides_is_said_with_the_verdict_alone(
    app: Flask, alice: Browser, family: str, caution: str
) -> None:
    page = alice.start_drill(family)
    assert caution not in page.words("//main")
    verdict = alice.submit(page, right_answer(item_of(app, page)))
    assert caution in verdict.words("//article")
    assert "the current text of each comes first" in verdict.words("//section[@id='verdict']")
