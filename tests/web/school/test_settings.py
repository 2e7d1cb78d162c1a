"""What a school sets, keeps and erases, through its pages."""

import json
from datetime import timedelta

import pytest

from app.services.actor import Role
from app.services.retention import tidy_school, tidy_visits
from app.storage.models import Person
from app.storage.queries import training
from app.storage.queries.people import find_person
from tests.fakes import Clock
from tests.pages import Page
from tests.questions.replies import right_answer
from tests.web.browsing import Browser
from tests.web.members import OneSchool, new_school
from tests.web.student.answers import item_of

SETTINGS = "/school/settings"


@pytest.fixture
def selma_row(school: OneSchool) -> Person:
    return school.add(Role.SCHOOL, "Selma")


@pytest.fixture
def selma(school: OneSchool, selma_row: Person) -> Browser:
    return school.browser_of(selma_row)


@pytest.fixture
def alice_row(school: OneSchool) -> Person:
    return school.add(Role.STUDENT, "Alice")


def send(browser: Browser, action: str, fields: dict[str, str], status: int = 200, number: int = 1) -> Page:
    return browser.submit(browser.get_page(SETTINGS), fields, f"(//form[@action='{action}'])[{number}]", status)


def practise(school: OneSchool, student: Person, clock: Clock) -> str:
    """Answer one conversion and return the address of its verdict."""
    browser = school.browser_of(student)
    page = browser.start_drill("true-to-compass", length=3)
    clock.forward(timedelta(minutes=1))
    browser.submit(page, right_answer(item_of(school.app, page)))
    return browser.address


def test_names_are_kept_and_due_times_read_in_the_zone(selma: Browser) -> None:
    page = send(selma, SETTINGS, {"name": "Harbour Wings", "language": "fr", "time_zone": "America/Halifax"})
    assert page.find("//p[@role='status']")
    assert page.find("//input[@name='time_zone']/@value") == ["America/Halifax"]
    assert "Harbour Wings" in selma.get_page("/school/audit").text


@pytest.mark.parametrize(
    ("fields", "named"),
    [
        ({"name": " "}, "cannot be a name"),
        ({"time_zone": "Mars/Base"}, "“Mars/Base” is not a time zone"),
        ({"language": "de"}, "“de” is not a language"),
    ],
)
def test_what_cannot_be_is_named_and_what_was_typed_stays(selma: Browser, fields: dict[str, str], named: str) -> None:
    good = {"name": "Harbour Wings", "language": "en", "time_zone": "UTC"}
    page = send(selma, SETTINGS, good | fields, 422)
    assert named in page.words("//p[@role='alert']")
    assert selma.get_page(SETTINGS).find("//input[@name='version']/@value")[0] == "1"


def test_two_who_change_at_once_lose_nothing_unawares(school: OneSchool, selma: Browser) -> None:
    other = school.browser_of(school.add(Role.SCHOOL, "Sam"))
    page = other.get_page(SETTINGS)
    send(selma, "/school/bars", {"section_percent": "85", "rehearsals": "3"})
    fields = {"section_percent": "70", "rehearsals": "1"}
    refused = other.submit(page, fields, "//form[@action='/school/bars']", 409)
    assert "Somebody has changed these settings" in refused.words("//p[@role='alert']")
    assert selma.get_page(SETTINGS).find("//input[@name='section_percent']/@value") == ["85"]


def test_house_rules_change_new_drills_only(school: OneSchool, selma: Browser, alice_row: Person, clock: Clock) -> None:
    before = practise(school, alice_row, clock)
    rules = {"where": "typed", "latitude_deg": "-33.9", "longitude_deg": "151.2", "when": "2026-09-01"}
    given = {"region": "au", "rollout_rule": "latitude", "allowance_deg": "30"}
    given |= {"rate_rule": "fifteen-percent", "card_limit_deg": "10"}
    given |= {"pressure_unit": "", "feet_per_hpa": "30", "hi_limit_deg": "3", "check_limit_deg": "5"}
    page = send(selma, "/school/house-rules", rules | given)
    assert "Set for everybody" in page.text
    browser = school.browser_of(alice_row)
    assert "-33.90" in browser.get_page("/topics").words("//header")
    home = browser.get_page("/home")
    assert "Your school has set" in home.text
    assert browser.send("/home", {"csrf_token": home.token, "where": "listed"} | given | rules, 403)
    assert "Otterlea" in browser.get_page(before).text
    send(selma, "/school/house-rules", {}, number=1)
    assert "-33.90" not in browser.get_page("/topics").words("//header")


@pytest.mark.parametrize("days", ["29", "3651", "soon", "-5"])
def test_retention_takes_whole_days_in_bounds(selma: Browser, days: str) -> None:
    page = send(selma, "/school/retention", {"answers": days}, 422)
    assert f"“{days}” cannot be accepted" in page.words("//p[@role='alert']")


def test_what_would_go_is_said_and_then_goes_while_the_rest_stays(
    school: OneSchool, selma: Browser, alice_row: Person, clock: Clock
) -> None:
    old = practise(school, alice_row, clock)
    clock.forward(timedelta(days=40))
    fresh = practise(school, alice_row, clock)
    selma = school.browser_of(school.add(Role.SCHOOL, "Sonja"))
    page = send(selma, "/school/retention", {"answers": "30"})
    assert "Would go now: 1" in page.text
    gone = tidy_school(school.backend.uow, school.id, clock())
    assert gone == {"answers": 1, "left-people": 0, "reports": 0, "notes": 0}
    browser = school.browser_of(alice_row)
    assert browser.get(old).status_code == 404
    assert browser.get(fresh).status_code == 200
    assert "Would go now: 1" not in selma.get_page(SETTINGS).text


def test_notes_go_by_themselves_and_the_training_record_stays(
    school: OneSchool, selma: Browser, selma_row: Person, alice_row: Person, clock: Clock
) -> None:
    for kind, minutes in (("note", ""), ("taught", "30")):
        send_entry = {"kind": kind, "day": f"{clock():%Y-%m-%d}", "text": "Signs", "minutes": minutes}
        address = f"/people/{alice_row.id}/record"
        selma.send(address, send_entry | {"csrf_token": selma.get_page(address).token})
    clock.forward(timedelta(days=40))
    selma = school.browser_of(selma_row)
    send(selma, "/school/retention", {"notes": "30"})
    assert tidy_school(school.backend.uow, school.id, clock())["notes"] == 1
    with school.backend.uow.reader() as connection:
        kept = training.list_entries(connection, school.id, alice_row.id)
    assert [each.kind for each in kept] == ["taught"]


def test_person_is_handed_over_and_erased_with_the_login_typed(
    school: OneSchool, selma: Browser, alice_row: Person, clock: Clock
) -> None:
    practise(school, alice_row, clock)
    address = f"/school/people/{alice_row.id}"
    kept = json.loads(selma.get(f"{address}/data.json").get_data(as_text=True))
    assert (kept["login"], len(kept["answers"])) == ("alice", 1)
    page = selma.get_page(f"{address}/erase")
    assert "1 answer" in page.text
    form = f"//form[@action='{address}/erase']"
    refused = selma.submit(page, {"login": "bob"}, form, 422)
    assert "nothing was erased" in refused.words("//p[@role='alert']")
    selma.submit(page, {"login": " Alice "}, form)
    assert selma.get(f"{address}/erase").status_code == 404
    with school.backend.uow.reader() as connection:
        assert find_person(connection, school.id, alice_row.id) is None
    assert "erased somebody" in selma.get_page("/school/audit").text


def test_nobody_erases_themselves_or_anybody_of_another_school(
    school: OneSchool, selma: Browser, selma_row: Person
) -> None:
    address = f"/school/people/{selma_row.id}/erase"
    page = selma.submit(selma.get_page(address), {"login": "selma"}, f"//form[@action='{address}']", 409)
    assert "You cannot erase yourself" in page.words("//p[@role='alert']")
    stranger = new_school(school.app).add(Role.STUDENT, "Charlie")
    for what in ("erase", "data.json"):
        assert selma.get(f"/school/people/{stranger.id}/{what}").status_code == 404


def test_student_erased_while_answering_gets_a_clear_page(
    school: OneSchool, selma: Browser, alice_row: Person, clock: Clock
) -> None:
    browser = school.browser_of(alice_row)
    page = browser.start_drill("true-to-compass", length=3)
    address = f"/school/people/{alice_row.id}/erase"
    selma.submit(selma.get_page(address), {"login": "alice"}, f"//form[@action='{address}']")
    clock.forward(timedelta(minutes=1))
    response = browser.post(page.find("//form[@id='answer']/@action")[0], page.fields() | {"value": "123"})
    assert response.status_code in {400, 404}


def test_visits_long_over_go(school: OneSchool, clock: Clock) -> None:
    visitor = Browser(school.app)
    visitor.start_drill("true-to-compass", length=3)
    address = visitor.address
    tidy_visits(school.backend.uow, clock())
    assert visitor.get(address).status_code == 200
    assert tidy_visits(school.backend.uow, clock() + timedelta(days=45)) >= 1
    assert visitor.get(address).status_code == 404


def test_french(school: OneSchool) -> None:
    browser = school.browser_of(school.add(Role.SCHOOL, "Solange", "fr"), "fr")
    assert browser.get_page(SETTINGS).heading == "L’école"
