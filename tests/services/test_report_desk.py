"""Reports as the school settles them, and what became of them for whoever reported."""

from datetime import timedelta
from uuid import UUID

import pytest

from app.packs.library import Library
from app.services.actor import Actor
from app.services.drills import DrillWish, get_drill, start_drill
from app.services.errors import Conflict, Invalid, NotAllowed, NotFound
from app.services.report_desk import get_report, list_desk, own_reports, settle
from app.services.reports import report_problem
from app.services.visits import guest
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, NOW, Cast, cast_of


@pytest.fixture
def cast(uow: UnitOfWork) -> Cast:
    return cast_of(uow)


def reported(uow: UnitOfWork, actor: Actor, text: str, family: str = CONVERSIONS[0], minute: int = 0) -> UUID:
    """Report a question of a new drill; returns the item."""
    drill_id = start_drill(uow, actor, library(), DrillWish(families=(family,), length=1), 1, NOW)
    item_id = get_drill(uow, actor, drill_id)[1][0].id
    report_problem(uow, actor, library(), item_id, text, NOW + timedelta(minutes=minute))
    return item_id


def test_school_reads_settles_and_the_reporter_sees_the_answer(uow: UnitOfWork, cast: Cast) -> None:
    item_id = reported(uow, cast.alice, "The card is upside down.")
    reported(uow, cast.bob, "Which card?", CONVERSIONS[1], minute=1)
    first, second = list_desk(uow, cast.selma, library())
    view = get_report(uow, cast.ingrid, library(), first.row.id)
    assert view.same
    assert view.item is not None
    assert view.numbers == first.row.item["parameters"]
    settle(uow, cast.selma, first.row.id, " Turned the right way up. ", NOW + timedelta(days=1))
    assert [line.row.id for line in list_desk(uow, cast.selma, library())] == [second.row.id, first.row.id]
    assert len(list_desk(uow, cast.selma, library(), CONVERSIONS[1])) == 1
    (own,) = own_reports(uow, cast.alice, library(), item_id)
    assert (own.row.answer, own.row.settled_by) == ("Turned the right way up.", "Selma")
    assert own_reports(uow, cast.bob, library(), item_id) == []
    assert own_reports(uow, guest("en", NOW), library()) == ()
    with pytest.raises(Conflict, match="already"):
        settle(uow, cast.selma, first.row.id, "Again.", NOW)


def test_report_of_a_question_that_is_gone_still_shows_its_numbers(uow: UnitOfWork, cast: Cast) -> None:
    reported(uow, cast.alice, "Gone.")
    (line,) = list_desk(uow, cast.selma, library())
    view = get_report(uow, cast.selma, Library({}, {}, library().shared, {}), line.row.id)
    assert (view.item, view.same, view.line.title) == (None, False, CONVERSIONS[0])
    assert view.numbers


def test_strangers_and_those_without_the_right_are_refused(uow: UnitOfWork, cast: Cast) -> None:
    reported(uow, cast.alice, "Wrong.")
    report_id = list_desk(uow, cast.selma, library())[0].row.id
    assert list_desk(uow, cast.dora, library()) == []
    for stranger in (cast.dora, cast.alice):
        with pytest.raises(NotFound):
            get_report(uow, stranger, library(), report_id)
    with pytest.raises(NotAllowed):
        settle(uow, cast.ingrid, report_id, "No.", NOW)
    with pytest.raises(NotAllowed):
        list_desk(uow, cast.alice, library())
    with pytest.raises(Invalid, match="0 characters"):
        settle(uow, cast.selma, report_id, "  ", NOW)
    with pytest.raises(NotFound):
        settle(uow, cast.selma, UUID(int=1), "No.", NOW)
