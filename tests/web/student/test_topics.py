"""Choosing what to drill."""

import pytest
from flask import Flask

from tests.pages import words_of
from tests.questions.engine import library
from tests.web.browsing import Browser


@pytest.mark.parametrize("language", ["en", "fr"])
def test_works(app: Flask, language: str) -> None:
    page = Browser(app, language).get_page("/topics")
    assert len(page.find("//a[starts-with(@href, '/topics/')]")) == len(library().packs)


@pytest.mark.parametrize("topic", library().packs)
def test_every_topic_lists_its_families(alice: Browser, topic: str) -> None:
    page = alice.get_page(f"/topics/{topic}")
    assert page.heading == library().packs[topic].title.en
    listed = page.find("//input[@name='family']/@value")
    assert tuple(listed) == library().packs[topic].families


def test_starts_a_drill_of_the_topic(alice: Browser) -> None:
    topic = alice.get_page("/topics/datum")
    families = topic.find("//input[@name='family']/@value")
    question = alice.submit(topic, {"family": families, "length": "5"}, form="//main//form")
    assert question.title.startswith("Question 1 of 5: ")


@pytest.mark.parametrize(
    ("query", "ticked", "ways"),
    [
        ("", list(library().packs["datum"].families), ["Untick all"]),
        ("?family=runway-designator", ["runway-designator"], ["Untick all", "Tick all"]),
        ("?family=none", [], ["Tick all"]),
    ],
)
def test_ticks_what_the_address_names(alice: Browser, query: str, ticked: list[str], ways: list[str]) -> None:
    page = alice.get_page("/topics/datum" + query)
    assert page.find("//input[@name='family'][@checked]/@value") == ticked
    assert [words_of(each) for each in page.find("//form//a")] == ways


def test_length_comes_before_the_kinds_and_the_start_stays_in_sight(alice: Browser) -> None:
    page = alice.get_page("/topics/track")
    assert page.find("//form//input[@name='length'][following::input[@name='family']]")
    assert page.find("//form//div[@class='stays']//button")


def test_starts_a_drill_of_everything(alice: Browser) -> None:
    page = alice.get_page("/topics")
    assert "Question 1 of 20" in alice.submit(page, {"length": "20"}, form="//main//form").title


def test_unknown_topic(alice: Browser) -> None:
    alice.get_page("/topics/astrology", status=404)


def test_open_drill_can_be_gone_on_with(alice: Browser) -> None:
    alice.start_drill("true-to-compass")
    assert alice.get_page("/topics").find("//main//a[starts-with(@href, '/drills/')]")
