"""What a school asks before it recommends anybody for the written exam: every line must hold."""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from app.services.actor import Actor
from app.services.record import RecordView
from app.services.rehearsals import RehearsalView
from app.services.school_settings import bar_of, get_school
from app.storage.models import TrainingEntry
from app.storage.unit_of_work import UnitOfWork

Line = Literal["rehearsals", "sections", "misconceptions"]


class WeakSection(NamedTuple):
    """A section below the school's bar in one of the rehearsals that count."""

    title: str
    percent: int


class Checklist(NamedTuple):
    """What is asked and what there is. `weak`: sections of the latest counted rehearsals under the bar."""

    rehearsals_wanted: int
    rehearsals: int
    section_percent: int
    weak: Sequence[WeakSection]
    open_misconceptions: int
    reviewed: bool

    @property
    def lacking(self) -> tuple[Line, ...]:
        """The lines that do not hold; nothing else makes up for one of them."""
        lines: list[Line] = []
        if self.rehearsals < self.rehearsals_wanted:
            lines.append("rehearsals")
        if self.weak or not self.rehearsals:
            lines.append("sections")
        if self.open_misconceptions and not self.reviewed:
            lines.append("misconceptions")
        return tuple(lines)


def checklist(
    uow: UnitOfWork,
    actor: Actor,
    held: RecordView,
    rehearsals: Sequence[RehearsalView],
    entries: Sequence[TrainingEntry],
) -> Checklist:
    """Return the checklist of a student from their record, marked rehearsals and standing entries."""
    school = get_school(uow, actor)
    wanted, bar = bar_of(school, "rehearsals"), bar_of(school, "section_percent")
    counted = sorted(rehearsals, key=lambda each: each.started_at)[-max(wanted, 1) :]
    sections = [section for each in counted if each.mark for section in each.mark.sections]
    latest_mistake = max((actor.day_of(each.missed_at) for each in held.mistakes), default=None)
    reviews = [each.day for each in entries if each.kind == "reviewed"]
    return Checklist(
        rehearsals_wanted=wanted,
        rehearsals=len(rehearsals),
        section_percent=bar,
        weak=tuple(WeakSection(each.title, each.percent) for each in sections if 100 * each.right < bar * each.asked),
        open_misconceptions=len(held.open),
        reviewed=bool(reviews) and (latest_mistake is None or max(reviews) >= latest_mistake),
    )
