"""What every answer carries."""

import gzip
from collections.abc import Callable
from dataclasses import replace

import pytest
from flask import Flask

from app.web.settings import Settings
from tests.web.browsing import Browser

# The policy the project's design asks for, word for word.
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "font-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'self'; "
    "frame-ancestors 'none'"
)


@pytest.mark.parametrize("address", ["/", "/topics", "/nowhere", "/health", "/static/x/css/site.css"])
def test_every_answer_is_guarded(alice: Browser, address: str) -> None:
    headers = alice.get(address).headers
    assert headers["Content-Security-Policy"] == POLICY
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "same-origin"
    assert headers["Cross-Origin-Opener-Policy"] == "same-origin"


def test_pages_are_not_kept_by_caches(alice: Browser) -> None:
    assert alice.get("/").headers["Cache-Control"] == "no-store"


def test_pages_are_zipped_for_who_takes_it(alice: Browser) -> None:
    zipped = alice.get("/about", headers={"Accept-Encoding": "gzip, deflate, br"})
    plain = alice.get("/about")
    assert zipped.headers["Content-Encoding"] == "gzip"
    assert "Content-Encoding" not in plain.headers
    assert "Accept-Encoding" in zipped.headers["Vary"]
    assert b"World Magnetic Model" in gzip.decompress(zipped.data)
    assert len(zipped.data) < len(plain.data) / 2


def test_gzip_with_weight_zero_is_refused(alice: Browser) -> None:
    assert "Content-Encoding" not in alice.get("/about", headers={"Accept-Encoding": "gzip;q=0"}).headers


@pytest.mark.parametrize("host", ["localhost", "localhost:8000", "127.0.0.1:8000", "[::1]:8000", "192.168.4.7"])
def test_own_addresses_are_answered(alice: Browser, host: str) -> None:
    assert alice.get("/health", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "host", ["elsewhere.example", "localhost.elsewhere.example", "127.0.0.1.elsewhere.example", ""]
)
def test_other_names_are_refused(alice: Browser, host: str) -> None:
    response = alice.get("/", headers={"Host": host})
    assert response.status_code == 400
    assert "Traceback" not in response.text


def test_names_of_the_settings_are_answered(run: Callable[..., Flask], settings: Settings) -> None:
    browser = Browser(run(replace(settings, hosts=("ground.school.example",))))
    assert browser.get("/health", headers={"Host": "Ground.School.example:443"}).status_code == 200


def test_https_behind_a_proxy(run: Callable[..., Flask], settings: Settings) -> None:
    browser = Browser(run(replace(settings, proxies=1)))
    response = browser.get("/", headers={"X-Forwarded-Proto": "https", "X-Forwarded-For": "192.0.2.1"})
    assert "max-age" in response.headers["Strict-Transport-Security"]
    assert "; Secure" in response.headers["Set-Cookie"]


def test_forwarded_headers_count_only_behind_a_proxy(app: Flask) -> None:
    response = Browser(app).get("/", headers={"X-Forwarded-Proto": "https"})
    assert "Strict-Transport-Security" not in response.headers
