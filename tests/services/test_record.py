"""My record and the plan over time: spaced right answers, a break, another home, kinds that are asked no more."""

from dataclasses import replace
from datetime import datetime, timedelta

from app.packs.library import Library
from app.services.actor import Actor
from app.services.adaptive import Aim, start_adaptive
from app.services.drills import DrillWish, get_drill, start_drill
from app.services.learning import LearnerState, SkillState, find_state, rebuild
from app.services.own_table import own_csv
from app.services.practice import Sent, answer, question
from app.services.record import Mistake, record
from app.services.today import open_misconceptions, shown_state, today
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import NOW, drawn, right, visitor, wrong

FAMILY = "true-to-compass"
SLOW_MS = 60_000
DAY = timedelta(days=1)


def answer_one(uow: UnitOfWork, actor: Actor, mark: str, when: datetime, position: int = 1) -> None:
    """Answer one fresh item: r right, w by a misconception. The forms take turns: the second is typed."""
    drill_id = start_drill(uow, actor, library(), DrillWish(families=(FAMILY,), length=position), 11, when)
    place = get_drill(uow, actor, drill_id)[1][-1]
    sent = (right if mark == "r" else wrong)(drawn(FAMILY, place.seed, place.form, actor))
    answer(uow, actor, library(), place.id, Sent(sent.fields, SLOW_MS), when)


def mistakes(uow: UnitOfWork, actor: Actor) -> list[Mistake]:
    return list(record(uow, actor, library(), NOW + 90 * DAY).mistakes)


def without_the_family() -> Library:
    packs = {
        name: pack.model_copy(update={"families": tuple(each for each in pack.families if each != FAMILY)})
        for name, pack in library().packs.items()
    }
    families = {name: family for name, family in library().families.items() if name != FAMILY}
    return replace(library(), packs=packs, families=families)


def test_mistake_leaves_after_right_answers_on_two_later_days(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    answer_one(uow, alice, "w", NOW)
    for later in (timedelta(hours=1), timedelta(hours=2)):
        answer_one(uow, alice, "r", NOW + later)
    assert [each.spaced_right for each in mistakes(uow, alice)] == [0]
    answer_one(uow, alice, "r", NOW + DAY)
    answer_one(uow, alice, "r", NOW + DAY + timedelta(hours=1))
    assert [each.spaced_right for each in mistakes(uow, alice)] == [1]
    answer_one(uow, alice, "r", NOW + 3 * DAY)
    assert mistakes(uow, alice) == []


def test_mistakes_of_one_kind_stand_together_the_latest_first(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    for days in range(3):
        answer_one(uow, alice, "w", NOW + days * DAY)
    ((title, missed),) = record(uow, alice, library(), NOW + 90 * DAY).mistakes_by_kind
    assert title == library().family(FAMILY).title.en
    assert [each.missed_at for each in missed] == [NOW + days * DAY for days in (2, 1, 0)]


def test_month_away_makes_the_review_due_widens_the_range_and_lowers_the_certainty(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    for number, mark in enumerate("rwrwrr"):
        answer_one(uow, alice, mark, NOW + number * timedelta(hours=1))
    soon, later = NOW + timedelta(hours=6), NOW + 31 * DAY
    judged = []
    for when in (soon, later):
        (family,) = (f for topic in record(uow, alice, library(), when).topics for f in topic.families)
        judged.append(family.mastery)
    evening, back = judged
    assert back.high - back.low > 1.05 * (evening.high - evening.low)
    assert back.probability < evening.probability
    assert back.estimate < evening.estimate
    plan, back_again = (today(uow, alice, library(), when) for when in (soon, later))
    assert (plan.due, plan.away_days) == ((), None)
    assert plan.next_due is not None
    assert soon < plan.next_due < later
    assert [each.id for each in back_again.due] == [FAMILY]
    assert (back_again.next_due, back_again.away_days) == (None, 31)


def test_other_home_keeps_what_is_known_and_a_running_drill_its_own(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    aim = Aim(families=(FAMILY,), length=2)
    drill_id = start_adaptive(uow, alice, library(), aim, 5, NOW)
    drill, (place,) = get_drill(uow, alice, drill_id)
    answer(uow, alice, library(), place.id, right(drawn(FAMILY, place.seed, place.form, alice)), NOW)
    known = shown_state(uow, alice, NOW)
    moved = replace(alice, conventions=replace(alice.conventions, variation_deg=-alice.conventions.variation_deg))
    assert shown_state(uow, moved, NOW) == known
    assert question(uow, moved, library(), drill_id, NOW, 2).item.place == alice.conventions.place
    assert get_drill(uow, moved, drill_id)[0].conventions == drill.conventions
    other, _ = get_drill(uow, moved, start_adaptive(uow, moved, library(), aim, 5, NOW))
    assert other.conventions == moved.conventions.as_json()


def test_kind_asked_no_more_is_in_no_list_but_its_answers_are_one_s_own(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    answer_one(uow, alice, "w", NOW)
    packs = without_the_family()
    view = record(uow, alice, packs, NOW + 9 * DAY)
    assert (view.answers, view.mistakes, view.open, view.mended) == (1, (), (), ())
    assert not any(topic.families for topic in view.topics)
    plan = today(uow, alice, packs, NOW + 9 * DAY)
    assert (plan.due, plan.misconceptions) == ((), ())
    assert FAMILY in own_csv(uow, alice, packs, NOW)
    start_adaptive(uow, alice, packs, Aim(length=1), 5, NOW + 9 * DAY)


def test_misconception_is_open_once_likely_and_until_it_is_unlikely(uow: UnitOfWork) -> None:
    alice = visitor(uow)
    answer_one(uow, alice, "w", NOW)
    kept = shown_state(uow, alice, NOW).skills[FAMILY]
    (name,) = list(kept.met)[:1]

    def is_open(highest: float, held: float) -> bool:
        skill = replace(kept.skill, misconceptions={**kept.skill.misconceptions, name: held})
        met = {name: {**kept.met[name], "highest": highest}}
        state = LearnerState(skills={FAMILY: replace(kept, skill=skill, met=met)})
        return bool(list(open_misconceptions(library(), state, alice)))

    assert isinstance(kept, SkillState)
    assert [is_open(*each) for each in ((0.5, 0.5), (0.5, 0.3), (0.5, 0.1), (0.3, 0.3))] == [True, True, False, False]


def test_days_are_those_of_the_learner_s_own_place(uow: UnitOfWork) -> None:
    """In Vancouver, seven hours behind UTC in summer, 16:00 and 18:00 lie on two days of UTC."""
    afternoon, evening = NOW.replace(hour=23), NOW.replace(hour=1) + DAY
    for zone, days in (("America/Vancouver", 1), ("UTC", 2)):
        actor = replace(visitor(uow), time_zone=zone)
        answer_one(uow, actor, "w", afternoon)
        for when in (afternoon, evening):
            answer_one(uow, actor, "r", when + timedelta(minutes=1), position=2)
        assert [each.spaced_right for each in mistakes(uow, actor)] == [days - 1]
        with uow.writer() as connection:
            kept = find_state(connection, actor.school_id, actor.own_visit)
            rebuild(connection, actor.school_id, actor.own_visit)
            assert find_state(connection, actor.school_id, actor.own_visit) == kept
        assert len(kept.skills[FAMILY].skill.typed_right_days) == days
