"""Tokens of forms belong to a session, and are signed once for each."""

from unittest.mock import patch

from flask_wtf.csrf import generate_csrf

from tests.pages import Page
from tests.web.browsing import Browser
from tests.web.front.test_home import LISTED

TOKENS = "//input[@name='csrf_token']/@value"


def tokens(page: Page) -> set[str]:
    return {str(each) for each in page.find(TOKENS)}


def test_a_session_keeps_its_token_which_is_signed_once(alice: Browser, bob: Browser) -> None:
    for browser in (alice, bob):
        browser.submit(browser.get_page("/home"), LISTED, form="//main//form")
    with patch("app.web.form_tokens.generate_csrf", wraps=generate_csrf) as sign:
        (first,), (again,) = tokens(alice.get_page("/topics")), tokens(alice.get_page("/about"))
        assert first == again
        assert sign.call_count <= 1
    assert tokens(bob.get_page("/topics")).isdisjoint({first})
    assert bob.post("/language", {"csrf_token": first, "language": "fr"}).status_code == 400
