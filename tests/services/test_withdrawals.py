"""A withdrawn kind of question is drawn no more in its school, and comes back corrected or on request."""

from dataclasses import replace
from datetime import datetime, timedelta
from random import Random
from uuid import UUID

import pytest

from app.grader.made_up import fields_of, wrong_value
from app.packs.library import Library
from app.services.actor import Actor
from app.services.adaptive import Aim, start_adaptive
from app.services.drills import DrillWish, get_drill, start_drill
from app.services.errors import Conflict, Invalid, NotAllowed, NotFound
from app.services.exam_profiles import built_in_profiles
from app.services.practice import Sent, answer, question
from app.services.readiness import ready_for
from app.services.record import record
from app.services.review import summary
from app.services.set_wishes import SetWish
from app.services.today import today
from app.services.topic_sets import SetSettings, get_set, make_set
from app.services.withdrawals import bring_back, list_withdrawn, offered, withdraw
from app.storage.queries import audit
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, NOW, Cast, cast_of, drawn

FAMILY = CONVERSIONS[0]
MISCONCEPTION = f"{FAMILY}/both-signs"


@pytest.fixture
def cast(uow: UnitOfWork) -> Cast:
    cast = cast_of(uow)
    withdraw(uow, cast.selma, library(), FAMILY, "  The key is wrong. ", NOW)
    return cast


def families(uow: UnitOfWork, actor: Actor) -> set[str]:
    drill_id = start_drill(uow, actor, library(), DrillWish(topic="datum", length=50), 3, NOW)
    return {place.family for place in get_drill(uow, actor, drill_id)[1]}


def corrected() -> Library:
    family = library().family(FAMILY)
    later = family.model_copy(update={"version": family.version + 1})
    return replace(library(), families={**library().families, FAMILY: later})


def test_new_draws_of_the_school_leave_it_out_and_others_keep_it(uow: UnitOfWork, cast: Cast) -> None:
    assert FAMILY not in families(uow, cast.alice)
    assert FAMILY in families(uow, cast.charlie)
    set_id = make_set(uow, cast.ingrid, library(), (SetWish(topics=("datum",), count=40), SetSettings("Datum")), 1, NOW)
    assert FAMILY not in {row.family for row, _ in get_set(uow, cast.ingrid, library(), set_id).places}
    with pytest.raises(Invalid):
        make_set(uow, cast.ingrid, library(), (SetWish(families=(FAMILY,)), SetSettings("Datum")), 1, NOW)


def test_corrected_version_is_drawn_again(uow: UnitOfWork, cast: Cast) -> None:
    assert FAMILY not in offered(uow, cast.alice, library()).families
    assert FAMILY in offered(uow, cast.alice, corrected()).families
    assert list_withdrawn(uow, cast.alice, corrected()) == {}


def test_brought_back_it_is_drawn_again_and_both_are_noted(uow: UnitOfWork, cast: Cast) -> None:
    bring_back(uow, cast.selma, library(), FAMILY, NOW + timedelta(days=1))
    bring_back(uow, cast.selma, library(), FAMILY, NOW + timedelta(days=1))
    assert offered(uow, cast.alice, library()) is library()
    with uow.reader() as connection:
        entries = audit.list_entries(connection, cast.selma.school_id, 10, None)
    assert [entry.action for entry in entries] == ["question-brought-back", "question-withdrawn"]
    assert entries[1].details == {"version": 1, "reason": "The key is wrong."} | {
        "version": library().family(FAMILY).version
    }


def test_only_the_school_withdraws_with_a_reason_what_there_is(uow: UnitOfWork, cast: Cast) -> None:
    with pytest.raises(NotAllowed):
        withdraw(uow, cast.ingrid, library(), FAMILY, "No.", NOW)
    with pytest.raises(NotAllowed):
        bring_back(uow, cast.ingrid, library(), FAMILY, NOW)
    with pytest.raises(NotFound):
        withdraw(uow, cast.selma, library(), "no-such-family", "No.", NOW)
    with pytest.raises(Invalid, match="0 characters"):
        withdraw(uow, cast.selma, library(), FAMILY, "  ", NOW)


@pytest.mark.parametrize("aim", [Aim(families=(FAMILY,)), Aim(misconception=MISCONCEPTION)])
def test_wish_for_nothing_else_is_told_what_was_withdrawn(uow: UnitOfWork, cast: Cast, aim: Aim) -> None:
    with pytest.raises(Conflict, match="True to magnetic to compass"):
        start_adaptive(uow, cast.alice, library(), aim, 1, NOW)


def test_wish_for_others_besides_gets_the_others(uow: UnitOfWork, cast: Cast) -> None:
    with pytest.raises(Conflict, match="True to magnetic to compass"):
        start_drill(uow, cast.alice, library(), DrillWish(families=(FAMILY,)), 1, NOW)
    drill_id = start_drill(uow, cast.alice, library(), DrillWish(families=CONVERSIONS), 1, NOW)
    assert {place.family for place in get_drill(uow, cast.alice, drill_id)[1]} == {CONVERSIONS[1]}


def test_what_is_missed_and_withdrawn_is_offered_nowhere(uow: UnitOfWork, cast: Cast) -> None:
    """The plan, the mistakes and the summary name only what can be asked."""
    bring_back(uow, cast.selma, library(), FAMILY, NOW)
    drill_id = start_adaptive(uow, cast.alice, library(), Aim(misconception=MISCONCEPTION, length=5), 3, NOW)
    for _ in range(3):
        believe(uow, cast.alice, drill_id)
    later = NOW + timedelta(days=40)
    before = plans(uow, cast.alice, drill_id, later)
    withdraw(uow, cast.selma, library(), FAMILY, "Wrong.", NOW)
    after = plans(uow, cast.alice, drill_id, later)
    assert all(before)
    assert not any(after)
    question(uow, cast.alice, library(), drill_id, NOW)  # of nothing that is asked: the drill is over
    mending = summary(uow, cast.alice, library(), drill_id, later).mending
    assert mending is not None
    assert (mending.mended, mending.asked) == (False, False)


def test_readiness_is_of_what_can_be_asked(uow: UnitOfWork, cast: Cast) -> None:
    def first() -> str:
        return ready_for(uow, cast.alice, library(), built_in_profiles()[0], ("", NOW)).limiting.next[0].id

    gone = first()
    withdraw(uow, cast.selma, library(), gone, "Wrong.", NOW)
    assert first() != gone


def believe(uow: UnitOfWork, actor: Actor, drill_id: UUID) -> None:
    """Answer the open item as somebody does who holds the misconception."""
    question(uow, actor, library(), drill_id, NOW)
    place = get_drill(uow, actor, drill_id)[1][-1]
    item = drawn(place.family, place.seed, place.form, actor)
    fields = fields_of(library(), item, wrong_value(library(), item, Random(1), {MISCONCEPTION.partition("/")[2]}))
    sent = Sent({name: value if isinstance(value, list) else [value] for name, value in fields.items()}, 60_000)
    answer(uow, actor, library(), place.id, sent, NOW)


def plans(uow: UnitOfWork, actor: Actor, drill_id: UUID, now: datetime) -> tuple[bool, ...]:
    """Whether the family stands among what is due, to mend, missed, to drill again."""
    title = library().family(FAMILY).title.en
    plan, own = today(uow, actor, library(), now), record(uow, actor, library(), now)
    return (
        FAMILY in {each.id for each in plan.due},
        MISCONCEPTION in {each.id for each in plan.misconceptions},
        MISCONCEPTION in {each.id for each in own.open},
        title in {each.family_title for each in own.mistakes},
        FAMILY in summary(uow, actor, library(), drill_id, now).missed,
    )


def test_drill_that_runs_goes_on_without_it(uow: UnitOfWork, cast: Cast) -> None:
    bring_back(uow, cast.selma, library(), FAMILY, NOW)
    drill_id = start_drill(uow, cast.alice, library(), DrillWish(families=(FAMILY,), length=2), 3, NOW)
    withdraw(uow, cast.selma, library(), FAMILY, "Wrong.", NOW)
    assert len(get_drill(uow, cast.alice, drill_id)[1]) == 2
    with pytest.raises(Conflict):
        start_drill(uow, cast.alice, Library({}, {}, library().shared, {}), DrillWish(), 1, NOW)
