"""The item behind a page, key included."""

from uuid import UUID

from flask import Flask

from app.questions.conventions import Conventions
from app.questions.draw import draw
from app.questions.model import Item
from app.storage.base import table_of
from app.storage.models import Drill, DrillItem
from app.web.current import NAME
from tests.pages import Page
from tests.questions.engine import library


def item_of(app: Flask, page: Page) -> Item:
    """Return the item behind an open question, key included."""
    return item_by_id(app, UUID(page.fields()["item"]))


def item_by_id(app: Flask, item_id: UUID) -> Item:
    """Return an item of any drill, key included."""
    drill, place = table_of(Drill), table_of(DrillItem)
    with app.extensions[NAME].uow.reader() as connection:
        row = connection.execute(place.select().where(place.c.id == item_id)).mappings().one()
        kept = connection.execute(drill.select().where(drill.c.id == row["drill_id"])).mappings().one()
    return draw(library(), row["family"], row["seed"], Conventions.from_json(kept["conventions"]), row["form"])
