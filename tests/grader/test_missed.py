"""A true statement left unticked: said to be true, and no belief named that the pack does not put behind it."""

from app.grader.explain import Explanation, explain, key_in_words, reply_in_words
from app.grader.grade import grade
from app.grader.reply import Reply
from app.questions.draw import draw
from app.questions.model import Item
from app.questions.wording import Writer
from tests.questions.engine import home, library


def to_tick(family: str, ask: str) -> Item:
    items = (draw(library(), family, seed, home(), "several") for seed in range(1, 200))
    return next(item for item in items if item.ask == ask and len(item.key) > 1)


def explained(item: Item, ticked: tuple[str, ...]) -> Explanation:
    reply = Reply(ticked)
    return explain(library(), item, reply, grade(library(), item, reply), "en")


def test_it_is_named_and_no_belief_is_blamed() -> None:
    item = to_tick("compass-part-purpose", "statements")
    why = explained(item, item.key[1:])
    assert why.missed == (Writer(library(), item, "en").word(item.key[0]),)
    assert (why.correct, why.findings, why.unmatched) == (False, (), False)
    assert why.working


def test_something_false_ticked_beside_it_is_still_explained() -> None:
    item = to_tick("compass-part-purpose", "statements")
    false = next(option.value for option in item.options if not option.correct)
    why = explained(item, (*item.key[1:], false))
    assert (len(why.missed), len(why.findings)) == (1, 1)


def test_a_pack_may_say_what_leaves_it_out() -> None:
    item = to_tick("northern-airspace-reference", "equipment")
    why = explained(item, item.key[1:])
    assert (why.missed, [finding.id for finding in why.findings]) == ((), ["flight-forgotten"])


def test_a_right_answer_misses_nothing() -> None:
    item = to_tick("compass-part-purpose", "statements")
    assert explained(item, item.key).missed == ()


def test_jobs_given_to_one_anothers_parts_are_named_by_the_part_they_belong_to() -> None:
    drawn = (draw(library(), "compass-part-purpose", seed, home(), "match") for seed in range(1, 200))
    item = next(each for each in drawn if {"liquid", "card"} <= set(each.key))
    swapped = {**item.key, "liquid": item.key["card"], "card": item.key["liquid"]}
    assert set(grade(library(), item, Reply(swapped)).misconceptions) == {"job-of-card", "job-of-liquid"}


def test_of_several_parts_what_was_right_is_told_of_those_missed_alone() -> None:
    drawn = (draw(library(), "compass-part-purpose", seed, home(), "match") for seed in range(1, 200))
    item = next(each for each in drawn if {"liquid", "card"} <= set(each.key))
    reply, writer = Reply({**item.key, "liquid": item.key["card"]}), Writer(library(), item, "fr")
    assert (
        key_in_words(library(), item, reply, "fr")
        == f"{writer.word('liquid')}\u00a0: {writer.word(item.key['liquid'])}"
    )
    assert f"{writer.word('card')}\u00a0: " in reply_in_words(library(), item, reply, "fr")
