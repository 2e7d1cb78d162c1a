"""The account page: own name, own password, own browsers; and an account that is erased meanwhile."""

from uuid import uuid4

import pytest
from sqlalchemy import text

from app.services.actor import Role
from app.services.throttle import MOST
from app.storage.models import Person
from app.storage.queries.people import find_person
from app.web.current import SIGN_IN
from tests.pages import Page
from tests.web.browsing import Browser
from tests.web.members import PASSWORD, OneSchool

NEW = "eight swans on a lake"


@pytest.fixture
def alice_row(school: OneSchool) -> Person:
    return school.add(Role.STUDENT, "Alice")


@pytest.fixture
def student(school: OneSchool, alice_row: Person) -> Browser:
    return school.browser_of(alice_row)


def do(browser: Browser, action: str, fields: dict[str, str], status: int = 200) -> Page:
    return browser.submit(browser.get_page("/account"), fields, f"//form[@action='{action}']", status)


def test_shows_what_one_signs_in_with(school: OneSchool, student: Browser) -> None:
    page = student.get_page("/account")
    assert page.find(f"//b[text()='{school.code}']")
    assert page.find("//b[text()='alice']")
    assert "none yet" in page.words("//main")
    assert page.find("//header//a[@href='/account']")
    Browser(school.app).get_page("/account", 403)


def test_own_name_is_changed_and_nothing_else(school: OneSchool, student: Browser, alice_row: Person) -> None:
    page = do(student, "/account", {"name": " Alice Roy ", "email": "", "role": "school", "login": "boss"})
    assert page.find("//header//a[text()='Alice Roy']")
    with school.backend.uow.reader() as connection:
        after = find_person(connection, school.id, alice_row.id)
    assert after is not None
    assert (after.name, after.role, after.login) == ("Alice Roy", Role.STUDENT, "alice")
    assert "Accepted" in do(student, "/account", {"name": ""}, 422).words("//*[@id='name-refusal']")


def test_another_address_asks_for_the_password(school: OneSchool, student: Browser, alice_row: Person) -> None:
    asked = {"name": "Alice", "email": "alice@example.org"}
    for wrong in ({}, {"own_password": "not this one"}):
        page = do(student, "/account", asked | wrong, 422)
        assert page.words("//*[@id='own_password-refusal']")
        assert page.find("//input[@name='email']/@value") == ["alice@example.org"]
    do(student, "/account", asked | {"own_password": PASSWORD})
    with school.backend.uow.reader() as connection:
        after = find_person(connection, school.id, alice_row.id)
    assert after is not None
    assert after.email == "alice@example.org"
    assert do(student, "/account", {"name": "Alice Roy", "email": "alice@example.org"}).find("//p[@role='status']")


def test_password_change_signs_other_browsers_out_and_gives_a_new_token(
    school: OneSchool, student: Browser, alice_row: Person
) -> None:
    other = school.browser_of(alice_row)
    with student.client.session_transaction() as session:
        before = session[SIGN_IN]
    do(student, "/account/password", {"present": PASSWORD, "password": NEW})
    with student.client.session_transaction() as session:
        assert session[SIGN_IN] != before
    student.get_page("/account")
    other.get_page("/account", 403)
    fresh = Browser(school.app)
    fields = {"school": school.code, "login": "alice"}
    page = fresh.get_page("/sign-in")
    fresh.submit(page, fields | {"password": PASSWORD}, "//main//form", 422)
    fresh.submit(page, fields | {"password": NEW}, "//main//form")


@pytest.mark.parametrize(
    ("present", "wanted", "field"), [("wrong", NEW, "present"), (PASSWORD, "short", "password"), ("", NEW, "present")]
)
def test_password_stays_where_something_is_wrong(
    school: OneSchool, student: Browser, alice_row: Person, present: str, wanted: str, field: str
) -> None:
    page = do(student, "/account/password", {"present": present, "password": wanted}, 422)
    assert page.words(f"//*[@id='{field}-refusal']")
    assert PASSWORD not in page.text
    school.browser_of(alice_row)


def test_present_password_cannot_be_guessed_at_length(student: Browser) -> None:
    for _ in range(MOST["account"]):
        do(student, "/account/password", {"present": "wrong", "password": NEW}, 422)
    do(student, "/account/password", {"present": PASSWORD, "password": NEW}, 429)


def test_another_browser_is_signed_out_from_here(school: OneSchool, student: Browser, alice_row: Person) -> None:
    other = school.browser_of(alice_row)
    page = student.get_page("/account")
    assert "this browser" in page.words("//main//ul")
    student.submit(page, {}, "//form[contains(@action, '/end') and contains(@action, '-')][1]")
    other.get_page("/account", 403)
    student.get_page("/account")


def test_nobody_ends_somebody_elses_sign_in(school: OneSchool, student: Browser, alice_row: Person) -> None:
    bob = school.browser_of(school.add(Role.STUDENT, "Bob"))
    school.browser_of(alice_row)
    action = student.get_page("/account").find("//form[contains(@action, '/sign-ins/0')]/@action")[0]
    bob.send(action, {"csrf_token": bob.get_page("/").token}, 404)
    bob.send(f"/account/sign-ins/{uuid4()}/end", {"csrf_token": bob.get_page("/").token}, 404)
    student.get_page("/account")


def test_all_are_signed_out_at_once(school: OneSchool, student: Browser, alice_row: Person) -> None:
    other = school.browser_of(alice_row)
    assert do(student, "/account/sign-ins/end", {}).heading == "Sign in"
    other.get_page("/account", 403)
    student.get_page("/account", 403)


def test_language_goes_with_the_account(school: OneSchool, student: Browser, alice_row: Person) -> None:
    page = student.get_page("/account")
    student.submit(page, {"language": "fr"}, "//form[@action='/language']")
    assert school.browser_of(alice_row).get_page("/account").heading == "Votre compte"


def test_student_erased_while_answering_is_a_guest_and_nothing_is_kept(
    school: OneSchool, student: Browser, alice_row: Person
) -> None:
    question = student.start_drill("true-to-compass")
    erased = {"id": alice_row.visit_id.hex}
    with school.backend.uow.writer() as connection:
        connection.execute(text("DELETE FROM visit WHERE id = :id"), erased)
    student.submit(question, {"choice": "0"}, status=404)
    with school.backend.uow.reader() as connection:
        kept = connection.scalar(text("SELECT count(*) FROM attempt WHERE visit_id = :id"), erased)
    assert kept == 0
    assert "Sign in" in student.get_page("/").words("//header")
