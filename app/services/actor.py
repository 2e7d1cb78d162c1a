"""Who acts: the role, the school and visit it acts in, and what is read and drawn by."""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from uuid import UUID
from zoneinfo import ZoneInfo

from app.packs.spec import Language
from app.questions.conventions import Conventions
from app.services.errors import NotFound


class Role(StrEnum):
    """What somebody may do; every endpoint declares the roles it answers."""

    VISITOR = "visitor"
    STUDENT = "student"
    INSTRUCTOR = "instructor"
    SCHOOL = "school"


@dataclass(frozen=True, slots=True)
class Actor:
    """Somebody who uses the program. Without a visit nothing is kept yet, and nothing is theirs.

    `conventions` are those of new draws; a drill that has started keeps its own. Whoever is signed in is a
    person with a name, and reads times in the school's time zone.
    """

    role: Role
    school_id: UUID
    visit_id: UUID | None
    language: Language
    conventions: Conventions
    person_id: UUID | None = None
    name: str = ""
    time_zone: str = "UTC"
    school_rules: bool = False  # the school has set home place and house rules for everybody
    own_revision: int = 0  # how often the school's own questions have changed

    def day_of(self, moment: datetime) -> date:
        """Return the date of a moment where this actor is: an evening's practice is one day's."""
        return moment.astimezone(ZoneInfo(self.time_zone)).date()

    @property
    def own_person(self) -> UUID:
        """The person this actor is; NotFound for a visitor."""
        if self.person_id is None:
            raise NotFound("a visitor has no account")
        return self.person_id

    @property
    def own_visit(self) -> UUID:
        """The visit in which this actor's drills are kept; NotFound for a guest, to whom nothing belongs."""
        if self.visit_id is None:
            raise NotFound("a guest has no drills")
        return self.visit_id
