"""The bench: the compass model flown on a page, the same at three places, variation over years, map, workshop."""

from app.web.bench import deviation, pages, world_map, years
from app.web.bench.blueprint import bench

__all__ = ["bench", "deviation", "pages", "world_map", "years"]
