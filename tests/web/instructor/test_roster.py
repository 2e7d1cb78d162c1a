"""Names become accounts, all or none; slips let them in; the class goes out as a harmless table."""

import io
from uuid import UUID

import pytest

from app.services.actor import Role
from app.services.roster import MOST_NAMES
from app.storage.models import Person
from app.storage.queries import people
from tests.pages import Page, words_of
from tests.web.browsing import Browser
from tests.web.members import OneSchool

FORM = "//main//form"
CHOSEN = "a lubber line of my own"


@pytest.fixture
def ingrid(school: OneSchool) -> Person:
    return school.add(Role.INSTRUCTOR, "Ingrid")


@pytest.fixture
def instructor(school: OneSchool, ingrid: Person) -> Browser:
    return school.browser_of(ingrid)


@pytest.fixture
def autumn(school: OneSchool, ingrid: Person) -> UUID:
    return school.add_class("Autumn", ingrid)


def add(browser: Browser, class_id: UUID, names: str, status: int = 200, **more: object) -> Page:
    page = browser.get_page(f"/classes/{class_id}/roster")
    return browser.submit(page, {"names": names, **more}, FORM, status)


def slips(page: Page) -> list[list[str]]:
    """Name, then address, school code, login name and code, of each slip."""
    return [
        [words_of(slip.find("h2")), *(words_of(each) for each in slip.iter("dd"))]
        for slip in page.find("//ul[@class='slips']/li")
    ]


def count(school: OneSchool) -> int:
    with school.backend.uow.reader() as connection:
        return len(people.list_people(connection, school.id))


def test_thirty_names_are_thirty_accounts(school: OneSchool, instructor: Browser, autumn: UUID) -> None:
    names = [f"Pupil {chr(65 + number)}" for number in range(26)] + ["Zoé Núñez", "Bjørn Æsir", "李明", "Jo O’Neill"]
    page = add(instructor, autumn, "\n".join(names))
    assert page.find(f"//main//a[@href='/classes/{autumn}']"), "the way back to the class"
    made = slips(page)
    assert [slip[0] for slip in made] == names
    assert [slip[3] for slip in made][-4:] == ["zoe.nunez", "bjorn.aesir", "student", "jo.oneill"]
    assert len({slip[4] for slip in made}) == 30
    assert len(instructor.get_page(f"/classes/{autumn}").find("//tbody/tr")) == 30
    assert count(school) == 31


def test_slip_lets_in(school: OneSchool, instructor: Browser, autumn: UUID) -> None:
    ((name, address, code, login, once),) = slips(add(instructor, autumn, "Zoé Núñez"))
    assert (name, code) == ("Zoé Núñez", school.code)
    assert address == "http://localhost/first-sign-in"
    zoe = Browser(school.app)
    page = zoe.get_page("/first-sign-in")
    zoe.submit(page, {"school": code, "login": login, "code": once, "password": CHOSEN}, FORM)
    assert zoe.get_page("/account").find("//b[text()='zoe.nunez']")


def test_too_many_names_are_counted_and_none_is_made(school: OneSchool, instructor: Browser, autumn: UUID) -> None:
    page = add(instructor, autumn, "\n".join(f"Pupil {number}" for number in range(5000)), 422)
    said = page.words("//*[@id='names-refusal']")
    assert "5000 names" in said
    assert f"at most {MOST_NAMES}" in said
    assert count(school) == 1


@pytest.mark.parametrize(
    ("names", "said"),
    [
        ("", "No names"),
        ("  \n \n", "No names"),
        ("Alice\n" + "x" * 81, "Line 2"),
        ("Alice\nB\u200fb", "Line 2"),
    ],
)
def test_lines_that_cannot_be_are_named_and_none_is_made(
    school: OneSchool, instructor: Browser, autumn: UUID, names: str, said: str
) -> None:
    page = add(instructor, autumn, names, 422)
    assert said in page.words("//*[@id='names-refusal']")
    assert count(school) == 1


def test_doubles_are_said_and_kept_apart(school: OneSchool, instructor: Browser, autumn: UUID) -> None:
    add(instructor, autumn, "Alice Roy")
    for names in ("Bob\nbob", "ALICE roy\nCarl"):
        page = add(instructor, autumn, names, 422)
        assert "Twice in the list, or in the class already" in page.words("//*[@id='again-refusal']")
        assert count(school) == 2
    made = slips(instructor.submit(page, {"names": "Alice Roy\nAlice Roy", "again": "1"}, FORM))
    assert [slip[3] for slip in made] == ["alice.roy2", "alice.roy3"]


def test_roster_file_is_taken(school: OneSchool, instructor: Browser, autumn: UUID) -> None:
    content = "Nom;Courriel\nZoé;zoe@school.example\nBob;\n".encode()
    made = slips(add(instructor, autumn, "", table=(io.BytesIO(content), "liste.csv")))
    assert [slip[0] for slip in made] == ["Zoé", "Bob"]
    with school.backend.uow.reader() as connection:
        zoe = people.find_person_by_login(connection, school.id, "zoe")
    assert zoe is not None
    assert zoe.email == "zoe@school.example"
    page = add(instructor, autumn, "", 422, table=(io.BytesIO(b"\x00\x01"), "x.xls"))
    assert "not a table of text" in page.words("//*[@id='table-refusal']")
    page = add(instructor, autumn, "", 422, table=(io.BytesIO(b"name,email\nCarl,carl at home"), "x.csv"))
    assert "“carl at home”" in page.words("//*[@id='names-refusal']")


def test_table_of_the_class_runs_nothing(instructor: Browser, autumn: UUID) -> None:
    add(instructor, autumn, "=1+1\n@SUM(A1)\nAlice")
    answer = instructor.get(f"/classes/{autumn}/roster.csv")
    assert answer.mimetype == "text/csv"
    assert "attachment" in answer.headers["Content-Disposition"]
    lines = answer.get_data(as_text=True).splitlines()
    assert [line.split(",")[0] for line in lines[1:]] == ["'=1+1", "'@SUM(A1)", "Alice"]
    assert "+00:00" in lines[1]


def test_is_closed_to_others(school: OneSchool, other_school: OneSchool, autumn: UUID) -> None:
    irene = school.browser_of(school.add(Role.INSTRUCTOR, "Irene"))
    dora = other_school.browser_of(other_school.add(Role.INSTRUCTOR, "Dora"))
    for browser, status in ((irene, 403), (dora, 404)):
        token = browser.get_page("/classes").token
        browser.get_page(f"/classes/{autumn}/roster", status)
        browser.send(f"/classes/{autumn}/roster", {"csrf_token": token, "names": "Mallory"}, status)
        assert browser.get(f"/classes/{autumn}/roster.csv").status_code == status
    assert count(school) == 2
