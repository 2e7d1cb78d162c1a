"""The pages of question quality: for instructors and the school, each figure with what is behind it."""

import re
from datetime import timedelta

import pytest

from app.packs.spec import Language
from app.services.actor import Role
from app.services.quality_count import count_school
from app.services.topic_sets import SetSettings
from app.storage.models import MeasuredDifficulty
from app.storage.queries.measured import replace_measured
from tests.fakes import START, Clock
from tests.questions.engine import library
from tests.questions.replies import wrong_answer
from tests.services.people import make_class, sign_up
from tests.services.sitting import assigned
from tests.web.browsing import Browser
from tests.web.members import OneSchool
from tests.web.school.sat import let_sit
from tests.web.student.answers import item_of


@pytest.fixture
def ingrid(school: OneSchool) -> Browser:
    return school.browser_of(school.add(Role.INSTRUCTOR, "Ingrid"))


@pytest.fixture
def counted(school: OneSchool, clock: Clock) -> None:
    """Alice missed five conversions, and the night has counted them."""
    browser = school.browser_of(school.add(Role.STUDENT, "Alice"))
    page = browser.start_drill("compass-to-true", length=5)
    while page.find("//form[@id='answer']"):
        browser.submit(page, wrong_answer(item_of(school.app, page)))
        page = browser.get_page(browser.get_page(browser.address).find("//a[contains(@class, 'next')]/@href")[0])
    clock.forward(timedelta(minutes=10))
    count_school(school.backend.uow, library(), school.id, START + timedelta(minutes=10))


def test_nothing_counted_yet_is_said(ingrid: Browser) -> None:
    assert "Nothing is counted yet" in ingrid.get_page("/school/quality").text
    assert "No answer to it has been counted yet" in ingrid.get_page("/school/quality/compass-to-true").text


@pytest.mark.usefixtures("counted")
def test_list_leads_to_one_question_and_says_that_five_answers_judge_nothing(ingrid: Browser) -> None:
    page = ingrid.get_page("/school/quality")
    assert "too few answers" in page.words("//details//tbody/tr[1]")
    detail = ingrid.get_page(page.find("//tbody/tr[1]//a/@href")[0])
    assert detail.heading == "Compass to magnetic to true"
    assert "5 answers" in detail.text
    assert "Under 30 answers nothing is judged." in detail.text
    assert "wind" not in ingrid.get_page("/school/quality?topic=datum").find("//nav[@class='actions']//a/@href")


@pytest.mark.usefixtures("counted")
@pytest.mark.parametrize(
    ("language", "before", "after"),
    [
        (
            "en",
            "Graded by its author easy, −0.70 Measured not yet",
            "Measured 0.50 (0.30 to 0.70), nearest to hard, 90 answers, 12 learners",
        ),
        (
            "fr",
            "Selon son auteur facile, −0,70 Mesurée pas encore",
            "Mesurée 0,50 (de 0,30 à 0,70), au plus près de « difficile », 90 réponses, 12 apprenants",
        ),
    ],
)
def test_measured_difficulty_stands_beside_the_grade(
    school: OneSchool, language: Language, before: str, after: str
) -> None:
    selma = school.browser_of(school.add(Role.SCHOOL, "Selma", language), language)
    address = "/school/quality/compass-to-true"
    assert before in selma.get_page(address).words("//main")
    found = {"plain": 0.5, "weights": {}}
    with school.backend.uow.writer() as connection:
        replace_measured(
            connection, school.id, [MeasuredDifficulty(school.id, "compass-to-true", found, 0.2, 90, 12, START)]
        )
    assert after in selma.get_page(address).words("//main")


@pytest.mark.usefixtures("counted")
def test_in_french(school: OneSchool) -> None:
    page = school.browser_of(school.add(Role.SCHOOL, "Selma", "fr"), "fr").get_page("/school/quality")
    assert page.heading == "Qualité des questions"
    assert "trop peu de réponses" in page.text


def test_unknown_question_is_not_found(ingrid: Browser) -> None:
    ingrid.get_page("/school/quality/no-such-family", status=404)


def test_students_have_no_business_here(school: OneSchool) -> None:
    student = school.browser_of(school.add(Role.STUDENT, "Alice"))
    student.get_page("/school/quality", status=403)
    student.get_page("/school/quality/compass-to-true", status=403)


def test_many_students_bring_reliability_and_a_latent_model(school: OneSchool, ingrid: Browser, clock: Clock) -> None:
    uow, teacher = school.backend.uow, sign_up(school.backend.uow, school.id, Role.INSTRUCTOR, "Ivo")
    assignment = assigned(uow, teacher, SetSettings(title="Turns"), make_class(uow, "Evening", teacher))
    clock.forward(timedelta(minutes=10))
    for more, words in ((199, "needs 200 students"), (1, "Rasch model"), (300, "two-parameter model")):
        let_sit(uow, school.id, assignment, (-1.5, -0.5, 0.5, 1.5), more)
        count_school(uow, library(), school.id, clock())
        page = ingrid.get_page("/school/quality")
        assert words in page.words("//details")
        assert re.search(r"0\.\d\d \(0\.\d\d to 0\.\d\d\)", page.words("//tr[th/a='Turns']/td[2]"))
    written = re.findall(r"difficulty (−?\d\.\d\d)", page.words("//details"))
    found = [float(each.replace("−", "-")) for each in written]
    assert found == pytest.approx([-1.5, -0.5, 0.5, 1.5], abs=0.5)
    assert page.words("//tr[th/a='Turns']/td[1]") == "500"
