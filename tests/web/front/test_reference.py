"""Syllabus lines and the reference page: found, in both languages, with what a reader needs beside them."""

import pytest
from flask import Flask

from tests.web.browsing import Browser


@pytest.mark.parametrize("language", ["en", "fr"])
@pytest.mark.parametrize("address", ["/reference", "/syllabus", "/syllabus/us-par", "/syllabus/ca-rpp"])
def test_works(app: Flask, address: str, language: str) -> None:
    assert Browser(app, language).get_page(address).language == language


@pytest.mark.parametrize("address", ["/about", "/topics"])
def test_both_are_linked(alice: Browser, address: str) -> None:
    page = alice.get_page(address)
    assert page.find("//main//a[@href='/syllabus']")
    assert page.find("//main//a[@href='/reference']")


def test_syllabus_lines_lead_to_their_topics(alice: Browser) -> None:
    page = alice.get_page("/syllabus/ca-ppl")
    row = "//tr[th='TP 12880 Pilot Navigation 20']"
    assert page.find(f"{row}//a[@href='/topics/datum?family=true-to-compass']")
    assert "official page" in page.words(row)
    assert page.words("//caption").endswith("from notes of 25 Nov 2026")
    assert "Stated lines without a question" not in page.text
    permit = alice.get_page("/syllabus/ca-rpp")
    assert "may be more than it asks" in permit.text
    assert "Stated lines without a question" not in permit.text


def test_syllabus_in_french_names_its_documents_in_french_and_marks_the_english_of_its_lines(app: Flask) -> None:
    page = Browser(app, "fr").get_page("/syllabus/ca-ppl")
    assert "Règlement de l’aviation canadien" in page.words("//main")
    assert "Canadian Aviation Regulations" not in page.text
    lines = page.find("//tbody/tr/th")
    assert lines
    assert {each.get("lang") for each in lines} == {"en"}


def test_syllabus_names_lines_without_a_question(alice: Browser, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.services.syllabus._serving", lambda *_: ())
    page = alice.get_page("/syllabus/ca-ppl")
    assert page.words("//h1/following::h2[last()]") == "Stated lines without a question"


def test_unknown_syllabus_is_not_found(alice: Browser) -> None:
    alice.get_page("/syllabus/ca-atpl", status=404)


def test_reference_says_numbers_of_both_hemispheres_and_cautions(alice: Browser) -> None:
    words = alice.get_page("/reference").words("//main")
    for said in ("right onto 360 at 307", "right onto 180 at 127", "the compass card shows 325", "it shows 035",
                 "Source: ", "made up for practice", "current chart"):  # fmt: skip
        assert said in words
