"""A set on a projector: one question at a time in large type, hands counted, then the answer with its working."""

from uuid import UUID

from flask import render_template, request
from flask.typing import ResponseReturnValue

from app.services.keyed_items import KeyedItem
from app.services.projected import get_projected
from app.web.access import allow
from app.web.current import actor, language, library, speak, uow
from app.web.sets.blueprint import TEACHING, sets

COUNTDOWNS_S = (30, 60, 90)
MOST_DIGITS = 3


@sets.get("/topic-sets/<uuid:set_id>/projector/<int(min=1):position>")
@allow(*TEACHING)
def show_projected(set_id: UUID, position: int) -> ResponseReturnValue:
    """Show a question; with `answer` in the address also what is right, and how many hands each option had."""
    view = get_projected(uow(), actor(), library(), (set_id, position), language())
    speak(view.language)
    return render_template(
        "sets/show_projected.html",
        view=view,
        told="answer" in request.args,
        hands=_hands(view.keyed) if view.keyed else (),
        countdowns=COUNTDOWNS_S,
    )


def _hands(item: KeyedItem) -> tuple[int, ...]:
    """Return how many hands were counted for each option; what is no number counts as none."""
    sent = (request.args.get(f"hands_{option.letter}", "") for option in item.options)
    return tuple(int(each) if each.isascii() and each.isdigit() and len(each) <= MOST_DIGITS else 0 for each in sent)
