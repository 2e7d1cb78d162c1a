"""Classes side by side: the figures of each one's own picture, hidden for few, with a warning where unlike."""

import csv
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta
from io import StringIO
from uuid import UUID, uuid4

import pytest

from app.services.actor import Actor, Role
from app.services.audit import list_entries
from app.services.class_picture import Period, class_picture
from app.services.cohorts import Comparison, Line, Wish, compare
from app.services.cohorts_table import cohorts_csv
from app.services.errors import Invalid, NotAllowed, NotFound
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import NOW, SCHOOL_ONE, Cast, cast_of, make_class, sign_up
from tests.services.tallied import tally

SAME, OTHER = "true-to-compass", "compass-to-true"


@dataclass(frozen=True)
class Classes:
    """Day and evening with five students each, late with four; and who looks at them."""

    cast: Cast
    day: UUID
    evening: UUID
    late: UUID
    pupils: Mapping[str, Sequence[Actor]]


@pytest.fixture
def made(uow: UnitOfWork) -> Classes:
    cast = cast_of(uow)
    pupils = {
        name: [sign_up(uow, SCHOOL_ONE, Role.STUDENT, f"{name}{number}") for number in range(size)]
        for name, size in (("day", 5), ("evening", 5), ("late", 4))
    }
    ids = {name: make_class(uow, f"={name}", cast.ingrid, *some) for name, some in pupils.items()}
    return Classes(cast, ids["day"], ids["evening"], ids["late"], pupils)


def answered(uow: UnitOfWork, made: Classes, name: str, counts: tuple[int, int], family: str = SAME) -> None:
    tally(uow, SCHOOL_ONE, [pupil.own_visit for pupil in made.pupils[name]], family, counts, NOW)


def compared(uow: UnitOfWork, made: Classes, *class_ids: UUID, weeks: str = "", topic: str = "") -> Comparison:
    return compare(uow, made.cast.selma, library(), Wish(class_ids, weeks, topic), NOW)


def datum(view: Comparison) -> Line:
    return next(line for line in view.lines if line.id == "datum")


def test_figures_are_those_of_each_classs_own_picture(uow: UnitOfWork, made: Classes) -> None:
    answered(uow, made, "day", (10, 9))
    answered(uow, made, "evening", (10, 4))
    view = compared(uow, made, made.day, made.evening)
    assert [line.id for line in view.lines] == list(library().packs)
    figures = datum(view).figures
    for class_id, figure in zip((made.day, made.evening), figures, strict=True):
        picture = class_picture(uow, made.cast.selma, library(), class_id, Period(), NOW)
        assert figure
        assert figure.spot == picture.topics[0].spot
        assert figure.spread == 0
    assert datum(view).unlike == ()


def test_fewer_than_five_students_have_no_figure_and_no_activity(uow: UnitOfWork, made: Classes) -> None:
    answered(uow, made, "day", (10, 9))
    answered(uow, made, "late", (10, 4))
    view = compared(uow, made, made.day, made.late)
    assert [figure is None for figure in datum(view).figures] == [False, True]
    assert [cohort.activity is None for cohort in view.cohorts] == [False, True]


def test_unlike_classes_are_told(uow: UnitOfWork, made: Classes) -> None:
    answered(uow, made, "day", (31, 20))
    answered(uow, made, "evening", (10, 4), OTHER)
    assert datum(compared(uow, made, made.day, made.evening)).unlike == ("families", "answers")
    lines = compared(uow, made, made.day, made.evening, topic="datum").lines
    assert [line.id for line in lines] == list(library().packs["datum"].families)
    assert {line.id: [bool(each) for each in line.figures] for line in lines if any(line.figures)} == {
        SAME: [True, False],
        OTHER: [False, True],
    }


def test_period_leaves_older_answers_out(uow: UnitOfWork, made: Classes) -> None:
    day = [pupil.own_visit for pupil in made.pupils["day"]]
    tally(uow, SCHOOL_ONE, day, SAME, (10, 9), NOW - timedelta(weeks=5))
    assert datum(compared(uow, made, made.day, made.evening)).figures[0]
    assert not datum(compared(uow, made, made.day, made.evening, weeks="4")).figures[0]
    with pytest.raises(Invalid, match="latest 5 weeks"):
        compared(uow, made, made.day, made.evening, weeks="5")


def test_activity_counts_the_seen_and_the_answers_of_each_week(uow: UnitOfWork, made: Classes) -> None:
    day = [pupil.own_visit for pupil in made.pupils["day"]]
    for back in (0, 2, 12):
        tally(uow, SCHOOL_ONE, day, SAME, (3, 1), NOW - timedelta(weeks=back))
    view = compared(uow, made, made.day, made.evening)
    activity = view.cohorts[0].activity
    assert activity
    assert activity.weekly == (0,) * 9 + (15, 0, 15)
    assert (len(view.weeks), view.busiest) == (12, 15)
    later = compare(uow, made.cast.selma, library(), Wish((made.day, made.evening)), NOW + timedelta(days=20))
    assert [cohort.activity.seen for cohort in later.cohorts if cohort.activity] == [(0, 5), (0, 5)]


@pytest.mark.parametrize("count", [0, 1, 5])
def test_two_to_four_classes_are_compared(uow: UnitOfWork, made: Classes, count: int) -> None:
    ids = [made.day, *(uuid4() for _ in range(4))][:count]
    with pytest.raises(Invalid, match=f"chosen: {count}. Accepted: 2 to 4"):
        compared(uow, made, *ids, *ids)


def test_strangers_and_unknown_topics_find_nothing(uow: UnitOfWork, made: Classes) -> None:
    wish = Wish((made.day, made.evening))
    with pytest.raises(NotFound):
        compare(uow, made.cast.dora, library(), wish, NOW)
    with pytest.raises(NotAllowed):
        compare(uow, made.pupils["day"][0], library(), wish, NOW)
    with pytest.raises(NotFound):
        compared(uow, made, made.day, made.evening, topic="no-such-topic")


def test_table_is_safe_hides_what_the_page_hides_and_is_noted(uow: UnitOfWork, made: Classes) -> None:
    answered(uow, made, "day", (10, 9))
    answered(uow, made, "late", (10, 4))
    text = cohorts_csv(uow, made.cast.selma, library(), Wish((made.day, made.late)), NOW)
    rows = [row for row in csv.DictReader(StringIO(text.removeprefix("\ufeff"))) if row["Answers"] == "50"]
    assert [(row["Class"], row["Students who answered"]) for row in rows] == [("'=day", "5")]
    assert "'=late" in text
    assert "Fewer than 5 students" in text
    entry = list_entries(uow, made.cast.selma)[0]
    assert (entry.action, entry.subject) == ("cohorts-exported", "=day, =late")
