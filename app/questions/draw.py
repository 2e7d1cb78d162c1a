"""Draws an item: the same family, version, seed, conventions and form give the same item for ever, on every machine."""

from collections.abc import Mapping
from random import Random
from typing import Any

from app.packs.library import Library
from app.packs.own_reckoned import SOLVER as RECKONED
from app.packs.spec import Ask, Family, Form, Scene, ValueFormat
from app.questions.conventions import Conventions
from app.questions.model import OPTION_FORMS, Item, NotOffered, Option, Redraw, Solution
from app.questions.options import Collision, KeyPlace, build_options, refuse_right_by_wrong_method
from app.questions.parameters import draw_parameters, pick
from app.questions.solvers import find_solver

MOST_ATTEMPTS = 4000
ATTEMPTS_FOR_PLACE = 200
ATTEMPTS_FOR_OWN_PLACE = 20  # a school's own question may have its mistakes on one side of the key alone
ATTEMPTS_FOR_ASK = 40


class NoDraw(RuntimeError):
    """The parameter space holds no legal draw; the message names the family and the last reason."""


class _Unplaced(Exception):
    """The key cannot stand at the wanted place; `ask` is what was asked, where the family asks more than one thing."""

    def __init__(self, ask: str | None) -> None:
        super().__init__(ask)
        self.ask = ask


def offered_forms(family: Family) -> tuple[Form, ...]:
    """Return the answer forms the family can take, in the order its asks name them."""
    return tuple(dict.fromkeys(form for ask in family.asks for form in ask.forms))


def draw(library: Library, family_id: str, seed: int, conventions: Conventions, form: Form | None = None) -> Item:
    """Return the item of this seed.

    Raises UnknownFamily; NotOffered where the family makes no question under these conventions; ValueError when the
    family has no such form; NoDraw when no legal parameters are found (the pack checks keep that from happening).
    """
    family = library.family(family_id)
    rng = Random(seed)
    forms = offered_forms(family)
    if form is not None and form not in forms:
        raise ValueError(f"{family_id} has no answer form {form!r}; it has {', '.join(forms)}")
    chosen = form or pick(forms, rng)
    place: float | None = rng.random()
    scenery = _scenery(library, conventions.place, rng)
    scene_point = rng.random()
    lost, for_place = 0, ATTEMPTS_FOR_OWN_PLACE if family.solver == RECKONED else ATTEMPTS_FOR_PLACE
    held: str | None = None  # an ask that cannot place its key is tried again: else places would go with asks
    reason = "no legal parameters"
    for attempt in range(1, MOST_ATTEMPTS + 1):
        held = held if attempt <= ATTEMPTS_FOR_ASK else None
        place = place if attempt <= for_place else None
        try:
            ask, solution, value, options = _attempt(family, conventions, chosen, rng, (held, place))
        except Redraw as outcome:
            reason = str(outcome)
            continue
        except Collision as outcome:
            reason, lost = str(outcome), lost + 1
            continue
        except _Unplaced as outcome:
            held = outcome.ask
            continue
        scene = _scene(family, ask, solution, scene_point)
        pack = library.pack_of(family_id)
        return Item(
            family_id, pack.id, pack.version, family.version, seed, conventions, ask.id, chosen, value, solution,
            options, scene, scenery, attempt, lost,
        )  # fmt: skip
    raise NoDraw(f"{family_id}: no fair question in {MOST_ATTEMPTS} draws, form {chosen}, seed {seed}; last: {reason}")


def _attempt(
    family: Family, conventions: Conventions, form: Form, rng: Random, wanted: tuple[str | None, float | None]
) -> tuple[Ask, Solution, ValueFormat, tuple[Option, ...]]:
    """Draw once; `wanted` is the ask held from an earlier attempt, and where the key shall stand (None: any)."""
    held, place = wanted
    parameters = draw_parameters(family.parameters, rng) | ({"ask": held} if held else {})
    ask = _ask(family, parameters)
    if form not in ask.forms:
        raise Redraw(f"{ask.id} is not asked as {form}")
    solution = _solve(family, parameters, conventions)
    if solution.forms and form not in solution.forms:
        raise Redraw(f"these parameters do not suit {form}")
    value = ask.value if solution.tolerance is None else ask.value.model_copy(update={"tolerance": solution.tolerance})
    refuse_right_by_wrong_method(solution, value)
    if form not in OPTION_FORMS:
        return ask, solution, value, _listed(solution, form, rng)
    try:
        most = conventions.most_options if form == "choice" else None
        return ask, solution, value, build_options(solution, ask, value, rng, place, most)
    except KeyPlace:
        raise _Unplaced(str(parameters["ask"]) if "ask" in parameters else None) from None


def _ask(family: Family, parameters: Mapping[str, Any]) -> Ask:
    return family.ask(parameters["ask"]) if "ask" in parameters else family.asks[0]


def _solve(family: Family, parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    solve = find_solver(family.solver)
    if solve is None:
        raise NoDraw(f"{family.id} names the solver {family.solver!r}, which does not exist")
    try:
        return solve(parameters, conventions)
    except NotOffered as outcome:
        raise NotOffered(family.id, outcome.reason) from None


def _listed(solution: Solution, form: Form, rng: Random) -> tuple[Option, ...]:
    """Return the things to tick, order, sort or match, shuffled; typed answers and boxes have none."""
    if form in {"typed", "boxes"}:
        return ()
    left = list(solution.options)
    shuffled = [left.pop(int(rng.random() * len(left))) for _ in range(len(left))]
    chosen = solution.key if form == "several" else ()
    return tuple(Option(value, correct=value in chosen) for value in shuffled)


def _scene(family: Family, ask: Ask, solution: Solution, point: float) -> int:
    fitting = [i for i, scene in enumerate(family.scenes) if _fits(scene, ask, solution)]
    if not fitting:
        raise NoDraw(f"{family.id} has no scene for ask {ask.id!r}, tag {solution.scene!r}")
    return fitting[int(point * len(fitting))]


def _fits(scene: Scene, ask: Ask, solution: Solution) -> bool:
    return (not scene.asks or ask.id in scene.asks) and scene.tag == solution.scene


def _scenery(library: Library, home: str, rng: Random) -> dict[str, str]:
    """Return an aircraft's letters and two different airfields, all invented, and neither of them named like home."""
    fields = library.shared.airfields
    first = int(rng.random() * len(fields))
    second = (first + 1 + int(rng.random() * (len(fields) - 1))) % len(fields)
    aircraft, drawn = pick(library.shared.aircraft, rng), (fields[first], fields[second])
    spare = next(each for each in fields if each not in (*drawn, home))
    field, other_field = (spare if each == home else each for each in drawn)
    return {"aircraft": aircraft, "field": field, "other_field": other_field}
