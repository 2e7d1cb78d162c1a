"""The learner model's state: moved once an answer, in the answer's transaction, and the same when it is made anew."""

from dataclasses import replace
from datetime import datetime, timedelta

from app.learner.evidence import MISCONCEPTION_PRIOR, Level
from app.services.actor import Actor
from app.services.drills import DrillWish, get_drill, start_drill
from app.services.learning import LearnerState, advance, find_state, learn, rebuild_all
from app.services.practice import Sent, answer
from app.storage.queries.attempts import list_attempts
from app.storage.queries.learners import AnswerRow, find_known, forget_state
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, NOW, cast_of, drawn, right, visitor, wrong

FAMILY = "true-to-compass"
SLOW_MS = 60_000


def practise(uow: UnitOfWork, actor: Actor, marks: str, when: datetime = NOW, took_ms: int | None = SLOW_MS) -> None:
    """Answer conversions: r right, w by a misconception; three days apart."""
    wish = DrillWish(families=CONVERSIONS, length=len(marks))
    drill_id = start_drill(uow, actor, library(), wish, 11, when)
    _, places = get_drill(uow, actor, drill_id)
    for number, (mark, place) in enumerate(zip(marks, places, strict=True)):
        item = drawn(place.family, place.seed, place.form, actor)
        sent = (right if mark == "r" else wrong)(item)
        now = when + timedelta(days=3 * number)
        answer(uow, actor, library(), place.id, Sent(sent.fields, took_ms), now)


def state_of(uow: UnitOfWork, actor: Actor) -> LearnerState:
    with uow.reader() as connection:
        return find_state(connection, actor.school_id, actor.own_visit)


def test_nobody_is_known_before_the_first_answer(uow: UnitOfWork) -> None:
    assert state_of(uow, visitor(uow)) == LearnerState()


def test_right_answers_raise_and_wrong_ones_lower(uow: UnitOfWork) -> None:
    good, bad = visitor(uow), visitor(uow)
    practise(uow, good, "rrrr")
    practise(uow, bad, "wwww")
    assert state_of(uow, good).level.mean > 0 > state_of(uow, bad).level.mean
    assert state_of(uow, good).level.variance < Level().variance
    assert {name for name, kept in state_of(uow, bad).skills.items() if kept.met} == set(CONVERSIONS)


def test_what_is_kept_is_what_making_it_anew_gives_bit_for_bit(uow: UnitOfWork) -> None:
    cast = cast_of(uow)
    for actor, marks in ((visitor(uow), "rwrwwrrr"), (cast.alice, "rrrrrrrrrr"), (cast.charlie, "wwr")):
        practise(uow, actor, marks)
    practise(uow, cast.alice, "wr", NOW + timedelta(days=60))
    before = [state_of(uow, actor) for actor in (cast.alice, cast.charlie)]
    assert rebuild_all(uow) == 3
    assert [state_of(uow, actor) for actor in (cast.alice, cast.charlie)] == before


def test_misconception_shown_again_and_again_is_named_and_mends(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    practise(uow, alice, "wwwwww")
    shown = {
        name: kept.skill.misconceptions[name] for kept in state_of(uow, alice).skills.values() for name in kept.met
    }
    assert max(shown.values()) > MISCONCEPTION_PRIOR
    worst = max(shown, key=lambda name: shown[name])
    practise(uow, alice, "rrrrrrrrrr", NOW + timedelta(days=40))
    mended = [kept for kept in state_of(uow, alice).skills.values() if worst in kept.met]
    assert mended[0].skill.misconceptions[worst] < shown[worst]
    assert mended[0].met[worst]["highest"] >= shown[worst]


def test_answer_far_too_fast_to_have_been_read_says_nothing(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    practise(uow, alice, "rrrr", took_ms=300)
    state = state_of(uow, alice)
    assert state.level == Level()
    assert {(kept.skill.answers, kept.recall) for kept in state.skills.values()} == {(0, None)}


def test_answer_sent_twice_moves_the_state_once(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    drill_id = start_drill(uow, alice, library(), DrillWish(families=(FAMILY,), length=1), 11, NOW)
    _, (place,) = get_drill(uow, alice, drill_id)
    sent = replace(right(drawn(FAMILY, place.seed, place.form, alice)), took_ms=SLOW_MS)
    answer(uow, alice, library(), place.id, sent, NOW)
    once = state_of(uow, alice)
    answer(uow, alice, library(), place.id, sent, NOW)
    assert state_of(uow, alice) == once


def test_review_falls_due(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    practise(uow, alice, "rrrrrr")
    kept = state_of(uow, alice).skills[FAMILY]
    assert kept.recall is not None
    assert NOW + timedelta(days=15) < kept.recall.due < NOW + timedelta(days=400)


def test_answer_of_before_there_was_a_model_changes_nothing() -> None:
    state = LearnerState()
    answered = AnswerRow(FAMILY, correct=True, misconceptions=[], evidence=None, answered_at=NOW)
    assert advance(state, answered) is state


def test_family_that_left_the_packs_stays_known(uow: UnitOfWork) -> None:
    """Its answers carry their own evidence: making the state anew needs no pack."""
    alice = visitor(uow)
    practise(uow, alice, "rw")
    before = state_of(uow, alice)
    assert rebuild_all(uow) == 1
    assert state_of(uow, alice) == before


def test_what_was_read_before_another_answer_moved_it_is_read_again(uow: UnitOfWork) -> None:
    alice, bob = visitor(uow), visitor(uow)
    for actor in (alice, bob):
        practise(uow, actor, "rwr")
    with uow.reader() as connection:
        attempts = list_attempts(connection, alice.school_id, alice.own_visit)
        early = find_known(connection, alice.school_id, alice.own_visit, attempts[0].family)
    later = [attempts[0]._replace(answered_at=NOW + timedelta(days=day)) for day in (20, 21)]
    for attempt in later:
        with uow.writer() as connection:
            learn(connection, attempt, early)
            learn(connection, attempt._replace(visit_id=bob.own_visit))
    assert state_of(uow, alice) == state_of(uow, bob)
    with uow.writer() as connection:
        forget_state(connection, alice.school_id, alice.own_visit)
        learn(connection, later[1], early)
    assert [kept.skill.answers for kept in state_of(uow, alice).skills.values()] == [1]
