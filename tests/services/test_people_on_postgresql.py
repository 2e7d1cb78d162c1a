"""People on PostgreSQL: tries at the same time count together, an invitation is used once, drills come along."""

from concurrent.futures import ThreadPoolExecutor

from app.services.drills import DrillWish, start_drill
from app.services.entrance import Caller
from app.services.errors import Conflict, TooOften
from app.services.invitations import Newcomers, Welcome, accept, invite
from app.services.practice import answer, question
from app.services.roster import RosterWish, add_students
from app.services.taking_along import take_along
from app.services.throttle import MOST, address_subject, count_try
from app.storage.engine import StorageSettings, create_engine_for
from app.storage.migrate import upgrade
from app.storage.queries import audit, drills
from app.storage.unit_of_work import UnitOfWork
from tests.fakes import PlainHasher
from tests.postgresql import needs_postgresql, new_database
from tests.questions.engine import library
from tests.services.people import CONVERSIONS, NOW, Cast, cast_of, drawn, make_class, right, visitor

HERE = Caller("2001:db8::1", "a tablet", "en")
WHO = Newcomers("Irene Aas", "a lubber line of my own")


@needs_postgresql
def test_people_come_in() -> None:
    with new_database() as url:
        upgrade(url)
        engine = create_engine_for(url, StorageSettings(threads=8))
        uow = UnitOfWork(engine)
        cast = cast_of(uow)
        tries_at_once(uow)
        one_account_an_invitation(uow, cast)
        class_id = make_class(uow, "Autumn", cast.ingrid)
        assert len(add_students(uow, cast.ingrid, class_id, RosterWish("Zoé\nBjørn"), NOW)) == 2
        drills_come_along(uow, cast)
        with uow.reader() as connection:
            noted = [entry.action for entry in audit.list_entries(connection, cast.alice.school_id, 9)]
        assert sorted(noted) == ["accounts-made", "invitation-used", "invited"]
        engine.dispose()


def tries_at_once(uow: UnitOfWork) -> None:
    def attempt(_: int) -> bool:
        try:
            count_try(uow, (address_subject(HERE.address),), "en", NOW)
        except TooOften:
            return False
        return True

    with ThreadPoolExecutor(8) as threads:
        passed = list(threads.map(attempt, range(MOST["address"] + 20)))
    assert sum(passed) == MOST["address"]


def one_account_an_invitation(uow: UnitOfWork, cast: Cast) -> None:
    token = invite(uow, cast.selma, "instructor", "Irene", NOW)

    def use(_: int) -> Welcome | None:
        try:
            return accept(uow, PlainHasher(), token, WHO, HERE, NOW)
        except Conflict:
            return None

    with ThreadPoolExecutor(8) as threads:
        made = [each for each in threads.map(use, range(8)) if each]
    assert [each.login for each in made] == ["irene.aas"]


def drills_come_along(uow: UnitOfWork, cast: Cast) -> None:
    guest = visitor(uow)
    drill_id = start_drill(uow, guest, library(), DrillWish(families=CONVERSIONS[:1], length=1), 5, NOW)
    item_id = question(uow, guest, library(), drill_id, NOW).item_id
    with uow.reader() as connection:
        place = drills.list_places(connection, guest.school_id, drill_id)[0]
    answer(uow, guest, library(), item_id, right(drawn(place.family, place.seed, place.form, guest)), NOW)
    assert take_along(uow, guest, cast.alice, NOW) == 1
