"""Versions of a sheet: other numbers or another order, each with its own key."""

from uuid import UUID

import pytest

from app.questions.draw import draw
from app.services.errors import Invalid, NotFound
from app.services.set_wishes import SetWish
from app.services.sheets import Sheet, SheetWish, get_sheet
from app.services.topic_sets import SetSettings, get_set, make_set, swap_item
from app.services.variants import vary
from app.storage.unit_of_work import UnitOfWork
from tests.questions.engine import home, library
from tests.services.people import NOW, Cast, cast_of


@pytest.fixture
def cast(uow: UnitOfWork) -> Cast:
    return cast_of(uow)


def make(uow: UnitOfWork, cast: Cast, wish: SetWish) -> UUID:
    return make_set(uow, cast.ingrid, library(), (wish, SetSettings("Sheet")), 11, NOW)


def sheet_of(uow: UnitOfWork, cast: Cast, set_id: UUID, differ: str = "numbers") -> Sheet:
    return get_sheet(uow, cast.ingrid, library(), set_id, SheetWish(4, differ, "en"))


def test_neighbours_share_no_key(uow: UnitOfWork, cast: Cast) -> None:
    wish = SetWish(families=("true-to-compass", "compass-to-true"), forms=("typed",), count=4)
    sheet = sheet_of(uow, cast, make(uow, cast, wish))
    for place in range(4):
        keys = [version.items[place].key for version in sheet.versions]
        stems = {version.items[place].worded.stem for version in sheet.versions}
        assert len(set(keys)) == len(stems) == 4
    assert sheet == sheet_of(uow, cast, sheet.set_id), "printed again it is the same"


@pytest.mark.parametrize("seed", range(8))
def test_key_is_another_one_even_where_there_are_two(seed: int) -> None:
    item = draw(library(), "hi-set-value", seed, home(), "choice")
    varied = vary(library(), item, SetWish(), "B", (item,))
    assert varied.key != item.key
    assert vary(library(), item, SetWish(), "B", (item,)) == varied


def test_version_a_is_the_set_and_order_only_moves(uow: UnitOfWork, cast: Cast) -> None:
    set_id = make(uow, cast, SetWish(topics=("datum",)))
    sheet = sheet_of(uow, cast, set_id, "order")
    stems = [[item.worded.stem for item in version.items] for version in sheet.versions]
    assert all(sorted(each) == sorted(stems[0]) for each in stems)
    assert len({tuple(each) for each in stems}) == 4
    assert stems[0] == [item.worded.stem for item in sheet_of(uow, cast, set_id).versions[0].items]


def test_code_names_the_set_and_its_state(uow: UnitOfWork, cast: Cast) -> None:
    set_id = make(uow, cast, SetWish(topics=("datum",)))
    before = sheet_of(uow, cast, set_id).code
    assert sheet_of(uow, cast, set_id, "order").code == before
    swap_item(uow, cast.ingrid, library(), (set_id, 1, 4), 99, NOW)
    assert sheet_of(uow, cast, set_id).code != before
    assert get_set(uow, cast.ingrid, library(), set_id).row.version == 2


def test_refusals(uow: UnitOfWork, cast: Cast) -> None:
    set_id = make(uow, cast, SetWish(topics=("datum",)))
    for wish in (SheetWish(5, "numbers", "en"), SheetWish(1, "colour", "en")):
        with pytest.raises(Invalid):
            get_sheet(uow, cast.ingrid, library(), set_id, wish)
    with pytest.raises(NotFound):
        get_sheet(uow, cast.dora, library(), set_id, SheetWish(1, "numbers", "en"))
