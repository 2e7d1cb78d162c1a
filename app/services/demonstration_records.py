"""What the demonstration's instructors keep: rehearsals, the training record with notes, reports, and re-checks.

All of it goes through the use cases that people use, at moments before now.
"""

from datetime import datetime, timedelta
from random import Random
from typing import NamedTuple
from uuid import UUID

from app.grader.made_up import fields_of, wrong_value
from app.packs.library import Library
from app.services.actor import Actor
from app.services.assignments import AssignWish, assign_set
from app.services.drills import get_drill
from app.services.items import find_item
from app.services.practice import Sent
from app.services.rechecks import Spot, make_recheck, spot_view
from app.services.rehearsal_answers import hand_in, keep_answer
from app.services.rehearsals import get_rehearsal, start_rehearsal
from app.services.report_desk import list_desk, settle
from app.services.reports import report_problem
from app.services.training import EntryWish, add_entry, recommend, student_page
from app.storage.unit_of_work import UnitOfWork

PROFILE = "ca-private"
# Who sat a rehearsal how many days ago, and the chance of being right in it.
REHEARSALS = (("Greta Lindqvist", 9, 0.97), ("Greta Lindqvist", 3, 0.97), ("Esther Quill", 5, 0.45))
RECOMMENDED = "Anders Holt"
REASON = "Sat two full rehearsals on paper in the classroom; the marked sheets are in the school's file."
# The weak spots that sets are made from: a misconception, and a kind of question with everybody behind it.
SPOTS = (Spot("compass-to-true", "forward-sign"), Spot("find-variation-deviation"))
# Whose record, how many days ago, what kind, what is written, and how many minutes were taught.
ENTRIES = (
    ("Greta Lindqvist", 20, "taught", "Magnets in the airframe, the compass swing, reading the card.", "90"),
    ("Greta Lindqvist", 2, "reviewed", "Went through the last rehearsal together.", ""),
    ("Esther Quill", 12, "taught", "Signs of variation and deviation, with ten worked conversions.", "40"),
    ("Esther Quill", 4, "note", "Knows the rule and applies it backwards under time. Next time: slowly, aloud.", ""),
    ("Callum Reyes", 6, "note", "Prefers drawing the two norths to the rhyme. Let him.", ""),
)
CORRECTION = ("Greta Lindqvist", 19, "taught", "Magnets in the airframe, the compass swing, reading the card.", "60")
REPORTS = (
    "The figure is hard to read on my telephone when it is held upright.",
    "I think the answer should be rounded to the nearest five degrees.",
)
ANSWER = "Thank you. Headings are rounded to one degree here; the question says so, and the tolerance allows for two."


class Taught(NamedTuple):
    """A class of the demonstration: its instructor, the school's administrator, and its students by name."""

    teacher: Actor
    administrator: Actor
    class_id: UUID
    students: dict[str, Actor]


class Records(NamedTuple):
    """Keeps the records of one class; `rng` is the demonstration's own."""

    uow: UnitOfWork
    library: Library
    of: Taught
    rng: Random
    now: datetime

    def keep(self) -> None:
        """Add rehearsals, entries, a recommendation and reports of the last weeks."""
        sat = [self._rehearse(self.of.students[name], days, right) for name, days, right in REHEARSALS]
        for entry in ENTRIES:
            self._enter(entry)
        self._correct()
        when = self.now - timedelta(days=1)
        person = self.of.students[RECOMMENDED].own_person
        recommend(self.uow, self.of.teacher, self.library, person, REASON, when)
        self._report(self.of.students[REHEARSALS[0][0]], sat[0])

    def recheck(self, monday: datetime) -> list[tuple[UUID, list[str]]]:
        """Make a set from each weak spot and assign it to those behind it; returns (assignment, names) of each."""
        made = []
        for number, spot in enumerate(SPOTS):
            view = spot_view(self.uow, self.of.teacher, self.library, self.of.class_id, spot, monday)
            if view.people:
                asked = (self.of.class_id, spot, f"Once more: {view.name}", 6)
                set_id = make_recheck(self.uow, self.of.teacher, self.library, asked, 700 + number, monday)
                wish = AssignWish(people=tuple(view.people), time_zone=self.of.teacher.time_zone)
                (assignment,) = assign_set(self.uow, self.of.teacher, set_id, wish, monday)
                made.append((assignment, list(view.people.values())))
        return made

    def _rehearse(self, student: Actor, days: int, right: float) -> UUID:
        """Sit a rehearsal to the end and hand it in; returns its id."""
        when = self.now - timedelta(days=days, hours=3)
        seed = int(self.rng.random() * 2**31)
        rehearsal_id = start_rehearsal(self.uow, student, self.library, (PROFILE, False), seed, when)
        view = get_rehearsal(self.uow, student, self.library, rehearsal_id, when)
        drill, places = get_drill(self.uow, student, view.drill_id)
        for place in places:
            item = find_item(self.library, place, drill.conventions)
            if item is not None:
                correct = self.rng.random() < right
                value = item.key if correct else wrong_value(self.library, item, self.rng, ())
                sent = Sent(fields_of(self.library, item, value))
                keep_answer(self.uow, student, self.library, (rehearsal_id, place.position), sent, when)
        hand_in(self.uow, student, self.library, rehearsal_id, when + timedelta(minutes=100))
        return rehearsal_id

    def _enter(self, entry: tuple[str, int, str, str, str], corrects: UUID | None = None) -> None:
        name, days, kind, text, minutes = entry
        when = self.now - timedelta(days=days)
        wish = EntryWish(kind, when.date().isoformat(), text, minutes, corrects)
        add_entry(self.uow, self.of.teacher, self.of.students[name].own_person, wish, when)

    def _correct(self) -> None:
        """Correct the minutes of the first entry the day after."""
        person = self.of.students[CORRECTION[0]].own_person
        entries = student_page(self.uow, self.of.teacher, self.library, person, self.now).entries
        self._enter(CORRECTION, next(each.row.id for each in entries if each.row.text == CORRECTION[3]))

    def _report(self, student: Actor, rehearsal_id: UUID) -> None:
        """Report two questions of a rehearsal; the first report gets its answer."""
        view = get_rehearsal(self.uow, student, self.library, rehearsal_id, self.now)
        for number, (place, text) in enumerate(zip(view.places, reversed(REPORTS), strict=False)):
            when = self.now - timedelta(days=2 - number)
            report_problem(self.uow, student, self.library, place.item_id, text, when)
        oldest = min(list_desk(self.uow, self.of.administrator, self.library), key=lambda line: line.row.created_at)
        settle(self.uow, self.of.administrator, oldest.row.id, ANSWER, self.now - timedelta(hours=20))
