"""Topic sets as instructors put them together; the packs are the real ones."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import timedelta
from typing import Any
from uuid import UUID

import pytest

from app.services.actor import Actor
from app.services.errors import Conflict, Invalid, NotAllowed, NotFound
from app.services.items import stamp_of
from app.services.set_wishes import SetWish
from app.services.topic_sets import (
    SetSettings,
    archive_set,
    change_settings,
    copy_set,
    get_set,
    list_sets,
    lock_set,
    make_set,
    settings_of,
    swap_item,
)
from app.storage.queries.audit import list_entries
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import library
from tests.services.people import NOW, Cast, cast_of, visitor

LATER = NOW + timedelta(days=7)
PLAIN = SetSettings("Variation")
VARIATION = SetWish(topics=("datum",))


@pytest.fixture
def cast(uow: UnitOfWork) -> Cast:
    return cast_of(uow)


def made(uow: UnitOfWork, actor: Actor, wish: SetWish = VARIATION, settings: SetSettings = PLAIN) -> UUID:
    return make_set(uow, actor, library(), (wish, settings), 7, NOW)


def stamps(uow: UnitOfWork, actor: Actor, set_id: UUID) -> Sequence[str]:
    return [stamp_of(item) for _, item in get_set(uow, actor, library(), set_id).places if item]


def test_set_reopened_next_week_is_identical(uow: UnitOfWork, cast: Cast) -> None:
    set_id = made(uow, cast.ingrid)
    first = stamps(uow, cast.ingrid, set_id)
    moved = replace(cast.ingrid, conventions=replace(cast.ingrid.conventions, variation_deg=21.0), language="fr")
    assert len(set(first)) == 10
    assert stamps(uow, moved, set_id) == first
    assert {item.pack for _, item in get_set(uow, cast.ingrid, library(), set_id).places if item} == {"datum"}


def test_swapping_item_four_leaves_the_rest(uow: UnitOfWork, cast: Cast) -> None:
    set_id = made(uow, cast.ingrid)
    before = stamps(uow, cast.ingrid, set_id)
    swap_item(uow, cast.ingrid, library(), (set_id, 1, 4), 99, NOW)
    after = stamps(uow, cast.ingrid, set_id)
    assert [i for i, (a, b) in enumerate(zip(before, after, strict=True), 1) if a != b] == [4]
    assert after[3] not in before


def test_item_that_the_packs_no_longer_draw_can_be_swapped(uow: UnitOfWork, cast: Cast) -> None:
    set_id = made(uow, cast.ingrid)
    lost = get_set(uow, cast.ingrid, library(), set_id).places[3][0].family
    families = {name: family for name, family in library().families.items() if name != lost}
    packs = {
        name: pack.model_copy(update={"families": tuple(each for each in pack.families if each != lost)})
        for name, pack in library().packs.items()
    }
    fewer = replace(library(), families=families, packs=packs)
    assert get_set(uow, cast.ingrid, fewer, set_id).places[3][1] is None
    swap_item(uow, cast.ingrid, fewer, (set_id, 1, 4), 99, NOW)
    assert all(item is not None for _, item in get_set(uow, cast.ingrid, fewer, set_id).places)


def test_swap_says_when_there_is_nothing_else(uow: UnitOfWork, cast: Cast) -> None:
    set_id = made(uow, cast.ingrid, SetWish(families=("why-deviation-changes",), count=1))
    with pytest.raises(Conflict, match="no other question for place 1"):
        swap_item(uow, cast.ingrid, library(), (set_id, 1, 1), 99, NOW)
    with pytest.raises(NotFound):
        swap_item(uow, cast.ingrid, library(), (set_id, 1, 2), 99, NOW)


def test_misconception_is_in_the_wrong_answers_of_every_item(uow: UnitOfWork, cast: Cast) -> None:
    wish = SetWish(misconception="true-to-compass/v-sign", count=8)
    view = get_set(uow, cast.ingrid, library(), made(uow, cast.ingrid, wish))
    for _, item in view.places:
        assert item is not None
        if item.form == "choice":
            assert any("v-sign" in option.misconceptions for option in item.options)
        else:
            assert "v-sign" in item.solution.wrong
    assert "true-to-compass" in {row.family for row, _ in view.places}


def test_misconception_that_few_draws_offer_is_in_all_of_them(uow: UnitOfWork, cast: Cast) -> None:
    """About one draw in five of this family offers this wrong value."""
    wish = SetWish(misconception="cruising-altitude-datum/heading-used", forms=("choice",), count=6)
    for row, item in get_set(uow, cast.ingrid, library(), made(uow, cast.ingrid, wish)).places:
        assert item is not None, row
        assert "heading-used" in {name for option in item.options for name in option.misconceptions}


def test_fixed_list_is_kept_in_order(uow: UnitOfWork, cast: Cast) -> None:
    fixed = ("compass-to-true", "true-to-compass", "compass-to-true")
    view = get_set(uow, cast.ingrid, library(), made(uow, cast.ingrid, SetWish(fixed=fixed)))
    assert tuple(row.family for row, _ in view.places) == fixed
    assert len({row.seed for row, _ in view.places}) == 3


def test_difficulty_and_answer_form_are_kept(uow: UnitOfWork, cast: Cast) -> None:
    wish = SetWish(grades=("medium",), forms=("typed",), count=12)
    view = get_set(uow, cast.ingrid, library(), made(uow, cast.ingrid, wish))
    assert {row.form for row, _ in view.places} == {"typed"}
    assert {library().family(row.family).grade for row, _ in view.places} == {"medium"}


def test_syllabus_line_names_the_families(uow: UnitOfWork, cast: Cast) -> None:
    line = "TP 12880 Definitions 8"
    view = get_set(uow, cast.ingrid, library(), made(uow, cast.ingrid, SetWish(syllabus=line, count=2)))
    for row, _ in view.places:
        assert any(line in lines for lines in library().family(row.family).syllabus.values())


@pytest.mark.parametrize(
    ("wish", "field", "words"),
    [
        (SetWish(count=0), "count", "0 questions; it has from 1 to 50"),
        (SetWish(count=1000), "count", "1000 questions"),
        (SetWish(families=("tea-leaves",)), "families", "no kind of question “tea-leaves”"),
        (SetWish(fixed=("true-to-compass", "tea-leaves")), "fixed", "no kind of question “tea-leaves”"),
        (SetWish(topics=("astrology",)), "topics", "no topic “astrology”"),
        (SetWish(syllabus="TP 0"), "syllabus", "“TP 0”"),
        (SetWish(misconception="true-to-compass/none"), "misconception", "true-to-compass/none"),
        (SetWish(misconception="nonsense"), "misconception", "nonsense"),
        (SetWish(grades=("fiendish",)), "grades", "easy, medium, hard"),
        (SetWish(forms=("sung",)), "forms", "choice, typed"),
        (SetWish(families=("true-to-compass",), forms=("order",)), "count", "No question fits all of this"),
        (SetWish(families=("why-deviation-changes",), count=5), "count", "Only 1 different questions"),
    ],
)
def test_impossible_wish_is_refused_and_nothing_is_kept(
    uow: UnitOfWork, cast: Cast, wish: SetWish, field: str, words: str
) -> None:
    with pytest.raises(Invalid) as caught:
        made(uow, cast.ingrid, wish)
    assert (caught.value.field, words in caught.value.message) == (field, True), caught.value.message
    assert list_sets(uow, cast.ingrid) == ()


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"title": "  "}, "title"),
        ({"title": "x" * 121}, "title"),
        ({"note": "x" * 2001}, "note"),
        ({"numbers": "few"}, "numbers"),
        ({"reveal": "never"}, "reveal"),
        ({"language": "de"}, "language"),
        ({"minutes": 0}, "minutes"),
        ({"pass_percent": 101}, "pass_percent"),
        ({"attempts_allowed": 0}, "attempts_allowed"),
    ],
)
def test_settings_are_checked(uow: UnitOfWork, cast: Cast, change: dict[str, object], field: str) -> None:
    with pytest.raises(Invalid) as caught:
        made(uow, cast.ingrid, settings=replace(PLAIN, **change))  # type: ignore[arg-type] # wrong on purpose
    assert caught.value.field == field


def test_two_people_editing_one_set(uow: UnitOfWork, cast: Cast) -> None:
    set_id = made(uow, cast.ingrid)
    change_settings(uow, cast.selma, set_id, 1, replace(PLAIN, title="Selma's"), NOW)
    attempts: tuple[Callable[[], Any], ...] = (
        lambda: change_settings(uow, cast.ingrid, set_id, 1, replace(PLAIN, title="Ingrid's"), NOW),
        lambda: swap_item(uow, cast.ingrid, library(), (set_id, 1, 4), 99, NOW),
        lambda: lock_set(uow, cast.ingrid, set_id, 1, NOW),
        lambda: archive_set(uow, cast.ingrid, set_id, 1, NOW),
    )
    for late in attempts:
        with pytest.raises(Conflict, match="changed “Selma's” since you opened it"):
            late()
    assert get_set(uow, cast.ingrid, library(), set_id).row.title == "Selma's"


def test_pass_marks_old_and_new_are_kept(uow: UnitOfWork, cast: Cast) -> None:
    set_id = made(uow, cast.ingrid)
    change_settings(uow, cast.selma, set_id, 1, replace(PLAIN, pass_percent=80), LATER)
    change_settings(uow, cast.selma, set_id, 2, replace(PLAIN, pass_percent=80, note="Bring a plotter"), LATER)
    marks = get_set(uow, cast.ingrid, library(), set_id).pass_marks
    assert [(m.percent, m.set_at, m.set_by) for m in marks] == [(70, NOW, "Ingrid"), (80, LATER, "Selma")]
    with uow.reader() as connection:
        noted = [each for each in list_entries(connection, cast.selma.school_id, 20) if "pass" in each.action]
    assert [each.details for each in noted] == [{"before": 70, "after": 80}]


def test_locked_items_stay(uow: UnitOfWork, cast: Cast) -> None:
    set_id = made(uow, cast.ingrid)
    lock_set(uow, cast.ingrid, set_id, 1, NOW)
    before = stamps(uow, cast.ingrid, set_id)
    with pytest.raises(Conflict, match="locked"):
        swap_item(uow, cast.ingrid, library(), (set_id, 2, 4), 99, NOW)
    with pytest.raises(Conflict, match="locked"):
        change_settings(uow, cast.ingrid, set_id, 2, replace(PLAIN, numbers="own"), NOW)
    change_settings(uow, cast.ingrid, set_id, 2, replace(PLAIN, title="Renamed"), NOW)
    assert stamps(uow, cast.ingrid, set_id) == before


def test_copy_has_the_same_items_and_its_own_life(uow: UnitOfWork, cast: Cast) -> None:
    set_id = made(uow, cast.ingrid)
    lock_set(uow, cast.ingrid, set_id, 1, NOW)
    copy_id = copy_set(uow, cast.selma, set_id, LATER)
    assert stamps(uow, cast.selma, copy_id) == stamps(uow, cast.ingrid, set_id)
    swap_item(uow, cast.selma, library(), (copy_id, 1, 1), 5, LATER)
    assert stamps(uow, cast.selma, copy_id)[0] != stamps(uow, cast.ingrid, set_id)[0]
    row = get_set(uow, cast.selma, library(), copy_id).row
    assert (row.title, row.made_by, row.locked_at) == ("Variation (2)", cast.selma.own_person, None)
    assert settings_of(row) == replace(PLAIN, title="Variation (2)")


def test_archived_set_leaves_the_list_and_comes_back(uow: UnitOfWork, cast: Cast) -> None:
    set_id = made(uow, cast.ingrid)
    archive_set(uow, cast.ingrid, set_id, 1, NOW)
    assert list_sets(uow, cast.ingrid) == ()
    assert [row.id for row in list_sets(uow, cast.ingrid, archived=True)] == [set_id]
    archive_set(uow, cast.ingrid, set_id, 2, None)
    listed = list_sets(uow, cast.selma)
    assert [(row.id, row.made_by, row.items, row.assigned) for row in listed] == [(set_id, "Ingrid", 10, 0)]


def test_sets_are_for_those_who_teach_in_this_school(uow: UnitOfWork, cast: Cast) -> None:
    set_id = made(uow, cast.ingrid)
    for stranger in (cast.alice, cast.charlie, cast.dora, visitor(uow)):
        with pytest.raises(NotFound):
            get_set(uow, stranger, library(), set_id)
        with pytest.raises(NotFound):
            change_settings(uow, stranger, set_id, 1, PLAIN, NOW)
        with pytest.raises(NotFound):
            copy_set(uow, stranger, set_id, NOW)
        with pytest.raises(NotFound):
            swap_item(uow, stranger, library(), (set_id, 1, 1), 3, NOW)
    with pytest.raises(NotAllowed):
        made(uow, cast.alice)
    assert list_sets(uow, cast.dora) == ()
