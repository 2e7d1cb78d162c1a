"""Reporting a problem with a question, with its exact numbers."""

from flask import Flask

from tests.web.browsing import Browser
from tests.web.student.answers import item_of

FORM = "//main//form"


def report_of(browser: Browser) -> str:
    page = browser.start_drill("true-to-compass", length=2)
    return f"/items/{page.fields()['item']}/report"


def test_works(app: Flask, alice: Browser) -> None:
    question = alice.start_drill("true-to-compass", length=2)
    page = alice.get_page(question.find("//form[@id='answer']//a/@href")[0])
    numbers = {row[0].text: row[1].text for row in page.find("//main//table/tbody/tr")}
    item = item_of(app, question)
    assert numbers["family"] == "true-to-compass"
    assert {name: str(value) for name, value in item.parameters.items()}.items() <= numbers.items()
    assert "compass_deg" not in numbers  # the key stays here until it is answered


def test_report_is_kept(alice: Browser) -> None:
    page = alice.get_page(report_of(alice))
    sent = alice.submit(page, {"text": "The variation is missing."}, form=FORM)
    assert "Your report is kept" in sent.words("//*[@role='status']")


def test_leads_back_to_the_question_or_its_verdict(alice: Browser) -> None:
    question = alice.start_drill("true-to-compass", length=2)
    address = alice.address
    page = alice.get_page(f"/items/{question.fields()['item']}/report")
    assert page.find(f"//main//a[@href='{address}']")
    verdict = alice.submit(question, {"choice": "0", "value": "001"})
    page = alice.get_page(verdict.find("//a[contains(@href, '/report')]/@href")[0])
    assert page.find("//main//a[starts-with(@href, '/items/')]")


def test_shows_form_errors(alice: Browser) -> None:
    page = alice.get_page(report_of(alice))
    empty = alice.submit(page, {"text": " "}, form=FORM, status=422)
    assert "The report is empty" in empty.words("//*[@id='refusal']")
    long = alice.submit(page, {"text": "x" * 2001}, form=FORM, status=422)
    assert "2001 characters" in long.words("//*[@id='refusal']")
    assert len(long.words("//textarea")) == 2001


def test_enough_is_enough(alice: Browser) -> None:
    page = alice.get_page(report_of(alice))
    for _ in range(5):
        alice.submit(page, {"text": "Again."}, form=FORM)
    refused = alice.submit(page, {"text": "Again."}, form=FORM, status=409)
    assert "already" in refused.words("//*[@id='refusal']")


def test_markup_is_only_text(alice: Browser) -> None:
    page = alice.get_page(report_of(alice))
    refused = alice.submit(page, {"text": "</textarea><script>x</script>" + "x" * 2000}, form=FORM, status=422)
    assert not refused.find("//script[not(@src)]")


def test_hides_other_visitors(alice: Browser, bob: Browser) -> None:
    address = report_of(alice)
    bob.start_drill("true-to-compass")
    bob.get_page(address, status=404)
    bob.send(address, {"csrf_token": bob.get_page("/").token, "text": "x"}, status=404)


def test_works_in_french(amelie: Browser) -> None:
    page = amelie.get_page(report_of(amelie))
    assert page.heading == "Signaler un problème dans cette question"
    assert "Votre signalement est gardé" in amelie.submit(page, {"text": "Oups."}, form=FORM).text
