"""The front page: one real question with a compass face, whose answer starts a drill."""

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from app.services.drills import find_open_drill, list_topics
from app.services.errors import Conflict, Invalid
from app.services.front import FACES, answer_front, front_item
from app.services.items import ItemView
from app.web.access import EVERYBODY, allow
from app.web.current import LARGEST_SEED, act_as, actor, backend, language, library, now, uow
from app.web.errors import STATUS
from app.web.front.blueprint import front
from app.web.question_page import QuestionPage, hidden_fields, read_answer

MOST_SEEDS = 6


@front.get("/")
@allow(*EVERYBODY)
def show_start() -> ResponseReturnValue:
    """Show a question; the address may say which, so that another language shows the same one."""
    seed = _seed(request.args.get("seed", ""))
    return _page(_seed_with_a_face() if seed is None else seed)


@front.post("/")
@allow(*EVERYBODY)
def answer_start() -> ResponseReturnValue:
    """Start the drill that this question is the first of."""
    seed = _seed(request.form.get("seed", ""))
    if seed is None:
        return redirect(url_for("front.show_start"))
    try:
        outcome = answer_front(uow(), actor(), library(), seed, read_answer(f"front {seed}"), now())
    except (Invalid, Conflict) as refusal:
        return _page(seed, refusal), STATUS[type(refusal)]
    act_as(outcome.visit)
    again = None if outcome.answer.counted else 1
    return redirect(
        url_for("student.show_verdict", item_id=outcome.answer.item_id, again=again, _anchor="verdict"), 303
    )


def _page(seed: int, refusal: Invalid | Conflict | None = None) -> str:
    item = front_item(library(), actor(), seed)
    page = QuestionPage(
        item=item,
        action=url_for("front.answer_start"),
        hidden=hidden_fields(item, f"front {seed}", seed=str(seed)),
        given=dict(request.form.lists()),
        refusal=refusal,
    )
    return render_template(
        "front/show_start.html",
        page=page,
        topics=list_topics(library(), language()),
        open_drill=find_open_drill(uow(), actor(), now()),
        here=url_for("front.show_start", seed=seed),
    )


def _seed_with_a_face() -> int:
    """Return a seed, preferring one whose question is about a compass face: it is what one looks at first."""
    seeds = [backend().draw_seed() for _ in range(MOST_SEEDS)]
    return next((seed for seed in seeds if _shows_a_face(front_item(library(), actor(), seed))), seeds[0])


def _shows_a_face(item: ItemView) -> bool:
    return any(figure.name in FACES for figure in item.worded.figure_calls)


def _seed(text: str) -> int | None:
    fits = text.isascii() and text.isdigit() and len(text) <= 10
    return int(text) if fits and int(text) < LARGEST_SEED else None
