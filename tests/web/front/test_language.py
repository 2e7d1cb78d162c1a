"""The language switch keeps the page, its question and its numbers."""

import pytest

from tests.web.browsing import Browser

SWITCH = "//form[@action='/language']"


def test_works(alice: Browser) -> None:
    page = alice.submit(alice.get_page("/about"), {"language": "fr"}, form=SWITCH)
    assert (page.language, alice.address) == ("fr", "/about")
    assert alice.submit(page, {"language": "en"}, form=SWITCH).language == "en"


def test_first_question_stays_the_same(alice: Browser) -> None:
    english = alice.get_page("/")
    french = alice.submit(english, {"language": "fr"}, form=SWITCH)
    assert french.language == "fr"
    for name in ("seed", "stamp"):
        assert french.fields()[name] == english.fields()[name]


def test_question_of_a_drill_stays_the_same(alice: Browser) -> None:
    english = alice.start_drill("true-to-compass")
    french = alice.submit(english, {"language": "fr"}, form=SWITCH)
    assert french.language == "fr"
    assert french.heading != english.heading
    for name in ("item", "stamp"):
        assert french.fields()[name] == english.fields()[name]


def test_verdict_stays_the_same(alice: Browser) -> None:
    english = alice.submit(alice.get_page("/"), {"choice": "0"})
    address = alice.address
    french = alice.submit(english, {"language": "fr"}, form=SWITCH)
    assert (french.language, alice.address) == ("fr", address)


def test_chosen_language_outlives_the_browsers(amelie: Browser) -> None:
    amelie.submit(amelie.get_page("/"), {"language": "en"}, form=SWITCH)
    assert amelie.start_drill("true-to-compass").language == "en"


def test_browser_decides_at_first(alice: Browser, amelie: Browser) -> None:
    assert (alice.get_page("/").language, amelie.get_page("/").language) == ("en", "fr")


@pytest.mark.parametrize("language", ["", "de", "EN", "../fr"])
def test_unknown_language(alice: Browser, language: str) -> None:
    alice.submit(alice.get_page("/"), {"language": language}, form=SWITCH, status=400)


@pytest.mark.parametrize(
    "here",
    ["https://elsewhere.example/", "//elsewhere.example", "/\\elsewhere.example", "javascript:go()", "", "about"],
)
def test_leads_to_no_other_site(alice: Browser, here: str) -> None:
    token = alice.get_page("/").token
    response = alice.post("/language", {"csrf_token": token, "language": "fr", "here": here})
    assert response.headers["Location"] == "/"


def test_header_cannot_be_split(alice: Browser) -> None:
    token = alice.get_page("/").token
    response = alice.post("/language", {"csrf_token": token, "language": "fr", "here": "/about\r\nX-Bad: 1"})
    assert response.headers["Location"] == "/"


def test_rejects_get(alice: Browser) -> None:
    alice.get_page("/language", status=405)
