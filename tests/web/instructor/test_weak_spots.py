"""The page of a class's weak spots: two clicks from the first page, with names and without."""

from datetime import timedelta
from random import Random
from uuid import UUID

import pytest

from app.grader.made_up import fields_of, wrong_value
from app.services.actor import Role
from app.services.assignments import AssignWish, assign_set
from app.services.set_wishes import SetWish
from app.services.sign_ins import find_sign_in, open_sign_in
from app.services.topic_sets import SetSettings, make_set
from app.storage.models import Person
from app.storage.queries.tallies import ADD, week_of
from tests.fakes import START, Clock
from tests.pages import words_of
from tests.questions.engine import library
from tests.web.browsing import Browser
from tests.web.members import OneSchool
from tests.web.student.answers import item_of


@pytest.fixture
def ingrid(school: OneSchool) -> Person:
    return school.add(Role.INSTRUCTOR, "Ingrid")


@pytest.fixture
def autumn(school: OneSchool, ingrid: Person, clock: Clock) -> UUID:
    """Ingrid's class with Alice in it, who missed five conversions by one misconception wherever it can be shown."""
    alice = school.add(Role.STUDENT, "Alice Arrow")
    browser = school.browser_of(alice)
    page = browser.start_drill("compass-to-true", length=5)
    while page.find("//form[@id='answer']"):
        clock.forward(timedelta(minutes=1))
        item = item_of(school.app, page)
        browser.submit(page, fields_of(library(), item, wrong_value(library(), item, Random(1), {"forward-sign"})))
        page = browser.get_page(browser.get_page(browser.address).find("//a[contains(@class, 'next')]/@href")[0])
    return school.add_class("Autumn", ingrid, alice)


@pytest.fixture
def instructor(school: OneSchool, ingrid: Person) -> Browser:
    return school.browser_of(ingrid)


def test_two_clicks_from_the_first_page_lead_to_the_answers_behind_a_row(instructor: Browser, autumn: UUID) -> None:
    first = instructor.get_page("/classes")
    a_class = instructor.get_page(first.find(f"//a[contains(@href, '{autumn}')]/@href")[0])
    (row,) = a_class.find("//section[h2='Before the next lesson']//li[contains(., '1 of 1 student')]")
    assert "Alice Arrow" in words_of(row)
    page = instructor.get_page(a_class.find("//a[contains(@href, 'weak-spots')]/@href")[0])
    assert page.heading == "Weak spots of Autumn"
    assert "few: be careful" in page.text
    assert "Alice Arrow" in page.text
    behind = instructor.get_page(page.find("//td/..//a[contains(@href, '/compass-to-true')]/@href")[0])
    assert behind.heading == "Missed: Compass to magnetic to true"
    answers = behind.find("//main//ul/li[contains(., 'Alice Arrow')]")
    assert len(answers) == 5
    assert all("right: " in words_of(each) for each in answers)
    mistake = behind.find("//main//ul/li[contains(., '1 student')]//a/@href")[0]
    assert "Only this mistake:" in instructor.get_page(mistake).words("//main")


def test_projector_shows_no_name(instructor: Browser, autumn: UUID) -> None:
    page = instructor.get_page(f"/classes/{autumn}/weak-spots?projector=1")
    assert "Alice" not in page.words("//main")
    assert page.find("//link[contains(@href, 'projector.css')]")


def test_topic_and_weeks_choose_and_what_cannot_be_is_said(instructor: Browser, autumn: UUID) -> None:
    assert "Compass to magnetic" in instructor.get_page(f"/classes/{autumn}/weak-spots?topic=datum&weeks=4").text
    assert "Compass to magnetic" not in instructor.get_page(f"/classes/{autumn}/weak-spots?topic=wind").text
    page = instructor.get_page(f"/classes/{autumn}/weak-spots?weeks=7", 422)
    assert "The latest 7 weeks" in page.words("//main//strong")


def test_other_kinds_stand_behind_a_link_and_what_is_chosen_is_marked(
    school: OneSchool, instructor: Browser, ingrid: Person
) -> None:
    bob, families = school.add(Role.STUDENT, "Bob"), list(library().families)[:15]
    winter = school.add_class("Winter", ingrid, bob)
    counted = {"school_id": bob.school_id, "visit_id": bob.visit_id, "week": week_of(START), "changed_at": START}
    counted |= {"answers": 4, "correct": 1, "timed": 0, "took_ms": 0}
    with school.backend.uow.writer() as connection:
        connection.execute(ADD, [counted | {"family": family} for family in families])
    page = instructor.get_page(f"/classes/{winter}/weak-spots?weeks=4")
    assert page.words("//nav[@aria-label='Which answers']//a[@aria-current]") == "The latest 4 weeks"
    kinds = "//section[h2='Kinds of questions']"
    assert len(page.find(f"{kinds}//tbody/tr")) == 12
    (link,) = page.find(f"{kinds}//a[.='3 other kinds']/@href")
    page = instructor.get_page(link)
    assert len(page.find(f"{kinds}//tbody/tr")) == 15
    assert page.words("//nav[@aria-label='Which answers']//a[@aria-current]") == "The latest 4 weeks"
    assert page.find(f"{kinds}//a[.='Only the weakest kinds']")


def test_each_row_says_how_many_were_right_and_that_none_is_weak_so_far(instructor: Browser, autumn: UUID) -> None:
    page = instructor.get_page(f"/classes/{autumn}/weak-spots")
    row = page.find("//section[h2='Kinds of questions']//tbody/tr")[0]
    assert row.xpath("td[@data-label='Right so far']/text()") == ["0 of 5"]
    assert "No kind is weak so far." in page.words("//section[h2='Kinds of questions']")


def test_empty_page_says_what_to_do_next(school: OneSchool, instructor: Browser, ingrid: Person) -> None:
    nobody = school.add_class("Empty", ingrid)
    page = instructor.get_page(f"/classes/{nobody}/weak-spots")
    assert page.find(f"//main//a[@href='/classes/{nobody}/roster']")
    somebody = school.add_class("New", ingrid, school.add(Role.STUDENT, "Bob"))
    page = instructor.get_page(f"/classes/{somebody}/weak-spots")
    assert page.find("//main//a[@href='/topic-sets/new']")
    page = instructor.get_page(f"/classes/{somebody}/weak-spots?weeks=4")
    assert "The class has no answers among these." in page.words("//main")


def test_nobody_else_sees_it(school: OneSchool, autumn: UUID) -> None:
    address = f"/classes/{autumn}/weak-spots"
    other = school.browser_of(school.add(Role.INSTRUCTOR, "Otto"))
    assert other.get(address).status_code == 403
    assert school.browser_of(school.add(Role.STUDENT, "Eva")).get(address).status_code == 403
    assert Browser(school.app).get(address).status_code == 403


def test_french(school: OneSchool, ingrid: Person, autumn: UUID) -> None:
    browser = school.browser_of(ingrid, "fr")
    page = browser.send("/language", {"csrf_token": browser.get_page("/classes").token, "language": "fr", "here": "/"})
    page = browser.get_page(f"/classes/{autumn}/weak-spots")
    assert page.heading == "Points faibles de la classe Autumn"


def test_one_set_alone_can_be_looked_at(school: OneSchool, instructor: Browser, ingrid: Person, autumn: UUID) -> None:
    uow = school.backend.uow
    teacher = find_sign_in(uow, open_sign_in(uow, school.id, ingrid.id, "a test", START), START)
    assert teacher is not None
    wanted = (SetWish(families=("true-to-compass",), count=3), SetSettings("Signs"))
    set_id = make_set(uow, teacher, library(), wanted, 7, START)
    assign_set(uow, teacher, set_id, AssignWish(classes=(autumn,)), START)
    page = instructor.get_page(f"/classes/{autumn}/weak-spots")
    alone = instructor.get_page(page.find("//nav//a[contains(., 'Only the set “Signs”')]/@href")[0])
    assert "The class has no answers among these" in alone.words("//main")
    assert "Compass to magnetic" in instructor.get_page(alone.find("//nav//a[text()='All answers']/@href")[0]).text
