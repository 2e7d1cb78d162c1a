"""Classes on the pages: made, taught, joined, changed by two at once, and closed to everybody else."""

from uuid import UUID, uuid4

import pytest

from app.services.actor import Role
from app.storage.models import Person
from app.storage.queries import classes
from tests.pages import Page, words_of
from tests.web.browsing import Browser
from tests.web.members import OneSchool


@pytest.fixture
def ingrid(school: OneSchool) -> Person:
    return school.add(Role.INSTRUCTOR, "Ingrid")


@pytest.fixture
def instructor(school: OneSchool, ingrid: Person) -> Browser:
    return school.browser_of(ingrid)


@pytest.fixture
def alice_row(school: OneSchool) -> Person:
    return school.add(Role.STUDENT, "Alice")


@pytest.fixture
def autumn(school: OneSchool, ingrid: Person, alice_row: Person) -> UUID:
    """Ingrid's class with Alice in it."""
    return school.add_class("Autumn", ingrid, alice_row)


def do(browser: Browser, address: str, what: str, fields: dict[str, str], status: int = 200) -> Page:
    """Fill in the form of a page whose address ends with `what`."""
    ends = f"substring(@action, string-length(@action) - {len(what) - 1}) = '{what}'"
    return browser.submit(browser.get_page(address), fields, f"//main//form[{ends}]", status)


def test_instructor_comes_in_to_their_classes_and_makes_the_first_one(instructor: Browser) -> None:
    assert instructor.address == "/classes"
    page = instructor.get_page("/classes")
    assert "Make the first one below" in page.words("//main")
    page = do(instructor, "/classes", "/classes", {"name": "  Private   pilots, autumn "})
    assert page.heading == "Private pilots, autumn"
    assert "Ingrid" in page.words("//main")
    assert "0 students" in instructor.get_page("/classes").words("//main")


@pytest.mark.parametrize("name", ["", "   ", "x" * 81])
def test_name_that_cannot_be_is_named_and_nothing_is_made(instructor: Browser, name: str) -> None:
    page = do(instructor, "/classes", "/classes", {"name": name}, 422)
    assert "Accepted: 1 to 80" in page.words("//*[@id='name-refusal']")
    assert "Make the first one below" in instructor.get_page("/classes").words("//main")


def test_class_lists_its_students(instructor: Browser, autumn: UUID) -> None:
    page = instructor.get_page(f"/classes/{autumn}")
    assert [words_of(each) for each in page.find("//tbody/tr/*")][:2] == ["Alice", "alice"]
    assert "1 student" in instructor.get_page("/classes").words("//main")


def test_strangers_get_404_and_members_without_the_right_403(
    school: OneSchool, other_school: OneSchool, autumn: UUID, alice_row: Person
) -> None:
    irene = school.browser_of(school.add(Role.INSTRUCTOR, "Irene"))
    dora = other_school.browser_of(other_school.add(Role.SCHOOL, "Dora"))
    token = irene.get_page("/classes").token
    irene.get_page(f"/classes/{autumn}", status=403)
    irene.send(f"/classes/{autumn}/archive", {"csrf_token": token, "version": "1"}, 403)
    dora.get_page(f"/classes/{autumn}", status=404)
    token = dora.get_page("/classes").token
    for what, fields in (("name", {"name": "Mine"}), ("joining", {"days": "7"}), ("students", {"login": "alice"})):
        dora.send(f"/classes/{autumn}/{what}", fields | {"csrf_token": token, "version": "1"}, 404)
    dora.send(f"/classes/{autumn}/students/{alice_row.id}/remove", {"csrf_token": token}, 404)
    school.browser_of(alice_row).get_page(f"/classes/{autumn}", status=403)
    assert "Autumn" not in dora.get_page("/classes").text


def test_two_at_once_do_not_undo_each_other(school: OneSchool, autumn: UUID) -> None:
    selma = school.browser_of(school.add(Role.SCHOOL, "Selma"))
    stale = selma.get_page(f"/classes/{autumn}")
    form = "//main//form[contains(@action, '/name')]"
    selma.submit(stale, {"name": "Winter"}, form)
    page = selma.submit(stale, {"name": "Spring"}, form, 409)
    assert "Somebody has changed Winter" in page.words("//p[@role='alert']")
    assert selma.get_page(f"/classes/{autumn}").heading == "Winter"


def test_joining_opens_with_a_fresh_code_and_ends(instructor: Browser, autumn: UUID) -> None:
    page = do(instructor, f"/classes/{autumn}", "/joining", {"days": "7"})
    first = page.words("//b[@class='value']")
    assert len(first) == 8
    page = do(instructor, f"/classes/{autumn}", "/joining/end", {})
    assert "Nobody can join now" in page.words("//main")
    assert do(instructor, f"/classes/{autumn}", "/joining", {"days": "1"}).words("//b[@class='value']") != first
    do(instructor, f"/classes/{autumn}", "/joining/end", {})
    page = do(instructor, f"/classes/{autumn}", "/joining", {"days": "9000"}, 422)
    assert "Accepted: 1, 7, 30, 120" in page.words("//p[@role='alert']")


def test_class_is_put_away_and_comes_back_whole(instructor: Browser, autumn: UUID) -> None:
    do(instructor, f"/classes/{autumn}", "/joining", {"days": "7"})
    page = do(instructor, f"/classes/{autumn}", "/archive", {})
    assert "put away" in page.words("//p[@class='notice']")
    assert "Put away" in instructor.get_page("/classes").words("//main")
    page = do(instructor, f"/classes/{autumn}", "/archive", {})
    assert "Alice" in page.words("//tbody")
    assert "Nobody can join now" in page.words("//main")


def test_students_are_added_by_login_and_taken_out(school: OneSchool, instructor: Browser, autumn: UUID) -> None:
    bob = school.add(Role.STUDENT, "Bob")
    address = f"/classes/{autumn}"
    for _ in range(2):  # twice is once
        assert "Bob" in do(instructor, address, "/students", {"login": " BOB "}).words("//tbody")
    assert "Bob" not in do(instructor, address, f"{bob.id}/remove", {}).words("//tbody")
    assert "Bob" in do(instructor, address, "/students", {"login": "bob"}).words("//tbody")
    for nobody in ("nobody", "ingrid", ""):
        page = do(instructor, address, "/students", {"login": nobody}, 422)
        assert f"“{nobody}”" in page.words("//*[@id='login-refusal']")


def test_instructors_are_added_and_the_last_one_stays(
    school: OneSchool, instructor: Browser, ingrid: Person, autumn: UUID
) -> None:
    irene, alice = school.add(Role.INSTRUCTOR, "Irene"), school.add(Role.STUDENT, "Anna")
    address = f"/classes/{autumn}"
    page = do(instructor, address, f"teachers/{ingrid.id}/remove", {}, 409)
    assert "Ingrid is the only instructor" in page.words("//p[@role='alert']")
    for wrong in (str(alice.id), str(uuid4()), "x"):
        do(instructor, address, "/teachers", {"person": wrong}, 404)
    do(instructor, address, "/teachers", {"person": str(irene.id)})
    page = school.browser_of(irene).get_page(address)
    assert page.heading == "Autumn"
    do(instructor, address, f"teachers/{irene.id}/remove", {})
    school.browser_of(irene).get_page(address, status=403)


def test_school_moves_a_student_with_all_they_answered(
    school: OneSchool, ingrid: Person, alice_row: Person, autumn: UUID
) -> None:
    student = school.browser_of(alice_row)
    student.start_drill("true-to-compass")
    drill = student.address
    winter = school.add_class("Winter", school.add(Role.INSTRUCTOR, "Irene"))
    selma = school.browser_of(school.add(Role.SCHOOL, "Selma"))
    token = selma.get_page("/classes").token
    way = f"/classes/{autumn}/students/{alice_row.id}/move"
    selma.send(way, {"csrf_token": token, "class": str(winter)})
    assert "Alice" in selma.get_page(f"/classes/{winter}").words("//tbody")
    assert "Nobody is in this class yet" in selma.get_page(f"/classes/{autumn}").words("//main")
    student.get_page(drill)
    with school.backend.uow.reader() as connection:
        assert classes.list_attended(connection, school.id, alice_row.id) == {winter}
    instructor = school.browser_of(ingrid)
    instructor.send(way, {"csrf_token": instructor.get_page("/classes").token, "class": str(winter)}, 403)


def test_works_in_french(school: OneSchool) -> None:
    row = school.add(Role.INSTRUCTOR, "Amelie", "fr")
    amelie = school.browser_of(row, "fr")
    page = do(amelie, "/classes", "/classes", {"name": "Automne"})
    assert "Personne n’est encore dans cette classe" in page.words("//main")


def test_a_school_without_instructors_is_led_to_inviting_one(school: OneSchool) -> None:
    selma = school.browser_of(school.add(Role.SCHOOL, "Selma"))
    made = selma.submit(selma.get_page("/classes"), {"name": "Spring"}, "//main//form")
    assert made.find("//section[h2='Instructors']//a[@href='/school/invitations']")
    school.add(Role.INSTRUCTOR, "Ingrid")
    assert not selma.get_page(selma.address).find("//main//a[@href='/school/invitations']")


def test_a_name_leads_to_the_record_and_from_there_to_the_account(
    instructor: Browser, autumn: UUID, alice_row: Person
) -> None:
    record = instructor.get_page(instructor.get_page(f"/classes/{autumn}").find("//tbody/tr/th/a/@href")[0])
    assert record.heading == "Record of Alice"
    assert record.find(f"//main//a[@href='/people/{alice_row.id}']")
