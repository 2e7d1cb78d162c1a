"""What anybody reads before and beside a drill: the first question, home place, keys, about, language, health."""

from app.web.front import home, language, pages, reference, start
from app.web.front.blueprint import front

__all__ = ["front", "home", "language", "pages", "reference", "start"]
