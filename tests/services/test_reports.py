from datetime import datetime
from uuid import UUID

import pytest

from app.packs.library import Library
from app.questions.present import plain
from app.services.actor import Actor
from app.services.drills import DrillWish, get_drill, start_drill
from app.services.errors import Conflict, Invalid, NotFound
from app.services.practice import answer
from app.services.reports import LONGEST_TEXT, MOST_REPORTS, get_reported, report_problem
from app.services.visits import guest
from app.storage.models import Report
from app.storage.queries.reports import list_reports
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import charlie, drawn, right, visitor


@pytest.fixture
def alice(uow: UnitOfWork) -> Actor:
    return visitor(uow)


@pytest.fixture
def item_id(uow: UnitOfWork, alice: Actor, now: datetime) -> UUID:
    wish = DrillWish(families=("true-to-compass",), length=1)
    return get_drill(uow, alice, start_drill(uow, alice, library(), wish, 1, now))[1][0].id


def kept(uow: UnitOfWork, alice: Actor) -> tuple[Report, ...]:
    with uow.reader() as connection:
        return list_reports(connection, alice.school_id)


def test_report_keeps_the_exact_numbers(uow: UnitOfWork, alice: Actor, item_id: UUID, now: datetime) -> None:
    report_problem(uow, alice, library(), item_id, "  The card cannot be read.\n", now)
    (report,) = kept(uow, alice)
    item = drawn("true-to-compass", report.item["seed"], report.item["form"], alice)
    assert (report.text, report.language, report.family) == ("The card cannot be read.", "en", "true-to-compass")
    assert report.item["parameters"] == plain(item.parameters)
    assert report.item["key"] == item.key
    assert report.item["conventions"] == alice.conventions.as_json()
    assert report.item["version"] == item.version


def test_withdrawn_question_can_still_be_reported(uow: UnitOfWork, alice: Actor, item_id: UUID, now: datetime) -> None:
    bare = Library({}, {}, library().shared, {})
    report_problem(uow, alice, bare, item_id, "It is gone.", now)
    assert kept(uow, alice)[0].item["seed"]
    assert get_reported(uow, alice, bare, item_id).item is None


@pytest.mark.parametrize("text", ["", "   \n", "x" * (LONGEST_TEXT + 1)])
def test_empty_and_long_reports_are_refused(
    uow: UnitOfWork, alice: Actor, item_id: UUID, now: datetime, text: str
) -> None:
    with pytest.raises(Invalid) as caught:
        report_problem(uow, alice, library(), item_id, text, now)
    assert caught.value.field == "text"
    assert kept(uow, alice) == ()


def test_reports_of_one_item_are_limited(uow: UnitOfWork, alice: Actor, item_id: UUID, now: datetime) -> None:
    for number in range(MOST_REPORTS):
        report_problem(uow, alice, library(), item_id, f"Report {number}", now)
    with pytest.raises(Conflict, match="already has 5 reports"):
        report_problem(uow, alice, library(), item_id, "One more", now)
    assert len(kept(uow, alice)) == MOST_REPORTS


def test_item_of_somebody_else_is_not_found(uow: UnitOfWork, item_id: UUID, now: datetime) -> None:
    for stranger in (visitor(uow), charlie(uow), guest("en", now)):
        with pytest.raises(NotFound):
            report_problem(uow, stranger, library(), item_id, "Not mine.", now)
        with pytest.raises(NotFound):
            get_reported(uow, stranger, library(), item_id)


def test_reported_item_is_shown_without_its_key(uow: UnitOfWork, alice: Actor, item_id: UUID, now: datetime) -> None:
    before = get_reported(uow, alice, library(), item_id)
    assert before.item
    item = drawn("true-to-compass", 0, "choice", alice)
    assert (before.position, before.answered, before.item.family) == (1, False, item.family)
    assert set(before.numbers) >= {"variation_deg"} or set(before.numbers) >= {"deviation_deg"}
    assert "key" not in before.numbers
    drill_place = get_drill(uow, alice, before.drill_id)[1][0]
    seen = drawn(drill_place.family, drill_place.seed, drill_place.form, alice)
    answer(uow, alice, library(), item_id, right(seen), now)
    assert get_reported(uow, alice, library(), item_id).answered
