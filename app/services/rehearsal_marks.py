"""What a rehearsal comes to: marks by section, and whether every mark that holds was reached."""

from collections.abc import Sequence
from typing import NamedTuple

from app.packs.spec import Language
from app.services.exam_profiles import ExamProfile


class SectionMark(NamedTuple):
    """Right of asked in a section; one without a mark of its own (pass_percent 0) cannot fail."""

    title: str
    right: int
    asked: int
    pass_percent: int

    @property
    def percent(self) -> int:
        """The share right, whole per cent, rounded down so that it never shows a mark that was not reached."""
        return 100 * self.right // self.asked if self.asked else 0

    @property
    def reached(self) -> bool:
        """Whether its own mark was reached."""
        return 100 * self.right >= self.pass_percent * self.asked


class ExamMark(NamedTuple):
    """The whole rehearsal; `reached` only where the overall mark and every section's were."""

    overall: SectionMark
    sections: tuple[SectionMark, ...]

    @property
    def reached(self) -> bool:
        """Whether all marks were reached."""
        return self.overall.reached and not self.short

    @property
    def short(self) -> tuple[SectionMark, ...]:
        """The sections whose own mark was not reached."""
        return tuple(section for section in self.sections if not section.reached)


def mark_exam(
    profile: ExamProfile, scores: Sequence[tuple[str, int, int]], language: Language, title: str = ""
) -> ExamMark:
    """Return the marks of a profile's sections, given (section, right, asked) for each that was asked."""
    by_id = {section.id: section for section in profile.sections}
    sections = tuple(
        SectionMark(by_id[name].title.of(language), right, asked, by_id[name].pass_percent)
        for name, right, asked in scores
    )
    right, asked = sum(each.right for each in sections), sum(each.asked for each in sections)
    return ExamMark(SectionMark(title, right, asked, profile.pass_percent), sections)
