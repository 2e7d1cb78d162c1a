"""A school's own questions: written, read by a second person, asked."""

from app.web.own import files, questions, writing
from app.web.own.blueprint import own

__all__ = ["files", "own", "questions", "writing"]
