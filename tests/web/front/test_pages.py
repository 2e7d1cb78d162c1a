"""About, keys, health."""

from typing import Any

import pytest
from flask import Flask

from tests.web.browsing import Browser


@pytest.mark.parametrize("language", ["en", "fr"])
@pytest.mark.parametrize("address", ["/about", "/keys"])
def test_works(app: Flask, address: str, language: str) -> None:
    page = Browser(app, language).get_page(address)
    assert page.language == language


def test_about_names_model_sources_and_cautions(alice: Browser) -> None:
    words = alice.get_page("/about").words("//main")
    for said in (
        "World Magnetic Model 2025",
        "WMM2025.COF",
        "not for navigation or flight planning",
        "a licensed instructor come first",
        "chosen, not measured",
        "not by its latitude",
        "Transport Canada TP 12880",
        "SIL Open Font License",
    ):
        assert said in words


@pytest.mark.parametrize("address", ["/", "/topics", "/home", "/about", "/keys", "/nowhere"])
def test_caution_stands_on_every_page(alice: Browser, address: str) -> None:
    page = alice.get_page(address, status=404 if address == "/nowhere" else 200)
    assert "Training aid only: not for navigation or flight planning." in page.words("//footer")


def test_keys_of_the_bench_are_listed(alice: Browser) -> None:
    page = alice.get_page("/keys")
    listed = [" ".join("".join(each.itertext()).split()) for each in page.find("//caption")]
    assert listed == ["Keys", "On the bench", "On a point or a slider of the deviation workshop"]


def test_keys_lead_back(alice: Browser) -> None:
    response = alice.get("/keys", headers={"Referer": "http://localhost/topics"})
    assert 'href="http://localhost/topics"' in response.text


@pytest.mark.parametrize("referrer", ["https://elsewhere.example/", "http://localhost/keys", "http://localhost.x/", ""])
def test_keys_lead_nowhere_else(alice: Browser, referrer: str) -> None:
    assert "Back to where you were" not in alice.get("/keys", headers={"Referer": referrer}).text


def test_health(alice: Browser) -> None:
    response = alice.get("/health")
    told: Any = response.json
    assert told["status"] == "ok"
    assert told["families"] > 0
    assert "Set-Cookie" not in response.headers
