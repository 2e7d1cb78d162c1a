"""Every family on its pages, in every answer form, in both languages: asked, answered right, answered wrong."""

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
    first = alice.start_drill(family, length=2 * len(forms))
    address = alice.address.removesuffix("/1")
    seen = set()
    for position in range(1, 2 * len(forms) + 1):
        page = first if position == 1 else alice.get_page(f"{address}/{position}")
        item = item_of(app, page)
        answer = right_answer if item.form not in seen else wrong_answer
        seen.add(item.form)
        verdict = alice.submit(page, answer(item))
        check_verdict(verdict, right=answer is right_answer)
        if position == 1:
            alice.submit(verdict, {"language": "fr"}, form=SWITCH)
    assert seen == set(forms)


def check_verdict(verdict: Page, *, right: bool) -> None:
    words = verdict.words("//section[@id='verdict']")
    assert verdict.find("//*[contains(@class, 'answered')]") or verdict.find("//table")
    assert verdict.find("//ul[@class='sources']/li")
    said = "What your answer did" in words or "Ce qu’a fait votre réponse" in words
    assert said != right
