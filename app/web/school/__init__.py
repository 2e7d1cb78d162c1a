"""What a school administrator sees of the whole school."""

from app.web.school import (
    audit,
    cohorts,
    erasing,
    exam_profiles,
    invitations,
    past_answers,
    quality,
    reports,
    settings,
)
from app.web.school.blueprint import school

__all__ = [
    "audit",
    "cohorts",
    "erasing",
    "exam_profiles",
    "invitations",
    "past_answers",
    "quality",
    "reports",
    "school",
    "settings",
]
