"""Following an assignment: who has not started or is late, the scores, and the commonest error of each question."""

from collections import Counter
from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from app.packs.library import Library
from app.packs.spec import Language
from app.services.actor import Actor
from app.services.assignments import own_assignment
from app.services.set_choices import misconception_words
from app.services.sittings import PassMarks, pass_marks_at
from app.services.standing import Stage, Standing, standing
from app.storage.models import Assignment, TopicSet
from app.storage.queries import assignments, classes, sittings, topic_sets
from app.storage.queries.assignments import MemberRow
from app.storage.queries.sittings import AnsweredRow, CountedSitting
from app.storage.queries.topic_sets import PassMarkRow, SetItemRow
from app.storage.unit_of_work import UnitOfWork


class StudentLine(NamedTuple):
    """How one student stands; `marks` are the pass marks when they were done and now."""

    member: MemberRow
    standing: Standing
    attempts: int
    answered: int
    length: int
    marks: PassMarks

    @property
    def passed(self) -> bool | None:
        """Whether the present pass mark is reached; None while there is no score or no mark."""
        return _reaches(self.standing.percent, self.marks.now)

    @property
    def passed_then(self) -> bool | None:
        """Whether the pass mark that held when they were done was reached."""
        return _reaches(self.standing.percent, self.marks.then)


class QuestionLine(NamedTuple):
    """One question in everybody's first attempt; `mistake` is the commonest, `link` how a set names it."""

    position: int
    family_title: str
    right: int
    answered: int
    mistake: str
    mistaken: int
    link: str


class Following(NamedTuple):
    """An assignment as whoever gave it follows it; `class_name` is empty where it is for single students."""

    assignment: Assignment
    topic_set: TopicSet
    class_name: str
    students: tuple[StudentLine, ...]
    questions: tuple[QuestionLine, ...]
    pass_marks: tuple[PassMarkRow, ...]

    @property
    def undone(self) -> tuple[StudentLine, ...]:
        """Whoever has not finished."""
        return tuple(line for line in self.students if line.standing.stage is not Stage.DONE)

    def count(self, stage: str) -> int:
        """Return how many are at a stage, or "late"."""
        if stage == "late":
            return sum(line.standing.late for line in self.students)
        return sum(line.standing.stage == stage for line in self.students)


def follow(uow: UnitOfWork, actor: Actor, library: Library, assignment_id: UUID, now: datetime) -> Following:
    """Return how everybody stands with an assignment; refuses as `own_assignment` does."""
    with uow.reader() as connection:
        assignment = own_assignment(connection, actor, assignment_id)
        topic_set = topic_sets.find_set(connection, actor.school_id, assignment.topic_set_id)
        assert topic_set is not None  # noqa: S101 - the assignment refers to it
        items = topic_sets.list_items(connection, actor.school_id, topic_set.id)
        marks = topic_sets.list_pass_marks(connection, actor.school_id, topic_set.id)
        members = assignments.list_members(connection, assignment)
        sat = sittings.list_of_assignment(connection, actor.school_id, assignment_id)
        answers = sittings.list_answers(connection, actor.school_id, assignment_id)
        found = classes.find_class(connection, actor.school_id, assignment.class_id) if assignment.class_id else None
    there = {member.person_id for member in members}
    return Following(
        assignment=assignment,
        topic_set=topic_set,
        class_name=found.name if found else "",
        students=tuple(_student(assignment, member, sat, (marks, len(items)), now) for member in members),
        questions=tuple(
            _question(library, item, [each for each in answers if each.person_id in there], actor.language)
            for item in items
        ),
        pass_marks=marks,
    )


def _student(
    assignment: Assignment,
    member: MemberRow,
    all_sat: Sequence[CountedSitting],
    of_set: tuple[Sequence[PassMarkRow], int],
    now: datetime,
) -> StudentLine:
    marks, length = of_set
    sat = [each for each in all_sat if each.person_id == member.person_id]
    stands = standing((assignment.due_at, member.extended_to), member.joined_at, sat, now)
    return StudentLine(
        member=member,
        standing=stands,
        attempts=len(sat),
        answered=sat[-1].answered if sat else 0,
        length=sat[-1].length if sat else length,
        marks=pass_marks_at(marks, stands.done_at or now),
    )


def _question(library: Library, item: SetItemRow, answers: Sequence[AnsweredRow], language: Language) -> QuestionLine:
    here = [each for each in answers if each.position == item.position]
    made = Counter(name for each in here for name in each.misconceptions)
    name, times = made.most_common(1)[0] if made else ("", 0)
    family = library.families.get(item.family)
    link = f"{item.family}/{name}" if name else ""
    return QuestionLine(
        position=item.position,
        family_title=family.title.of(language) if family else item.family,
        right=sum(each.correct for each in here),
        answered=len(here),
        mistake=misconception_words(library, link, language) if link else "",
        mistaken=times,
        link=link,
    )


def _reaches(percent: float | None, mark: int | None) -> bool | None:
    return None if percent is None or mark is None else percent >= mark
