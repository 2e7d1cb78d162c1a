"""A question that the packs have changed since: open ones are asked anew, answered ones keep their verdict."""

import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from flask import Flask

from app.web.sessions import COOKIE
from app.web.settings import Settings
from tests.fakes import START
from tests.questions.engine import PACKS
from tests.questions.replies import right_answer
from tests.web.browsing import Browser
from tests.web.student.answers import item_of

FAMILY = "true-to-compass"
BEFORE = "deviation_deg = {low = 2, high = 6, signs = true}"
AFTER = "deviation_deg = {low = 7, high = 8, signs = true}"


@pytest.fixture
def revised(run: Callable[..., Flask], settings: Settings, tmp_path: Path) -> Flask:
    """The same application after the family's numbers were changed."""
    packs = Path(shutil.copytree(PACKS, tmp_path / "packs"))
    file = packs / "datum" / "families" / f"{FAMILY}.toml"
    text = file.read_text("utf-8")
    assert BEFORE in text
    file.write_text(text.replace(BEFORE, AFTER), "utf-8")
    return run(replace(settings, packs=packs), clock=lambda: START)


def same_visitor(alice: Browser, app: Flask) -> Browser:
    cookie = alice.client.get_cookie(COOKIE)
    assert cookie
    browser = Browser(app)
    browser.client.set_cookie(COOKIE, cookie.value)
    return browser


def test_verdict_stays_without_its_working(app: Flask, alice: Browser, revised: Flask) -> None:
    question = alice.start_drill(FAMILY)
    alice.submit(question, right_answer(item_of(app, question)))
    page = same_visitor(alice, revised).get_page(alice.address)
    assert page.heading == question.heading
    assert "has been revised since you answered it" in page.words("//main")
    assert "Your answer was right" in page.words("//main")


def test_open_question_counts_nothing_and_is_asked_anew(alice: Browser, revised: Flask) -> None:
    question = alice.start_drill(FAMILY)
    later = same_visitor(alice, revised)
    refused = later.submit(question, {"choice": "0", "value": "001"}, status=409)
    assert "Nothing was counted" in refused.words("//*[@id='refusal']")
    assert refused.fields()["stamp"] != question.fields()["stamp"]
