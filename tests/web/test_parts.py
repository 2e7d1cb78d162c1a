"""The parts that pages share are kept; nobody may get another's."""

from flask import Flask
from jinja2 import Environment, pass_context
from jinja2.runtime import Context
from markupsafe import Markup

from app.services.actor import Role
from app.web import parts
from app.web.parts import PageContext
from tests.web.browsing import Browser
from tests.web.front.test_home import LISTED
from tests.web.members import OneSchool

HOME = "//p[@class='place-line']"
FOOTER = "//footer"
NAV = "//header//nav"
HERE = "//header//nav/a[@aria-current]"


def test_shared_parts_speak_the_language_of_their_reader(alice: Browser, amelie: Browser) -> None:
    english, french = alice.get_page("/topics"), amelie.get_page("/topics")
    assert "Training aid only" in english.words(FOOTER)
    assert "Training aid only" not in french.words(FOOTER)
    assert "variation" in english.words(HOME)
    assert "déclinaison" in french.words(HOME)


def test_links_of_the_header_are_those_of_role_and_page(alice: Browser, school: OneSchool) -> None:
    assert alice.get_page("/topics").words(HERE) == "Questions"
    assert alice.get_page("/bench").words(HERE) == "Bench"
    page = school.browser_of(school.add(Role.INSTRUCTOR, "Ingrid")).get_page("/topics")
    assert "Classes" in page.words(NAV)
    assert "Classes" not in alice.get_page("/topics").words(NAV)


def test_a_page_below_another_belongs_to_its_link(school: OneSchool) -> None:
    ingrid, selma = school.add(Role.INSTRUCTOR, "Ingrid"), school.browser_of(school.add(Role.SCHOOL, "Selma"))
    taught = school.add_class("Tuesday", ingrid)
    for address, link in (
        (f"/classes/{taught}/weak-spots", "Classes"),
        (f"/classes/{taught}/sets", "Classes"),
        (f"/people/{ingrid.id}", "People"),
        ("/topic-sets/new", "Topic sets"),
        ("/school/reports", "Quality"),
        ("/school/quality/true-to-compass", "Quality"),
        ("/school/exam-profiles", "School"),
        ("/topics/datum", "Questions"),
    ):
        assert selma.get_page(address).words(HERE) == link, address


def test_an_address_that_leads_nowhere_is_of_no_link(alice: Browser) -> None:
    for address in ("/bench/nowhere", "/topics/nowhere/else"):
        assert not alice.get_page(address, 404).find(HERE)


def test_a_student_belongs_to_the_classes_of_who_teaches(school: OneSchool) -> None:
    ingrid, alice = school.add(Role.INSTRUCTOR, "Ingrid"), school.add(Role.STUDENT, "Alice")
    school.add_class("Tuesday", ingrid, alice)
    browser = school.browser_of(ingrid)
    for end in ("", "/record", "/training-record"):
        assert browser.get_page(f"/people/{alice.id}{end}").words(HERE) == "Classes"


def test_the_home_place_is_the_readers_own(alice: Browser, bob: Browser) -> None:
    before = bob.get_page("/topics").words(HOME)
    alice.submit(alice.get_page("/home"), LISTED, form="//main//form")
    assert alice.get_page("/topics").words(HOME) != before
    assert bob.get_page("/topics").words(HOME) == before


def test_what_is_of_one_person_goes_into_holes_of_what_is_kept(school: OneSchool) -> None:
    """The same page for the same role twice, so that the second one's frame was made for the first."""
    names = ("Alice <i>", "Bob & Co")
    for name in names:
        page = school.browser_of(school.add(Role.STUDENT, name)).get_page("/today")
        assert page.words(f"{NAV}/a[@href='/account']") == name
        assert [str(each) for each in page.find(f"{NAV}//button[starts-with(@title, 'Signed')]/@title")] == [
            f"Signed in as {name}"
        ]


def test_the_frame_leads_back_to_the_very_page_with_its_own_token(alice: Browser, bob: Browser) -> None:
    seen = set()
    for browser in (alice, bob):
        browser.submit(browser.get_page("/home"), LISTED, form="//main//form")  # a visit of its own, so a token
        for address in ("/topics?a=1", "/topics?a=2"):
            page = browser.get_page(address)
            assert [str(each) for each in page.find(f"{NAV}//input[@name='here']/@value")] == [address]
        seen |= {str(each) for each in page.find(f"{NAV}//input[@name='csrf_token']/@value")}
    assert len(seen) == 2


def test_markup_is_written_as_it_is_and_all_else_escaped(app: Flask) -> None:
    environment = parts.Environment(app, autoescape=True)
    page = environment.from_string(
        "{% macro bold(text) %}<b>{{ text }}</b>{% endmacro %}"
        "{{ safe }}{{ unsafe }}{{ bold(unsafe) }}{{ bold(safe) }}{{ 1 + 1 }}{{ none }}{{ unsafe|upper }}{{ {'<': 1} }}"
    )
    assert page.render(safe=Markup("<i>"), unsafe="<&") == (
        "<i>&lt;&amp;<b>&lt;&amp;</b><b><i></b>2None&lt;&amp;{&#39;&lt;&#39;: 1}"
    )


def test_calls_in_templates_get_what_they_ask_for() -> None:
    @pass_context
    def named(context: Context, name: str) -> object:
        return context[name]

    environment = Environment(autoescape=True)
    environment.context_class = PageContext
    environment.globals.update(named=named, shout=str.upper, whisper=lambda text, *, end="": text.lower() + end)
    page = environment.from_string(
        "{% macro twice(text) %}<b>{{ text }}{{ text }}</b>{{ caller() if caller }}{% endmacro %}"
        "{{ twice('<') }}{% call twice('a') %}c{% endcall %}"
        "{% for each in 'xy' %}{% set held = each %}{{ named('held') }}{{ whisper(each, end='.') }}{% endfor %}"
        "{{ shout('z') }}{{ named('given') }}"
    )
    assert page.render(given="&") == "<b>&lt;&lt;</b><b>aa</b>cxx.yy.Z&amp;"
