"""Coming in and going out: what works, what is refused, and what nobody can learn or do by trying."""

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

import pytest
from flask import Flask

from app.services.actor import Role
from app.services.schools import add_slip
from app.services.throttle import MOST, WINDOW
from app.storage.models import Person
from app.storage.queries.audit import list_entries
from app.storage.queries.people import PERSON, find_person
from app.web.settings import Settings
from tests.fakes import START, Clock, PlainHasher, Seeds
from tests.web.browsing import Browser
from tests.web.members import PASSWORD, OneSchool

FORM = "//form[@action='/sign-in']"
FIRST_FORM = "//form[@action='/first-sign-in']"
CHOSEN = "a lubber line of my own"


WRONG = "a wrong password"


@pytest.fixture
def pupil(school: OneSchool) -> Person:
    return school.add(Role.STUDENT, "Alice")


def claim(school: OneSchool, login: str = "alice", **others: str) -> dict[str, str]:
    return {"school": school.code, "login": login} | others


def try_to_enter(browser: Browser, fields: dict[str, str], status: int = 422) -> str:
    page = browser.submit(browser.get_page("/sign-in"), fields, FORM, status)
    return page.words("//p[@role='alert']")


def test_pupil_signs_in_and_out(school: OneSchool, pupil: Person) -> None:
    browser = school.browser_of(pupil)
    assert browser.address == "/today"
    page = browser.get_page("/topics")
    assert page.find("//button[@title='Signed in as Alice']")
    page = browser.submit(page, {}, "//form[@action='/sign-out']")
    assert page.find("//a[@href='/sign-in']")
    assert browser.get("/sign-in").status_code == 200
    assert f'value="{school.code}"' in browser.get("/sign-in").get_data(as_text=True)


def test_what_a_pupil_answers_is_there_in_another_browser(school: OneSchool, pupil: Person) -> None:
    first = school.browser_of(pupil)
    first.start_drill("true-to-compass", length=3)
    address = first.address
    other = school.browser_of(pupil)
    assert other.get(address).status_code == 200
    assert Browser(school.app).get(address).status_code == 404


@pytest.mark.usefixtures("pupil")
def test_wrong_claims_are_told_apart_by_nothing(school: OneSchool, hasher: PlainHasher) -> None:
    """Neither by what is said nor by the work that is done."""
    gone = school.add(Role.STUDENT, "Gone")
    with school.backend.uow.writer() as connection:
        connection.execute(PERSON.update().where(PERSON.c.id == gone.id).values(left_at=START))
    claims = (
        claim(school, password=WRONG),
        claim(school, "nobody", password=PASSWORD),
        claim(school, "gone", password=PASSWORD),
        {"school": "no-such-school", "login": "alice", "password": PASSWORD},
    )
    said, asked = set(), set()
    for fields in claims:
        before = hasher.asked
        said.add(try_to_enter(Browser(school.app), fields))
        asked.add(hasher.asked - before)
    assert len(said) == len(asked) == 1


def test_code_is_good_once_and_password_is_chosen(school: OneSchool, pupil: Person) -> None:
    old = school.browser_of(pupil)
    with school.backend.uow.writer() as connection:
        slip = add_slip(connection, school.code, pupil, None, START)
    fields = claim(school, code=slip.code.lower().replace("-", " "), password=CHOSEN)
    alice, again = Browser(school.app), Browser(school.app)
    alice.submit(alice.get_page(f"/first-sign-in?school={school.code}"), fields, FIRST_FORM)
    assert alice.get_page("/").find("//button[@title='Signed in as Alice']")
    page = again.submit(again.get_page("/first-sign-in"), fields, FIRST_FORM, 422)
    assert "the code was used or has expired" in page.words("//p[@role='alert']")
    assert old.get_page("/").find("//a[@href='/sign-in']")  # the old sign-in has ended
    try_to_enter(Browser(school.app), claim(school, password=PASSWORD))
    other = Browser(school.app)
    other.submit(other.get_page("/sign-in"), claim(school, password=CHOSEN), FORM)
    assert other.address == "/today"


def test_code_expires_and_a_new_one_makes_the_old_worthless(school: OneSchool, pupil: Person, clock: Clock) -> None:
    with school.backend.uow.writer() as connection:
        first = add_slip(connection, school.code, pupil, None, START)
        second = add_slip(connection, school.code, pupil, None, START)
    browser = Browser(school.app)
    fields = claim(school, code=first.code, password=CHOSEN)
    browser.submit(browser.get_page("/first-sign-in"), fields, FIRST_FORM, 422)
    clock.forward(timedelta(days=14))
    fields = claim(school, code=second.code, password=CHOSEN)
    browser.submit(browser.get_page("/first-sign-in"), fields, FIRST_FORM, 422)


@pytest.mark.parametrize(
    ("password", "reason"),
    [("short", "has 5 characters"), ("x" * 201, "has 201"), ("password1234", "easily guessed"), ("a" * 20, "guessed")],
)
def test_password_that_will_not_do_leaves_the_code(
    school: OneSchool, pupil: Person, password: str, reason: str
) -> None:
    with school.backend.uow.writer() as connection:
        slip = add_slip(connection, school.code, pupil, None, START)
    browser = Browser(school.app)
    fields = claim(school, code=slip.code, password=password)
    page = browser.submit(browser.get_page("/first-sign-in"), fields, FIRST_FORM, 422)
    assert reason in page.words("//p[@role='alert']")
    assert password not in page.text
    browser.submit(browser.get_page("/first-sign-in"), fields | {"password": CHOSEN}, FIRST_FORM)


def test_too_many_tries_shut_the_account_for_a_while_even_for_the_right_password(
    school: OneSchool, pupil: Person, clock: Clock
) -> None:
    browser = Browser(school.app)
    for _ in range(MOST["account"]):
        try_to_enter(browser, claim(school, password=WRONG))
    said = try_to_enter(browser, claim(school, password=PASSWORD), 429)
    assert "Try again in 15 minutes" in said
    clock.forward(WINDOW)
    assert school.browser_of(pupil).address == "/today"


@pytest.mark.usefixtures("pupil")
def test_tries_are_counted_across_workers(
    run: Callable[..., Flask], school: OneSchool, settings: Settings, clock: Clock, seeds: Seeds
) -> None:
    other = run(settings, clock, seeds, PlainHasher())
    for number in range(MOST["account"]):
        try_to_enter(Browser(other if number % 2 else school.app), claim(school, password=WRONG))
    for app in (other, school.app):
        try_to_enter(Browser(app), claim(school, password=PASSWORD), 429)


def test_tries_from_one_address_are_counted_over_all_accounts(school: OneSchool, pupil: Person) -> None:
    """Those that succeed do not count: a class behind one address comes in."""
    address = "2001:db8:1::1"
    for number in range(MOST["address"]):
        try_to_enter(Browser(school.app, address=address), claim(school, f"pupil{number}", password=WRONG))
        if number == 3:
            here = Browser(school.app, address=address)
            here.submit(here.get_page("/sign-in"), claim(school, pupil.login, password=PASSWORD), FORM)
    try_to_enter(Browser(school.app, address=address), claim(school, "another", password=PASSWORD), 429)


@pytest.mark.usefixtures("pupil")
def test_cookie_of_before_is_worthless_afterwards(school: OneSchool) -> None:
    """Session fixation: a cookie planted before signing in does not become the pupil's."""
    planted = Browser(school.app)
    planted.start_drill("true-to-compass", length=3)
    cookie = planted.client.get_cookie("lubberline")
    assert cookie
    victim = Browser(school.app)
    victim.client.set_cookie("lubberline", cookie.value)
    victim.submit(victim.get_page("/sign-in"), claim(school, password=PASSWORD), FORM)
    assert not planted.get_page("/").find("//button[starts-with(@title, 'Signed in')]")


@pytest.mark.parametrize(
    ("onward", "arrives"),
    [
        ("/topics", "/topics"),
        ("https://elsewhere.example/", "/today"),
        ("//elsewhere.example/", "/today"),
        ("/\\elsewhere.example", "/today"),
        ("javascript:alert(1)", "/today"),
    ],
)
@pytest.mark.usefixtures("pupil")
def test_nobody_is_led_to_another_site(school: OneSchool, onward: str, arrives: str) -> None:
    browser = Browser(school.app)
    page = browser.get_page("/sign-in?onward=" + onward)
    response = browser.post("/sign-in", page.fields(FORM) | claim(school, password=PASSWORD))
    assert response.status_code == 303
    assert response.location == arrives


def test_fields_that_are_not_in_the_form_change_nothing(school: OneSchool, pupil: Person) -> None:
    browser = Browser(school.app)
    fields = claim(school, password=PASSWORD, role="school", person_id="0", school_id="0")
    browser.submit(browser.get_page("/sign-in"), fields, FORM)
    with school.backend.uow.reader() as connection:
        kept = find_person(connection, school.id, pupil.id)
    assert kept == replace(pupil, seen_at=START)


def test_form_without_token_is_not_accepted_and_shows_no_password(school: OneSchool) -> None:
    page = Browser(school.app).send("/sign-in", claim(school, password=PASSWORD), 400)
    assert PASSWORD not in page.text


def test_comings_and_goings_are_in_the_log(school: OneSchool, pupil: Person, clock: Clock) -> None:
    school.browser_of(pupil)
    clock.forward(timedelta(minutes=1))
    try_to_enter(Browser(school.app), claim(school, password=WRONG))
    with school.backend.uow.reader() as connection:
        entries = list_entries(connection, school.id, 9)
    assert [entry.action for entry in entries] == ["sign-in-refused", "signed-in"]


def test_pages_read_in_french(school: OneSchool) -> None:
    amelie = Browser(school.app, "fr")
    assert amelie.get_page("/sign-in").heading == "Se connecter"
    assert amelie.get_page("/first-sign-in").heading == "Se connecter avec un code à usage unique"
    page = amelie.submit(amelie.get_page("/sign-in"), claim(school, password=WRONG), FORM, 422)
    assert "ne vont pas ensemble" in page.words("//p[@role='alert']")
