"""People's accounts: who looks after whom, corrections, new codes, leaving and coming back, roles."""

from uuid import UUID, uuid4

import pytest

from app.services.actor import Role
from app.storage.models import Person
from app.storage.queries import classes
from app.storage.queries.people import find_person
from tests.pages import Page
from tests.web.browsing import Browser
from tests.web.members import PASSWORD, OneSchool


@pytest.fixture
def ingrid(school: OneSchool) -> Person:
    return school.add(Role.INSTRUCTOR, "Ingrid")


@pytest.fixture
def alice_row(school: OneSchool) -> Person:
    return school.add(Role.STUDENT, "Alice")


@pytest.fixture
def autumn(school: OneSchool, ingrid: Person, alice_row: Person) -> UUID:
    return school.add_class("Autumn", ingrid, alice_row)


@pytest.fixture
def selma_row(school: OneSchool) -> Person:
    return school.add(Role.SCHOOL, "Selma")


@pytest.fixture
def selma(school: OneSchool, selma_row: Person) -> Browser:
    return school.browser_of(selma_row)


def do(browser: Browser, person: Person, what: str, fields: dict[str, str], status: int = 200) -> Page:
    action = f"/people/{person.id}{what}"
    return browser.submit(browser.get_page(f"/people/{person.id}"), fields, f"//form[@action='{action}']", status)


def send(browser: Browser, address: str, fields: dict[str, str], status: int) -> Page:
    return browser.send(address, {"csrf_token": browser.get_page("/").token} | fields, status)


def kept(school: OneSchool, person: Person) -> Person:
    with school.backend.uow.reader() as connection:
        found = find_person(connection, school.id, person.id)
    assert found is not None
    return found


@pytest.mark.usefixtures("autumn")
def test_lists_whom_one_looks_after(school: OneSchool, ingrid: Person, selma: Browser) -> None:
    school.add(Role.STUDENT, "Bob")
    everybody = selma.get_page("/people").words("//tbody")
    assert all(name in everybody for name in ("Alice", "Bob", "Ingrid", "Selma"))
    own = school.browser_of(ingrid).get_page("/people").words("//tbody")
    assert "Alice" in own
    assert "Bob" not in own


@pytest.mark.usefixtures("autumn")
def test_name_and_email_are_corrected_and_nothing_else(school: OneSchool, ingrid: Person, alice_row: Person) -> None:
    """Mass assignment: fields that the form does not have change nothing."""
    instructor = school.browser_of(ingrid)
    more = {"role": "school", "login": "boss", "school_id": str(uuid4()), "password_hash": "x", "left_at": "2026"}
    page = do(instructor, alice_row, "", {"name": "Alice  Roy", "email": " alice@school.example "} | more)
    assert page.heading == "Alice Roy"
    after = kept(school, alice_row)
    assert (after.name, after.email) == ("Alice Roy", "alice@school.example")
    same = ("role", "login", "school_id", "password_hash", "left_at", "visit_id")
    assert [getattr(after, name) for name in same] == [getattr(alice_row, name) for name in same]
    page = do(instructor, alice_row, "", {"name": "Alice", "email": "alice at home"}, 422)
    assert "“alice at home”" in page.words("//*[@id='email-refusal']")
    do(instructor, alice_row, "", {"name": "Alice", "email": ""})
    assert kept(school, alice_row).email is None


@pytest.mark.usefixtures("autumn")
def test_instructor_gives_a_code_and_the_password_holds_until_it_is_used(
    school: OneSchool, ingrid: Person, alice_row: Person
) -> None:
    page = do(school.browser_of(ingrid), alice_row, "/code", {})
    code = page.words("//dd[4]")
    school.browser_of(alice_row)
    alice = Browser(school.app)
    fields = {"school": school.code, "login": "alice", "code": code, "password": "another line of my own"}
    alice.submit(alice.get_page("/first-sign-in"), fields, "//main//form")
    assert alice.get_page("/account").heading == "Your account"


def test_closed_to_strangers_and_to_whoever_does_not_look_after_them(
    school: OneSchool, other_school: OneSchool, ingrid: Person, alice_row: Person, selma_row: Person
) -> None:
    bob = school.add(Role.STUDENT, "Bob")
    dora = other_school.browser_of(other_school.add(Role.SCHOOL, "Dora"))
    instructor = school.browser_of(ingrid)
    for person in (bob, selma_row, ingrid):
        instructor.get_page(f"/people/{person.id}", 403)
        send(instructor, f"/people/{person.id}/code", {}, 403)
    dora.get_page(f"/people/{alice_row.id}", 404)
    for what in ("", "/code", "/leave", "/return", "/role"):
        send(dora, f"/people/{alice_row.id}{what}", {"name": "Mallory", "role": "school"}, 404)
    send(instructor, f"/people/{bob.id}/leave", {}, 403)
    school.browser_of(bob).get_page(f"/people/{bob.id}", 403)
    assert kept(school, alice_row) == alice_row


def test_whoever_leaves_is_signed_out_and_comes_back_with_everything(
    school: OneSchool, alice_row: Person, selma: Browser
) -> None:
    student = school.browser_of(alice_row)
    student.start_drill("true-to-compass")
    drill = student.address
    assert "The account is closed" in do(selma, alice_row, "/leave", {}).words("//p[@class='notice']")
    student.get_page(drill, 404)
    page = student.get_page("/sign-in")
    fields = {"school": school.code, "login": "alice", "password": PASSWORD}
    student.submit(page, fields, "//main//form", 422)
    send(selma, f"/people/{alice_row.id}/code", {}, 409)
    do(selma, alice_row, "/return", {})
    school.browser_of(alice_row).get_page(drill)


def test_classes_of_a_leaving_instructor_go_to_another(
    school: OneSchool, ingrid: Person, autumn: UUID, selma: Browser
) -> None:
    irene = school.add(Role.INSTRUCTOR, "Irene")
    page = do(selma, ingrid, "/leave", {}, 409)
    assert "Ingrid alone teaches Autumn" in page.words("//p[@role='alert']")
    send(selma, f"/people/{ingrid.id}/leave", {"successor": str(ingrid.id)}, 404)
    send(selma, f"/people/{ingrid.id}/leave", {"successor": str(uuid4())}, 404)
    assert kept(school, ingrid).left_at is None
    do(selma, ingrid, "/leave", {"successor": str(irene.id)})
    with school.backend.uow.reader() as connection:
        assert classes.list_taught(connection, school.id, irene.id) == {autumn}
        assert not classes.list_taught(connection, school.id, ingrid.id)


def test_roles_change_between_instructor_and_administrator_and_one_administrator_stays(
    school: OneSchool, ingrid: Person, alice_row: Person, selma_row: Person, selma: Browser
) -> None:
    for what in ("/leave", "/role"):
        page = send(selma, f"/people/{selma_row.id}{what}", {"role": "instructor"}, 409)
        assert "the only administrator" in page.words("//p[@role='alert']")
    do(selma, ingrid, "/role", {"role": "school"})
    assert kept(school, ingrid).role == Role.SCHOOL
    for person, role in ((alice_row, "school"), (ingrid, "student"), (ingrid, "root")):
        send(selma, f"/people/{person.id}/role", {"role": role}, 422)
    do(selma, selma_row, "/role", {"role": "instructor"})
    selma.get_page("/school/audit", 403)


def test_school_signs_somebody_out_everywhere(school: OneSchool, alice_row: Person, selma: Browser) -> None:
    lost = school.browser_of(alice_row)
    do(selma, alice_row, "/sign-out", {})
    lost.get_page("/account", 403)
    school.browser_of(alice_row).get_page("/account")
