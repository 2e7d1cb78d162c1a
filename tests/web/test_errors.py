"""Every refusal and failure is a page in the reader's language, with the right status and no trace."""

import logging
from collections.abc import Callable, Iterator
from typing import NoReturn

import pytest
from flask import Flask
from werkzeug.exceptions import HTTPException, abort

from app.services.errors import Conflict, Invalid, NotAllowed, NotFound
from app.web.access import EVERYBODY, allow
from app.web.errors import STATUS, TEXTS
from app.web.factory import running
from app.web.settings import Settings
from tests.pages import Page
from tests.web.browsing import Browser

REFUSALS = {
    404: NotFound("x"),
    403: NotAllowed(),
    409: Conflict("The question was revised."),
    422: Invalid("“361” is no heading.", "value"),
}


class Failing:
    """An application with a page that raises what it is told to."""

    def __init__(self, app: Flask) -> None:
        self.app = app
        self.error: Exception = ZeroDivisionError()

        @allow(*EVERYBODY)
        def fail() -> NoReturn:
            raise self.error

        app.add_url_rule("/fail", "fail", fail)

    def page(self, error: Exception, status: int, language: str = "en") -> Page:
        self.error = error
        return Browser(self.app, language).get_page("/fail", status=status)


@pytest.fixture(scope="module")
def failing(settings: Settings) -> Iterator[Failing]:
    with running(settings) as app:
        yield Failing(app)


@pytest.mark.parametrize("language", ["en", "fr"])
@pytest.mark.parametrize("status", REFUSALS)
def test_refusals_of_use_cases(failing: Failing, status: int, language: str) -> None:
    error = REFUSALS[status]
    page = failing.page(error, status, language)
    assert page.language == language
    if isinstance(error, Conflict | Invalid):
        assert error.message in page.words("//main")


def test_every_refusal_has_its_status() -> None:
    assert {STATUS[type(error)] for error in REFUSALS.values()} == set(REFUSALS)


@pytest.mark.parametrize("language", ["en", "fr"])
@pytest.mark.parametrize("status", [400, 403, 404, 405, 409, 413, 422, 429])
def test_refusals_of_the_server(failing: Failing, status: int, language: str) -> None:
    try:
        abort(status)
    except HTTPException as error:
        page = failing.page(error, status, language)
    assert page.heading
    assert str(status) in page.words("//main")


def test_unlisted_status_gets_the_nearest_page(failing: Failing) -> None:
    try:
        abort(418)
    except HTTPException as error:
        page = failing.page(error, 418)
    assert page.heading == "This request cannot be read"


def test_texts_differ_in_both_languages(app: Flask) -> None:
    def written(language: str) -> set[str]:
        with app.test_request_context(headers={"Accept-Language": language}):
            app.preprocess_request()
            return {f"{text.title} {text.text}" for text in TEXTS.values()}

    assert len(written("en") | written("fr")) == 2 * len(TEXTS)


@pytest.mark.parametrize("language", ["en", "fr"])
def test_failure_shows_no_trace(failing: Failing, language: str, caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.ERROR):
        page = failing.page(ZeroDivisionError("secret detail"), 500, language)
    assert "secret detail" not in page.text
    assert "Traceback" not in page.text
    assert "secret detail" in caplog.text


def test_broken_database_is_a_page_too(
    run: Callable[..., Flask], settings: Settings, alice: Browser, caplog: pytest.LogCaptureFixture
) -> None:
    """Whoever has a visit cannot be looked up then; the page must not need it."""
    alice.start_drill("true-to-compass")
    cookie = alice.client.get_cookie("lubberline")
    assert cookie
    broken = Browser(run(Settings(settings.instance, settings.instance / "no" / "such.sqlite3", settings.secret_key)))
    broken.client.set_cookie("lubberline", cookie.value)
    with caplog.at_level(logging.CRITICAL):
        page = broken.get_page("/topics", status=500)
    assert page.heading == "The program failed"


def test_unknown_address(alice: Browser) -> None:
    page = alice.get_page("/nowhere", status=404)
    assert page.find("//main//a[@href='/']")


@pytest.mark.parametrize(
    "address", ["/drills/not-an-id/questions/1", "/items/1", "/topics/no-such-topic", "/drills/x/summary"]
)
def test_unknown_things(alice: Browser, address: str) -> None:
    alice.get_page(address, status=404)


def test_wrong_method_names_the_right_one(alice: Browser) -> None:
    response = alice.get("/language")
    assert response.status_code == 405
    assert "POST" in response.headers["Allow"]


def test_ten_megabytes_are_too_much(alice: Browser) -> None:
    page = alice.start_drill("true-to-compass")
    large = alice.submit(page, {"value": "9" * 10_000_000}, status=413)
    assert "up to 60 characters" in large.words("//main")
    alice.get_page(page.find("//form[@id='answer']/@action")[0])
