"""Drills that adapt: the next item is chosen after each answer, once, from what is known by then."""

from collections.abc import Callable, Mapping
from contextlib import AbstractContextManager
from dataclasses import replace
from datetime import datetime, timedelta
from random import Random
from typing import Any
from uuid import UUID

import pytest

from app.grader.made_up import fields_of, wrong_value
from app.learner.selection import MISCONCEIVED_ABOVE, SUSPECTED_ABOVE
from app.questions.model import LIST_FORMS, Item
from app.questions.present import plain
from app.services import adaptive
from app.services.actor import Actor
from app.services.adaptive import MOST_OF_A_FAMILY, OPEN_FORMS, Aim, start_adaptive
from app.services.drills import find_open_drill, get_drill
from app.services.errors import Invalid, NotFound
from app.services.learning import find_state
from app.services.practice import Sent, answer, question
from app.services.review import verdict
from app.storage.queries.drills import PlaceRow
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.questions.replies import right_answer, wrong_answer
from tests.services.people import CONVERSIONS, NOW, drawn, visitor

Counting = Callable[[], AbstractContextManager[Any]]
SLOW_MS = 60_000
# One of an answer's is of a first answer alone; finding the visit, which is not counted here, is one more of each.
MOST_OF_AN_ANSWER = 7
MOST_OF_A_QUESTION = 12
ALL = Aim(families=CONVERSIONS, length=8)


def open_place(uow: UnitOfWork, actor: Actor, drill_id: UUID, now: datetime = NOW) -> PlaceRow | None:
    """Ask for the next question of a drill, as its page does; None where the drill is over."""
    view = question(uow, actor, library(), drill_id, now)
    return None if view.answered else get_drill(uow, actor, drill_id)[1][-1]


def answer_open(uow: UnitOfWork, actor: Actor, drill_id: UUID, now: datetime, *, rightly: bool = True) -> PlaceRow:
    """Answer the next question of a drill and return its place."""
    place = open_place(uow, actor, drill_id, now)
    assert place is not None
    give(uow, actor, place, now, rightly=rightly)
    return place


def give(uow: UnitOfWork, actor: Actor, place: PlaceRow, now: datetime, *, rightly: bool = True) -> None:
    """Answer the question at a place."""
    item = drawn(place.family, place.seed, place.form, actor)
    fields = (right_answer if rightly else wrong_answer)(item)
    lists = {name: value if isinstance(value, list) else [value] for name, value in fields.items()}
    answer(uow, actor, library(), place.id, Sent(lists, SLOW_MS), now)


def run(uow: UnitOfWork, actor: Actor, drill_id: UUID, *, rightly: bool = True) -> list[PlaceRow]:
    """Answer until there is nothing more."""
    answered = []
    for number in range(60):
        now = NOW + timedelta(minutes=number)
        place = open_place(uow, actor, drill_id, now)
        if place is None:
            break
        give(uow, actor, place, now, rightly=rightly)
        answered.append(place)
    return answered


def test_items_come_one_by_one_up_to_the_length(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    drill_id = start_adaptive(uow, alice, library(), ALL, 5, NOW)
    first = question(uow, alice, library(), drill_id, NOW)
    assert (first.progress.position, first.progress.length, len(first.progress.marks)) == (1, 8, 1)
    answered = run(uow, alice, drill_id)
    assert [place.position for place in answered] == list(range(1, 9))
    view = verdict(uow, alice, library(), answered[-1].id, NOW)
    assert view.progress.finished
    assert view.progress.length == 8


def test_item_is_the_same_however_often_it_is_looked_at(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    drill_id = start_adaptive(uow, alice, library(), ALL, 5, NOW)
    answer_open(uow, alice, drill_id, NOW)
    seen = [question(uow, alice, library(), drill_id, NOW, position).item.stamp for position in (2, None, 2)]
    assert seen[0] == seen[1] == seen[2]
    assert len(get_drill(uow, alice, drill_id)[1]) == 2


def test_next_item_is_chosen_when_it_is_asked_for_from_what_is_known_then(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    drill_id = start_adaptive(uow, alice, library(), ALL, 5, NOW)
    first = answer_open(uow, alice, drill_id, NOW)
    assert len(get_drill(uow, alice, drill_id)[1]) == 1
    assert verdict(uow, alice, library(), first.id, NOW).progress.next_position == 2
    other = next(each for each in CONVERSIONS if each != first.family)
    run(uow, alice, start_adaptive(uow, alice, library(), Aim(families=(other,), length=3), 6, NOW), rightly=False)
    month = NOW + timedelta(days=30)
    assert find_open_drill(uow, alice, month) == drill_id
    place = open_place(uow, alice, drill_id, month)
    assert place is not None
    assert place.family == other  # due since, by answers of another drill


def test_drill_for_which_no_more_is_found_ends_with_what_it_has(
    uow: UnitOfWork, monkeypatch: pytest.MonkeyPatch
) -> None:
    alice = visitor(uow)
    drill_id = start_adaptive(uow, alice, library(), ALL, 5, NOW)
    answer_open(uow, alice, drill_id, NOW)
    with monkeypatch.context() as bare:
        bare.setattr(adaptive, "load_offered", lambda *_: replace(library(), families={}))
        assert question(uow, alice, library(), drill_id, NOW, 2).progress.position == 1
    assert question(uow, alice, library(), drill_id, NOW, 2).progress.finished
    assert find_open_drill(uow, alice, NOW) is None


def test_statements_of_an_answer_are_no_more_than_elsewhere(uow: UnitOfWork, count_queries: Counting) -> None:
    alice = visitor(uow)
    answers, questions = [], []
    for seed in range(3):
        drill_id = start_adaptive(uow, alice, library(), Aim(length=20), seed, NOW)
        for position in range(2, 20):
            place = get_drill(uow, alice, drill_id)[1][-1]
            with count_queries() as counted:
                give(uow, alice, place, NOW)
            answers.append(len(counted.queries))
            with count_queries() as counted:
                question(uow, alice, library(), drill_id, NOW, position)
            questions.append(len(counted.queries))
    assert max(answers) <= MOST_OF_AN_ANSWER
    assert max(questions) <= MOST_OF_A_QUESTION


def test_half_the_answers_are_given_without_options(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    places = run(uow, alice, start_adaptive(uow, alice, library(), ALL, 5, NOW))
    without = sum(place.form in OPEN_FORMS for place in places)
    assert abs(without - len(places) / 2) <= 1


def test_ends_after_the_item_in_hand_when_the_time_is_over(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    aim = Aim(families=CONVERSIONS, length=None, minutes=10)
    drill_id = start_adaptive(uow, alice, library(), aim, 5, NOW)
    answer_open(uow, alice, drill_id, NOW + timedelta(minutes=5))
    place, late = open_place(uow, alice, drill_id, NOW + timedelta(minutes=9, seconds=59)), NOW + timedelta(minutes=30)
    assert place is not None
    assert find_open_drill(uow, alice, late) == drill_id
    give(uow, alice, place, late)
    assert open_place(uow, alice, drill_id, late) is None
    assert find_open_drill(uow, alice, late) is None
    assert [place.correct for place in get_drill(uow, alice, drill_id)[1]] == [True, True]


def test_who_misses_everything_still_meets_several_kinds(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    drill_id = start_adaptive(uow, alice, library(), Aim(topic="datum", length=10), 5, NOW)
    families = [place.family for place in run(uow, alice, drill_id, rightly=False)]
    assert max(families.count(family) for family in families) <= MOST_OF_A_FAMILY
    assert all(family not in families[max(0, i - 2) : i] for i, family in enumerate(families))


def test_review_that_is_due_comes_first(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    aim = Aim(families=CONVERSIONS[:1], length=1)
    run(uow, alice, start_adaptive(uow, alice, library(), aim, 5, NOW))
    later = NOW + timedelta(days=30)
    for seed in range(4):
        drill_id = start_adaptive(uow, alice, library(), Aim(topic="datum"), seed, later)
        assert get_drill(uow, alice, drill_id)[1][0].family == CONVERSIONS[0]


def test_mending_asks_only_what_the_misconception_could_answer_and_with_other_numbers(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    missed = run(uow, alice, start_adaptive(uow, alice, library(), ALL, 5, NOW), rightly=False)
    _, places = get_drill(uow, alice, _drill_of(uow, alice, missed[0]))
    name = (places[0].misconceptions or [""])[0]
    aim = Aim(misconception=f"{places[0].family}/{name}", length=5)
    mending = run(uow, alice, start_adaptive(uow, alice, library(), aim, 9, NOW))
    old = [drawn(each.family, each.seed, each.form, alice) for each in missed]
    assert len(mending) == 5
    for place in mending:
        item = drawn(place.family, place.seed, place.form, alice)
        assert name in item.misconceptions
        assert _asked(item) not in [_asked(each) for each in old]


def _asked(item: Item) -> tuple[object, list[str]]:
    """Return the numbers of an item, and what it lists."""
    return plain(item.parameters), sorted(str(each.value) for each in item.options if item.form in LIST_FORMS)


def test_list_of_other_things_is_another_question_than_the_one_missed(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    aim = Aim(misconception="gyro-properties/turn-by-weight", length=6)
    missed = run(uow, alice, start_adaptive(uow, alice, library(), aim, 5, NOW), rightly=False)
    asked = [_asked(drawn(each.family, each.seed, each.form, alice)) for each in missed]
    assert not [each for each in asked if asked.count(each) > 1], "two instruments to choose for, then other lists"


def test_question_that_has_no_other_numbers_is_asked_again(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    aim = Aim(families=("straight-line-on-chart",), length=2)
    missed = run(uow, alice, start_adaptive(uow, alice, library(), aim, 5, NOW), rightly=False)
    assert len(missed) == 2


@pytest.mark.parametrize("family", ["dip-from-latitude", "suction-failure", "pressure-density-altitude"])
def test_misconception_that_may_be_held_is_looked_for_in_what_comes_next(uow: UnitOfWork, family: str) -> None:
    alice = visitor(uow)
    drill_id = start_adaptive(uow, alice, library(), Aim(families=(family,), length=9), 5, NOW)
    held, looked_for = min(_open_item(uow, alice, drill_id).misconceptions), list[bool]()
    for minute in range(8):
        item = _open_item(uow, alice, drill_id)
        probabilities = _misconceptions(uow, alice, family)
        likeliest = max(probabilities, key=probabilities.__getitem__, default=held)
        if probabilities.get(likeliest, 0.0) > SUSPECTED_ABOVE:
            looked_for.append(likeliest in item.misconceptions)
        shown = held in item.misconceptions
        value = wrong_value(library(), item, Random(1), {held}) if shown else item.key
        item_id = question(uow, alice, library(), drill_id, NOW).item_id
        sent = Sent(fields_of(library(), item, value), SLOW_MS)
        answer(uow, alice, library(), item_id, sent, NOW + timedelta(minutes=minute))
    assert len(looked_for) >= 4
    assert looked_for.count(False) <= 1, "what shows in few items is not found in every dozen draws"
    assert _misconceptions(uow, alice, family)[held] > MISCONCEIVED_ABOVE


def _misconceptions(uow: UnitOfWork, actor: Actor, family: str) -> Mapping[str, float]:
    with uow.reader() as connection:
        skills = find_state(connection, actor.school_id, actor.own_visit).skills
    return skills[family].skill.misconceptions if family in skills else {}


def _open_item(uow: UnitOfWork, actor: Actor, drill_id: UUID) -> Item:
    place = open_place(uow, actor, drill_id)
    assert place is not None
    return drawn(place.family, place.seed, place.form, actor)


def test_misconception_that_only_typed_answers_show_is_mended_by_typing(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    aim = Aim(misconception="object-near-compass/sign", length=2)
    assert {place.form for place in run(uow, alice, start_adaptive(uow, alice, library(), aim, 5, NOW))} == {"typed"}


def test_misconception_that_few_questions_can_show_is_mended_to_the_end(uow: UnitOfWork) -> None:
    aim = Aim(misconception="set-heading-and-alter/alters-on-a-guess", length=4)
    for seed in range(3):
        alice = visitor(uow)
        assert len(run(uow, alice, start_adaptive(uow, alice, library(), aim, seed, NOW), rightly=False)) == 4


def _drill_of(uow: UnitOfWork, actor: Actor, place: PlaceRow) -> UUID:
    return verdict(uow, actor, library(), place.id, NOW).progress.drill_id


@pytest.mark.parametrize("aim", [Aim(length=0), Aim(length=51), Aim(length=None, minutes=0), Aim(minutes=121)])
def test_length_that_cannot_be_is_named(uow: UnitOfWork, aim: Aim) -> None:
    with pytest.raises(Invalid, match=str(aim.minutes if aim.minutes is not None else aim.length)):
        start_adaptive(uow, visitor(uow), library(), aim, 1, NOW)


@pytest.mark.parametrize(
    "aim", [Aim(topic="cooking"), Aim(families=("no-such",)), Aim(misconception="true-to-compass/no-such")]
)
def test_what_there_is_not_is_not_found(uow: UnitOfWork, aim: Aim) -> None:
    with pytest.raises(NotFound):
        start_adaptive(uow, visitor(uow), library(), aim, 1, NOW)
