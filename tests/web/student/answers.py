"""Answers to the items that pages show, worked out from the engine: right ones, and those of a misconception."""

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
    drill, place = table_of(Drill), table_of(DrillItem)
    item_id = UUID(page.fields()["item"])
    with app.extensions[NAME].uow.reader() as connection:
        row = connection.execute(place.select().where(place.c.id == item_id)).mappings().one()
        kept = connection.execute(drill.select().where(drill.c.id == row["drill_id"])).mappings().one()
    return draw(library(), row["family"], row["seed"], Conventions.from_json(kept["conventions"]), row["form"])


def right_answer(item: Item) -> dict[str, str]:
    if item.form == "choice":
        return {"choice": str(next(i for i, option in enumerate(item.options) if option.correct))}
    return {"value": f"{item.key:03.0f}"}


def wrong_answer(item: Item) -> dict[str, str]:
    """The value of a misconception."""
    if item.form == "choice":
        return {"choice": str(next(i for i, option in enumerate(item.options) if option.misconceptions))}
    return {"value": f"{item.wrong_values()[0][1].value:03.0f}"}


def unlike_answer(item: Item) -> dict[str, str]:
    """A typed heading that is neither right nor what any misconception gives."""
    taken = {round(float(item.key))} | {round(float(wrong.value)) for _, wrong in item.wrong_values()}
    free = next(n for n in range(1, 361) if all(min((n - t) % 360, (t - n) % 360) > 5 for t in taken))
    return {"value": f"{free:03d}"}
