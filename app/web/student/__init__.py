"""Practising: topics, drills, questions with their verdicts, and reports of problems."""

from app.web.student import drills, questions, readiness, record, rehearsals, reports, sittings, today, topics
from app.web.student.blueprint import student

__all__ = [
    "drills",
    "questions",
    "readiness",
    "record",
    "rehearsals",
    "reports",
    "sittings",
    "student",
    "today",
    "topics",
]
