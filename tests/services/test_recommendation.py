"""One weak section blocks; nothing else makes up for it."""

from datetime import UTC, date, datetime

import pytest

from app.services import recommendation
from app.services.recommendation import Checklist, Line, WeakSection
from app.services.record import Mistake, RecordView
from app.storage.ids import new_id
from app.storage.models import TrainingEntry
from app.storage.unit_of_work import UnitOfWork
from tests.services.people import NOW, cast_of


def checklist(**changes: object) -> Checklist:
    good = {
        "rehearsals_wanted": 2,
        "rehearsals": 2,
        "section_percent": 80,
        "weak": (),
        "open_misconceptions": 0,
        "reviewed": False,
    }
    return Checklist(**(good | changes))  # type: ignore[arg-type] # a table


@pytest.mark.parametrize(
    ("changes", "lacking"),
    [
        ({}, ()),
        ({"weak": (WeakSection("Navigation", 79),)}, ("sections",)),
        ({"rehearsals": 1}, ("rehearsals",)),
        ({"rehearsals": 0}, ("rehearsals", "sections")),
        ({"open_misconceptions": 1}, ("misconceptions",)),
        ({"open_misconceptions": 1, "reviewed": True}, ()),
    ],
)
def test_every_line_must_hold(changes: dict[str, object], lacking: tuple[Line, ...]) -> None:
    assert checklist(**changes).lacking == lacking


def test_mistake_of_an_evening_is_reviewed_that_evening(uow: UnitOfWork) -> None:
    """Half past nine in Toronto is the next day by universal time."""
    ingrid = cast_of(uow).ingrid
    missed = Mistake(new_id(NOW), "Runway numbers", datetime(2026, 9, 5, 1, 30, tzinfo=UTC), 0)
    held = RecordView(1, 0, 1, (), (), (), (missed,))
    for day, reviewed in ((date(2026, 9, 3), False), (date(2026, 9, 4), True)):
        what = ("reviewed", day, "All of it", None)
        entry = TrainingEntry(ingrid.school_id, new_id(NOW), new_id(NOW), *what, ingrid.own_person, "Ingrid", "I", NOW)
        assert recommendation.checklist(uow, ingrid, held, (), (entry,)).reviewed is reviewed
