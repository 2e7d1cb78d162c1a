"""The session cookie, and a visit that ends."""

from datetime import UTC, datetime, timedelta
from email.utils import parsedate_to_datetime
from http.cookies import SimpleCookie

import pytest
from flask import Flask

from app.services.visits import IDLE
from app.web import sessions
from app.web.sessions import COOKIE
from tests.fakes import Clock
from tests.web.browsing import Browser


def test_cookie_is_out_of_reach_of_scripts_and_other_sites(alice: Browser) -> None:
    cookie = alice.get("/").headers["Set-Cookie"]
    assert cookie.startswith(f"{COOKIE}=")
    assert "; HttpOnly" in cookie
    assert "; SameSite=Lax" in cookie
    assert "; Secure" not in cookie  # this server answers on http


def test_cookie_is_renewed_once_a_day(alice: Browser, monkeypatch: pytest.MonkeyPatch) -> None:
    """And holds a day longer than a visit, so that it never ends first."""
    alice.start_drill("true-to-compass")
    assert "Set-Cookie" not in alice.get(alice.address).headers
    monkeypatch.setattr(sessions, "RENEW_AFTER", timedelta(0))
    cookie = SimpleCookie(alice.get(alice.address).headers["Set-Cookie"])[COOKIE]
    assert parsedate_to_datetime(cookie["expires"]) - datetime.now(UTC) > IDLE + timedelta(hours=23)


def test_looking_opens_no_visit(alice: Browser) -> None:
    alice.get_page("/")
    alice.get_page("/topics")
    with alice.client.session_transaction() as session:
        assert "visit" not in session


def test_starting_a_drill_opens_one(alice: Browser) -> None:
    alice.start_drill("true-to-compass")
    with alice.client.session_transaction() as session:
        first = session["visit"]
    alice.start_drill("true-to-compass")
    with alice.client.session_transaction() as session:
        assert session["visit"] == first


def test_visit_lasts_while_it_is_used(alice: Browser, clock: Clock) -> None:
    alice.start_drill("true-to-compass")
    question = alice.address
    for _ in range(3):
        clock.forward(IDLE - timedelta(hours=1))
        alice.get_page(question)


def test_ended_visit_is_a_guest_again(alice: Browser, clock: Clock) -> None:
    alice.start_drill("true-to-compass")
    question = alice.address
    clock.forward(IDLE + timedelta(seconds=1))
    page = alice.get_page(question, status=404)
    assert "two weeks after its last use" in page.text
    alice.get_page("/")


def test_forged_cookie_is_nobodys(app: Flask, alice: Browser) -> None:
    alice.start_drill("true-to-compass")
    question = alice.address
    mallory = Browser(app)
    mallory.client.set_cookie(COOKIE, "eyJ2aXNpdCI6IngifQ.aaaaaa.forged-signature")
    mallory.get_page(question, status=404)


def test_token_that_is_not_text_is_nobodys(alice: Browser) -> None:
    with alice.client.session_transaction() as session:
        session["visit"] = 7
    alice.get_page("/")


def test_cookie_that_was_read_before_ends_all_the_same(alice: Browser, monkeypatch: pytest.MonkeyPatch) -> None:
    alice.start_drill("true-to-compass")
    alice.get_page(alice.address)
    monkeypatch.setattr(sessions, "LASTS", timedelta(seconds=-1))
    alice.get_page(alice.address, status=404)
