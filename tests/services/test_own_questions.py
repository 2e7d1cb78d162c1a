"""Questions that a school's instructors write: from the draft to the student, and what came before stays as it was."""

from dataclasses import replace
from typing import Any
from uuid import UUID

import pytest

from app.packs.library import Library
from app.packs.own import OwnBody
from app.services.actor import Actor
from app.services.drills import DrillWish, start_drill
from app.services.errors import Conflict, Invalid, NotAllowed, NotFound
from app.services.own_checks import Unreadable, read_body
from app.services.own_library import OwnLibraries, family_id, with_families
from app.services.own_questions import (
    edition,
    get_own,
    give_back,
    list_own,
    release,
    rewrite_own,
    set_retired,
    write_own,
)
from app.services.practice import Sent, answer, question
from app.services.review import verdict
from app.services.withdrawals import offered
from app.storage.queries import own_questions
from app.storage.queries.audit import list_entries
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import NOW, Cast, cast_of


def wrong(text: str) -> dict[str, str]:
    return {"text": text, "name": f"Takes {text}", "did": f"{text} is the pole's side.", "remedy": "Look it up."}


def written(**changes: Any) -> dict[str, Any]:
    words = {
        "title": "Where the lubber line stands",
        "situation": "You sit in the left seat of WZG on the apron at Larkspur.",
        "question": "Which part of the compass stays with the aircraft?",
        "key": "the lubber line",
        "why": ["The card stays with the field; the line is painted on the bowl."],
        "wrong": [wrong("the compass card"), wrong("the two magnets"), wrong("the float")],
    }
    body = {"format": 1, "topic": "principle", "grade": "easy", "source": "Own lesson 3, common practice", "en": words}
    return body | changes


def body(**changes: Any) -> OwnBody:
    return read_body(written(**changes), library(), "en")


def with_words(**changes: Any) -> dict[str, Any]:
    return written(en=written()["en"] | changes)


@pytest.fixture
def cast(uow: UnitOfWork) -> Cast:
    return cast_of(uow)


def newest(uow: UnitOfWork, actor: Actor, own: UUID) -> str:
    return edition(get_own(uow, actor, library(), own).newest)


def asked_by(uow: UnitOfWork, actor: Actor) -> Library:
    """Return what the actor's school asks now."""
    with uow.reader() as connection:
        revision = own_questions.find_revision(connection, actor.school_id)
    return OwnLibraries().library_of(uow, replace(actor, own_revision=revision), library())


def released(uow: UnitOfWork, cast: Cast) -> UUID:
    own = write_own(uow, cast.ingrid, body(), NOW)
    release(uow, cast.selma, library(), own, newest(uow, cast.selma, own), NOW)
    return own


def test_a_draft_is_asked_of_nobody_until_somebody_else_has_released_it(uow: UnitOfWork, cast: Cast) -> None:
    own = write_own(uow, cast.ingrid, body(), NOW)
    assert family_id(own) not in asked_by(uow, cast.alice).families
    with pytest.raises(NotAllowed):
        release(uow, cast.ingrid, library(), own, newest(uow, cast.ingrid, own), NOW)
    release(uow, cast.selma, library(), own, newest(uow, cast.selma, own), NOW)
    of_school = asked_by(uow, cast.alice)
    assert family_id(own) in of_school.pack("principle").families
    assert family_id(own) not in library().families
    with uow.reader() as connection:
        actions = [entry.action for entry in list_entries(connection, cast.ingrid.school_id, 10, None)]
    assert {"own-question-written", "own-question-released"} <= set(actions)


def test_a_student_is_asked_it_and_told_what_the_wrong_answer_meant(uow: UnitOfWork, cast: Cast) -> None:
    name = family_id(released(uow, cast))
    packs = asked_by(uow, cast.alice)
    drill = start_drill(uow, cast.alice, packs, DrillWish(families=(name,), length=1), 7, NOW)
    shown = question(uow, cast.alice, packs, drill, NOW)
    options = {option.text: option.position for option in shown.item.worded.options}
    assert sorted(options) == ["the compass card", "the float", "the lubber line", "the two magnets"]
    sent = Sent({"choice": [str(options["the float"])]})
    assert not answer(uow, cast.alice, packs, shown.item_id, sent, NOW).correct
    told = verdict(uow, cast.alice, packs, shown.item_id, NOW)
    assert told.explained is not None
    assert [finding.did for finding in told.explained.explanation.findings] == ["the float is the pole’s side."]


def test_what_was_answered_is_shown_as_it_was_when_the_question_has_changed(uow: UnitOfWork, cast: Cast) -> None:
    own = released(uow, cast)
    packs = asked_by(uow, cast.alice)
    drill = start_drill(uow, cast.alice, packs, DrillWish(families=(family_id(own),), length=1), 7, NOW)
    item_id = question(uow, cast.alice, packs, drill, NOW).item_id
    answer(uow, cast.alice, packs, item_id, Sent({"choice": ["0"]}), NOW)
    fewer = read_body(with_words(wrong=[wrong("the card with its marks"), wrong("the magnets")]), library(), "en")
    rewrite_own(uow, cast.ingrid, own, newest(uow, cast.ingrid, own), fewer, NOW)
    release(uow, cast.selma, library(), own, newest(uow, cast.selma, own), NOW)
    told = verdict(uow, cast.alice, asked_by(uow, cast.alice), item_id, NOW)
    assert told.explained is None
    assert "the compass card" in str(told.shown)


def test_who_is_alone_releases_what_they_wrote(uow: UnitOfWork, cast: Cast) -> None:
    own = write_own(uow, cast.dora, body(), NOW)
    assert get_own(uow, cast.dora, library(), own).alone
    release(uow, cast.dora, library(), own, newest(uow, cast.dora, own), NOW)
    assert family_id(own) in asked_by(uow, cast.charlie).families


def test_another_school_sees_nothing_of_it(uow: UnitOfWork, cast: Cast) -> None:
    own = released(uow, cast)
    for stranger in (cast.alice, replace(cast.ingrid, school_id=UUID(int=7))):
        with pytest.raises(NotFound):
            get_own(uow, stranger, library(), own)
    assert asked_by(uow, replace(cast.alice, school_id=UUID(int=7))) is library()


def test_a_change_is_a_new_version_and_the_old_one_is_asked_until_it_is_released(uow: UnitOfWork, cast: Cast) -> None:
    own = released(uow, cast)
    known = newest(uow, cast.ingrid, own)
    rewrite_own(uow, cast.ingrid, own, known, body(grade="hard"), NOW)
    assert asked_by(uow, cast.alice).family(family_id(own)).version == 1
    release(uow, cast.selma, library(), own, newest(uow, cast.selma, own), NOW)
    now_asked = asked_by(uow, cast.alice).family(family_id(own))
    assert (now_asked.version, now_asked.grade) == (2, "hard")
    assert [each.version for each in get_own(uow, cast.ingrid, library(), own).versions] == [2, 1]


def test_nobody_changes_or_releases_what_they_have_not_read(uow: UnitOfWork, cast: Cast) -> None:
    own = write_own(uow, cast.ingrid, body(), NOW)
    read = newest(uow, cast.selma, own)
    rewrite_own(uow, cast.ingrid, own, read, body(grade="hard"), NOW)
    with pytest.raises(Conflict):
        release(uow, cast.selma, library(), own, read, NOW)
    with pytest.raises(Conflict):
        rewrite_own(uow, cast.selma, own, read, body(), NOW)
    with pytest.raises(Conflict):
        give_back(uow, cast.selma, own, read, "Source?", NOW)


def test_of_two_who_begin_the_next_version_at_once_one_is_told(uow: UnitOfWork, cast: Cast) -> None:
    own = released(uow, cast)
    first = get_own(uow, cast.ingrid, library(), own).newest
    next_one = replace(first, version=2, released_at=None, released_by=None)
    with uow.writer() as connection:
        own_questions.add_version(connection, next_one)
    with pytest.raises(own_questions.OwnChanged), uow.writer() as connection:
        own_questions.add_version(connection, next_one)
    assert [each.version for each in get_own(uow, cast.ingrid, library(), own).versions] == [2, 1]


def test_given_back_with_a_reason_and_written_again(uow: UnitOfWork, cast: Cast) -> None:
    own = write_own(uow, cast.ingrid, body(), NOW)
    with pytest.raises(Invalid):
        give_back(uow, cast.selma, own, newest(uow, cast.selma, own), "  ", NOW)
    give_back(uow, cast.selma, own, newest(uow, cast.selma, own), "Which source?", NOW)
    assert get_own(uow, cast.ingrid, library(), own).newest.note == "Which source?"
    rewrite_own(uow, cast.ingrid, own, newest(uow, cast.ingrid, own), body(), NOW)
    assert not get_own(uow, cast.ingrid, library(), own).newest.note


def test_retired_it_is_asked_no_more_and_may_come_back(uow: UnitOfWork, cast: Cast) -> None:
    own = released(uow, cast)
    set_retired(uow, cast.ingrid, own, NOW, retired=True)
    known = asked_by(uow, cast.alice)
    assert family_id(own) in known.families
    assert family_id(own) not in known.pack("principle").families
    assert family_id(own) not in offered(uow, cast.alice, known).families
    assert [row.retired for row in list_own(uow, cast.ingrid, library())] == [True]
    set_retired(uow, cast.ingrid, own, NOW, retired=False)
    assert family_id(own) in offered(uow, cast.alice, asked_by(uow, cast.alice)).families


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"wrong": [wrong("the compass card"), wrong("the compass card")]}, "read alike"),
        ({"question": "Which part does not stay with the aircraft?"}, "negative"),
        ({"wrong": [wrong("all of the above"), wrong("the float")]}, "all of the above"),
        ({"key": "the lubber line, which is painted on the bowl of the compass"}, "length alone"),
    ],
)
def test_what_the_checks_have_against_it_keeps_it_from_being_asked(
    uow: UnitOfWork, cast: Cast, changes: dict[str, Any], said: str
) -> None:
    own = write_own(uow, cast.ingrid, read_body(with_words(**changes), library(), "en"), NOW)
    found = [each.text for each in get_own(uow, cast.selma, library(), own).findings if each.serious]
    assert any(said in text for text in found), found
    with pytest.raises(Conflict):
        release(uow, cast.selma, library(), own, newest(uow, cast.selma, own), NOW)


def test_a_sound_question_has_nothing_against_it(uow: UnitOfWork, cast: Cast) -> None:
    own = write_own(uow, cast.ingrid, body(), NOW)
    assert get_own(uow, cast.selma, library(), own).findings == ()


@pytest.mark.parametrize(
    ("data", "field"),
    [
        (with_words(title=" "), "en.title"),
        (with_words(key="x" * 201), "en.key"),
        (with_words(situation="You read {{ heading_deg }}."), "en.situation"),
        (with_words(wrong=[wrong("one")]), "en.wrong"),
        (with_words(wrong=[wrong("one"), wrong("two"), wrong("three") | {"did": ""}]), "en.wrong.2.did"),
        (with_words(why=[]), "en.why"),
        (written(topic="weather"), "topic"),
        (written(source=""), "source"),
        (written(en=None), "en"),
        (written(fr=with_words(why=["a", "b"])["en"]), "en"),
        (written(grade="fiendish"), "grade"),
    ],
)
def test_what_cannot_be_kept_is_named(data: dict[str, Any], field: str) -> None:
    for language in ("en", "fr"):
        with pytest.raises(Unreadable) as refusal:
            read_body(data, library(), language)
        assert list(refusal.value.problems) == [field]


def test_a_further_version_takes_the_place_of_the_one_that_is_asked() -> None:
    first, second = (body(grade=grade).as_family("own-1", number) for number, grade in enumerate(("easy", "hard"), 1))
    twice = with_families(with_families(library(), [first]), [second])
    assert twice.pack("principle").families == (*library().pack("principle").families, "own-1")
    assert twice.family("own-1").grade == "hard"


@pytest.mark.parametrize("count", [2, 3, 4])
def test_any_accepted_number_of_wrong_answers_is_fair(uow: UnitOfWork, cast: Cast, count: int) -> None:
    several = [wrong(f"the compass card {number}") for number in range(count)]
    own = write_own(uow, cast.ingrid, read_body(with_words(wrong=several), library(), "en"), NOW)
    assert get_own(uow, cast.selma, library(), own).findings == ()


def test_one_language_is_read_in_the_other() -> None:
    family = body().as_family("own-1", 1)
    assert family.title.of("fr") == family.title.of("en") == "Where the lubber line stands"
    french = written()["en"] | {"title": "Où se trouve la ligne de foi"}
    assert read_body(written(fr=french), library(), "en").as_family("own-1", 1).title.of("fr") == french["title"]


def test_a_question_of_a_topic_that_is_no_more_is_left_out(uow: UnitOfWork, cast: Cast) -> None:
    own = released(uow, cast)
    fewer = replace(library(), packs={name: pack for name, pack in library().packs.items() if name != "principle"})
    of_school = OwnLibraries().library_of(uow, replace(cast.alice, own_revision=1), fewer)
    assert family_id(own) not in of_school.families
    assert get_own(uow, cast.ingrid, fewer, own).body.topic == "principle"
