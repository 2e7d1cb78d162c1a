"""A form without our token does nothing, and what was typed can be sent again."""

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

import pytest
from flask import Flask

from app.services.actor import Role
from app.services.visits import IDLE
from app.web.sessions import COOKIE
from app.web.settings import Settings
from tests.fakes import Clock
from tests.web.browsing import Browser
from tests.web.members import OneSchool


def test_forged_token_counts_nothing_and_loses_nothing(alice: Browser) -> None:
    question = alice.start_drill("true-to-compass")
    page = alice.submit(question, {"choice": "1", "csrf_token": "forged"}, status=400)
    assert page.heading == "The form has expired"
    verdict = alice.submit(page, {}, form="//main//form")
    assert verdict.find("//section[@id='verdict']")


def test_what_was_typed_is_shown(alice: Browser) -> None:
    alice.start_drill("true-to-compass", length=2)
    answered = alice.get_page(alice.address)
    page = alice.send(
        answered.find("//form[@id='answer']/@action")[0], {"value": "<b>075", "csrf_token": ""}, status=400
    )
    assert "<b>075" in page.words("//main")


def test_missing_token_is_refused_everywhere(alice: Browser) -> None:
    for address in ("/", "/drills", "/language", "/home"):
        alice.send(address, {"language": "fr"}, status=400)


def test_token_of_another_session_is_refused(alice: Browser, bob: Browser) -> None:
    token = bob.get_page("/").token
    alice.get_page("/")
    alice.send("/drills", {"csrf_token": token}, status=400)


def test_token_that_was_checked_holds_for_its_own_session_alone(alice: Browser, bob: Browser) -> None:
    """The page that answers a form carries the form's token on, signed once."""
    question = bob.start_drill("true-to-compass")
    token = question.token
    assert bob.submit(question, {"choice": "0", "value": "90", "at-once": "1"}, status=200).token == token
    alice.get_page("/")
    alice.send("/drills", {"csrf_token": token}, status=400)
    bob.send("/drills", {"csrf_token": token[:-1]}, status=400)


def test_signing_in_and_out_changes_the_token(school: OneSchool) -> None:
    browser = school.browser_of(school.add(Role.INSTRUCTOR, "Ingrid"))
    page = browser.get_page("/topics")
    after = browser.send("/sign-out", {"csrf_token": page.token})
    assert after.token
    browser.send("/language", {"csrf_token": page.token, "language": "fr"}, status=400)


@pytest.mark.parametrize(
    ("came_from", "status"),
    [(None, 400), ("https://elsewhere.example/", 400), ("http://localhost/", 400), ("https://localhost/topics", 303)],
)
def test_over_https_a_form_comes_from_our_own_pages(
    run: Callable[..., Flask], settings: Settings, came_from: str | None, status: int
) -> None:
    browser = Browser(run(replace(settings, proxies=1)))
    browser.headers |= {"X-Forwarded-Proto": "https"} | ({"Referer": came_from} if came_from else {})
    page = browser.get_page("/topics")
    sent = browser.post("/language", {"csrf_token": page.token, "language": "fr"}, base_url="https://localhost")
    assert sent.status_code == status


def test_lost_cookie_on_the_first_page_loses_no_answer(alice: Browser) -> None:
    first = alice.get_page("/")
    alice.client.delete_cookie(COOKIE)
    page = alice.submit(first, {"choice": "0"}, status=400)
    assert alice.submit(page, {}, form="//main//form").find("//section[@id='verdict']")


def test_ended_visit_says_so(alice: Browser, clock: Clock) -> None:
    question = alice.start_drill("true-to-compass")
    clock.forward(IDLE + timedelta(days=1))
    page = alice.submit(question, {"choice": "1", "csrf_token": "old"}, status=400)
    assert "Your visit has ended" in page.words("//main")
    assert not page.find("//main//form")


def test_too_many_fields_are_not_sent_back(alice: Browser) -> None:
    alice.get_page("/")
    page = alice.send("/", {f"f{n}": "x" * 100 for n in range(200)}, status=400)
    assert not page.find("//main//form")
    assert len(page.text) < 16_000


def test_page_is_in_french(amelie: Browser) -> None:
    amelie.get_page("/")
    page = amelie.send("/", {"choice": "0"}, status=400)
    assert page.heading == "Le formulaire a expiré"
