"""A form without our token does nothing, and what was typed can be sent again."""

from datetime import timedelta

from app.services.visits import IDLE
from app.web.sessions import COOKIE
from tests.fakes import Clock
from tests.web.browsing import Browser


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
