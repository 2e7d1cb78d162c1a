"""A demonstration: one invented school with six weeks of simulated practice, made by the real use cases.

Nothing of it is anybody's: people, places and answers are made up. It lives in a database of its own.
"""

from collections.abc import Callable, Sequence
from datetime import datetime, timedelta
from random import Random
from typing import NamedTuple
from uuid import UUID

from app.grader.made_up import fields_of, wrong_value
from app.packs.library import Library
from app.packs.spec import Language
from app.services.accounts import NewPerson, add_account
from app.services.actor import Actor, Role
from app.services.assignments import AssignWish, assign_set
from app.services.demonstration_records import Records, Taught
from app.services.drills import DrillWish, get_drill, start_drill
from app.services.errors import Conflict
from app.services.items import find_item
from app.services.logins import plain_login
from app.services.passwords import Hasher
from app.services.practice import Sent, answer
from app.services.quality_count import count_school
from app.services.set_wishes import SetWish
from app.services.sign_ins import find_sign_in, open_sign_in
from app.services.sittings import start_sitting
from app.services.topic_sets import SetSettings, make_set
from app.storage.ids import new_id
from app.storage.models import School, SchoolClass
from app.storage.queries import classes, schools
from app.storage.queries.sign_ins import see_person
from app.storage.unit_of_work import UnitOfWork

CODE = "demo"
PASSWORD = "a demonstration only"  # noqa: S105 - of invented people in a database of their own
WEEKS = 6
SESSIONS_A_WEEK = 2
ITEMS = 6
SET_ITEMS = 8
SEED = 20260901
SLOW_GAIN = 0.03  # who gains no faster keeps the misconceptions to the end
CONVERSIONS = ("compass-to-true", "true-to-compass", "find-variation-deviation", "runway-designator")


class Pupil(NamedTuple):
    """An invented student: chance of being right at first and its gain a week, and the misconceptions held."""

    name: str
    right: float
    gain: float
    held: tuple[str, ...] = ()
    language: Language = "en"


SCHOOL = ("Kestrel Ridge Air School", "America/Toronto")
ADMINISTRATOR = "Rosalind Thwaite"
INSTRUCTORS = ("Idris Vance", "Margaux Bellefeuille")
CLASSES: dict[str, tuple[Pupil, ...]] = {
    "Tuesday evening": (
        Pupil("Anders Holt", 0.75, 0.03),
        Pupil("Bénédicte Lavoie", 0.5, 0.05, ("forward-sign", "v-sign"), "fr"),
        Pupil("Callum Reyes", 0.45, 0.02, ("forward-sign",)),
        Pupil("Dilnoza Karim", 0.6, 0.06),
        Pupil("Esther Quill", 0.35, 0.01, ("forward-sign", "both-signs")),
        Pupil("Farid Osei", 0.55, 0.04, ("both-signs",)),
        Pupil("Greta Lindqvist", 0.85, 0.01),
    ),
    "Weekend": (
        Pupil("Hugo Tremblay", 0.5, 0.06, (), "fr"),
        Pupil("Imani Brooks", 0.7, 0.04),
        Pupil("Jonas Petrov", 0.4, 0.07, ("v-sign",)),
        Pupil("Keiko Marsh", 0.65, 0.03),
        Pupil("Lucía Ferrante", 0.55, 0.05),
    ),
}


def make_demonstration(
    uow: UnitOfWork, library: Library, hasher: Hasher, now: datetime, tell: Callable[[str], None]
) -> None:
    """Make the school and let six weeks go by, the last of them ending now; `tell` hears of each week."""
    _Maker(uow, library, hasher.hash(PASSWORD), now, Random(SEED)).make(tell)


class _Maker(NamedTuple):
    uow: UnitOfWork
    library: Library
    hashed: str
    now: datetime
    rng: Random

    def make(self, tell: Callable[[str], None]) -> None:
        start = (self.now - timedelta(weeks=WEEKS)).replace(hour=0, minute=0, second=0, microsecond=0)
        school_id = new_id(start)
        row = School(school_id, CODE, SCHOOL[0], "en", SCHOOL[1], start, demonstration=True)
        with self.uow.writer() as connection:
            schools.add_school(connection, row)
        administrator = self._person(school_id, Role.SCHOOL, ADMINISTRATOR, start)
        teachers = [self._person(school_id, Role.INSTRUCTOR, name, start) for name in INSTRUCTORS]
        rolls = [
            (teacher, self._class(teacher, name, pupils, start))
            for teacher, (name, pupils) in zip(teachers, CLASSES.items(), strict=True)
        ]
        teacher, (class_id, pupils) = rolls[0]
        taught = Taught(teacher, administrator, class_id, {pupil.name: actor for pupil, actor in pupils})
        records = Records(self.uow, self.library, taught, self.rng, self.now)
        for week in range(WEEKS):
            tell(f"week {week + 1} of {WEEKS}")
            monday = start + timedelta(weeks=week)
            for teacher, (class_id, pupils) in rolls:
                self._practise(pupils, week, monday)
                if week in {2, 4}:
                    self._set(teacher, class_id, pupils, week, monday)
            if week == WEEKS - 2:
                self._sit_again(records, rolls[0][1][1], week, monday + timedelta(days=5))
        tell("records")
        records.keep()
        count_school(self.uow, self.library, school_id, self.now)

    def _person(self, school_id: UUID, role: Role, name: str, when: datetime, language: Language = "en") -> Actor:
        new = NewPerson(role, name, plain_login(name), language, self.hashed)
        with self.uow.writer() as connection:
            person = add_account(connection, school_id, new, when)
        actor = find_sign_in(self.uow, open_sign_in(self.uow, school_id, person.id, "demonstration", when), when)
        if actor is None:
            raise RuntimeError(f"{name} cannot be signed in")
        return actor

    def _class(
        self, teacher: Actor, name: str, pupils: Sequence[Pupil], when: datetime
    ) -> tuple[UUID, list[tuple[Pupil, Actor]]]:
        class_id = new_id(when)
        actors = [
            (each, self._person(teacher.school_id, Role.STUDENT, each.name, when, each.language)) for each in pupils
        ]
        with self.uow.writer() as connection:
            classes.add_class(connection, SchoolClass(teacher.school_id, class_id, name, when))
            classes.add_instructor(connection, teacher.school_id, class_id, teacher.own_person, when)
            for _, actor in actors:
                classes.add_student(connection, teacher.school_id, class_id, actor.own_person, when)
        return class_id, actors

    def _practise(self, pupils: Sequence[tuple[Pupil, Actor]], week: int, monday: datetime) -> None:
        topics = list(self.library.packs)
        for number, (pupil, actor) in enumerate(pupils):
            for session in range(SESSIONS_A_WEEK):
                if self.rng.random() < 0.15:  # somebody is always away
                    continue
                topic = topics[(week + number) % len(topics)]
                when = monday + timedelta(days=1 + 3 * session, hours=20 + number % 4)
                seed = int(self.rng.random() * 2**31)
                wish = DrillWish(families=CONVERSIONS, length=ITEMS) if session == 0 else DrillWish(topic, length=ITEMS)
                drill_id = start_drill(self.uow, actor, self.library, wish, seed, when)
                self._answer_all(pupil, actor, drill_id, week, when)

    def _set(
        self, teacher: Actor, class_id: UUID, pupils: Sequence[tuple[Pupil, Actor]], week: int, monday: datetime
    ) -> None:
        """Let the class sit a set: most in time, one late, one not at all."""
        topic = "datum" if week == 2 else "dynamic"
        title = self.library.packs[topic].title.of("en")
        wanted = (SetWish(topics=(topic,), count=SET_ITEMS), SetSettings(title))
        set_id = make_set(self.uow, teacher, self.library, wanted, int(self.rng.random() * 2**31), monday)
        due = (monday + timedelta(days=5)).date().isoformat()
        assign = AssignWish(classes=(class_id,), due_day=due, due_time="20:00", time_zone=SCHOOL[1])
        (assignment,) = assign_set(self.uow, teacher, set_id, assign, monday)
        for number, (pupil, actor) in enumerate(pupils[:-1]):
            when = monday + timedelta(days=6 if number == 1 else 3, hours=22)
            try:
                drill_id = start_sitting(self.uow, actor, self.library, assignment, when)
            except Conflict:
                continue
            self._answer_all(pupil, actor, drill_id, week, when)

    def _sit_again(self, records: Records, pupils: Sequence[tuple[Pupil, Actor]], week: int, when: datetime) -> None:
        """Let those behind two weak spots sit the sets made from them, the next day."""
        by_name = {pupil.name: (pupil, actor) for pupil, actor in pupils}
        for assignment, names in records.recheck(when):
            for pupil, actor in (by_name[name] for name in names):
                sat_at = when + timedelta(days=1)
                drill_id = start_sitting(self.uow, actor, self.library, assignment, sat_at)
                self._answer_all(pupil, actor, drill_id, week, sat_at)

    def _answer_all(self, pupil: Pupil, actor: Actor, drill_id: UUID, week: int, when: datetime) -> None:
        drill, places = get_drill(self.uow, actor, drill_id)
        for place in places:
            when += timedelta(seconds=20 + 60 * self.rng.random())
            if when >= self.now:
                return
            item = find_item(self.library, place, drill.conventions)
            if item is None:
                continue
            known = {each.id for each in self.library.family(item.family).misconceptions}
            mending = week >= WEEKS - 2 and pupil.gain > SLOW_GAIN
            held = () if mending else tuple(each for each in pupil.held if each in known)
            right = self.rng.random() < (0.15 if held else min(pupil.right + pupil.gain * week, 0.95))
            value = item.key if right else wrong_value(self.library, item, self.rng, held)
            sent = Sent(fields_of(self.library, item, value), 15_000 + int(45_000 * self.rng.random()))
            answer(self.uow, actor, self.library, place.id, sent, when)
        with self.uow.writer() as connection:
            see_person(connection, actor.school_id, actor.own_person, when)
