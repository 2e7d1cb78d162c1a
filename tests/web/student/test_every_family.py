"""Every family on its pages, in every answer form, in both languages: asked, answered right, answered wrong."""

from collections.abc import Iterator

import pytest
from flask import Flask

from app.questions.draw import offered_forms
from tests.pages import Page
from tests.questions.engine import library
from tests.questions.replies import right_answer, wrong_answer
from tests.web.browsing import Browser
from tests.web.student.answers import item_of

SWITCH = "//form[@action='/language']"
FAMILIES = sorted(library().families)


@pytest.mark.parametrize("family", FAMILIES)
def test_asked_and_answered(app: Flask, alice: Browser, family: str) -> None:
    forms = offered_forms(library().families[family])
    seen = set()
    for number, page in enumerate(questions(alice, family, 2 * len(forms))):
        item = item_of(app, page)
        answer = right_answer if item.form not in seen else wrong_answer
        seen.add(item.form)
        verdict = alice.submit(page, answer(item))
        check_verdict(verdict, right=answer is right_answer)
        if number == 0:
            alice.submit(verdict, {"language": "fr"}, form=SWITCH)
    assert seen == set(forms)


def questions(browser: Browser, family: str, count: int) -> Iterator[Page]:
    """Yield the pages that ask a family so often; one that is written by hand comes once a drill."""
    in_one = 1 if library().families[family].solver == "fixed" else count
    for _ in range(count // in_one):
        first = browser.start_drill(family, length=in_one)
        address = browser.address.removesuffix("/1")
        for position in range(1, in_one + 1):
            yield first if position == 1 else browser.get_page(f"{address}/{position}")


def check_verdict(verdict: Page, *, right: bool) -> None:
    words = verdict.words("//section[@id='verdict']")
    assert verdict.find("//*[contains(@class, 'answered')]") or verdict.find("//table")
    assert verdict.find("//ul[@class='sources']/li")
    said = "What your answer did" in words or "Ce qu’a fait votre réponse" in words
    assert said != right
