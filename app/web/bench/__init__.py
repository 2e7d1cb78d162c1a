"""The bench: the compass model flown on a page, its track as numbers, and the same manoeuvre at three places."""

from app.web.bench import pages, years
from app.web.bench.blueprint import bench

__all__ = ["bench", "pages", "years"]
