"""The correction card used both ways. A two-row card holds `steer_deg` (radios on) and `steer_off_deg` (radios off)."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import cos_deg, difference, round_half_up, shown, unwrap, whole, wrap360
from app.physics.deviation import (
    CorrectionCard,
    compass_from_magnetic,
    deviation_for_compass,
    deviation_for_magnetic,
    magnetic_from_compass,
)
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Step
from app.questions.solvers.datum_conversions import variation_fits
from app.questions.solvers.registry import solver

LEAST_DEVIATION_DEG = 2.6  # below this an ignored card would be marked right
LEAST_DECOY_DEG = 5
LEAST_PAST_ENTRY_DEG = 4
LARGEST_ON_A_CARD_DEG = 10

OTHER_STATE = {"radios-on": "radios-off", "radios-off": "radios-on"}

Entries = Sequence[Mapping[str, int]]


def card_row(card: Entries, card_state: str) -> CorrectionCard:
    """Return the row of a card that holds for a state: `steer_off_deg` with the radios off, else `steer_deg`."""
    row = "steer_off_deg" if card_state == "radios-off" else "steer_deg"
    return _row(tuple(entry["for_deg"] for entry in card), tuple(entry[row] for entry in card))


# One use of a card asks for its row a dozen times, and checking a row costs more than the rest of the question.
_row = lru_cache(maxsize=256)(CorrectionCard)


def with_second_row(card: Entries, shift_deg: int, toward_deg: int) -> list[dict[str, int]]:
    """Return the card with a row for radios off; switching moves deviation by `shift_deg` at most, on `toward_deg`.

    What a switched current adds is a field fixed in the aircraft, so its effect goes round as a cosine of the heading.
    """
    rows = []
    for entry in card:
        moved = whole(shift_deg * cos_deg(entry["for_deg"] - toward_deg))
        deviation = difference(entry["for_deg"], entry["steer_deg"]) + moved
        if abs(deviation) > LARGEST_ON_A_CARD_DEG:
            raise Redraw("no card in use shows so large a deviation")
        rows.append({**entry, "steer_off_deg": shown(entry["for_deg"] - deviation)})
    return rows


@dataclass(frozen=True, slots=True)
class CardTask:
    """One use of a card: the heading looked up, its place between two entries, the deviation found."""

    card: list[dict[str, int]]
    card_state: str
    entered_deg: int
    variation_deg: int
    at_home: bool
    backward: bool

    @property
    def row(self) -> CorrectionCard:
        """The row in use."""
        return card_row(self.card, self.card_state)

    @property
    def deviation_deg(self) -> float:
        """Deviation on the heading looked up, interpolated."""
        return (deviation_for_compass if self.backward else deviation_for_magnetic)(self.row, self.entered_deg)

    def answer(self, card_state: str) -> int:
        """Return the heading found with a row of the card."""
        found = magnetic_from_compass if self.backward else compass_from_magnetic
        return shown(found(card_row(self.card, card_state), self.entered_deg))

    def bracket(self) -> tuple[int, int]:
        """Return the places of the two entries that hold the heading; the first may be the heading itself."""
        entries = self.row.steer_deg if self.backward else self.row.for_deg
        before = min(range(len(entries)), key=lambda i: wrap360(self.entered_deg - entries[i]))
        return before, (before + 1) % len(entries)


@solver("card-for-steer")
def card_for_steer(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key C = M - D, D interpolated between the FOR entries."""
    task = _task(parameters, conventions, "magnetic_deg", backward=False)
    magnetic, d, v = task.entered_deg, task.deviation_deg, task.variation_deg
    wrong = {
        "reverse": shown(magnetic + d),
        "card-ignored": magnetic,
        "uses-variation": shown(magnetic - d - v),
    }
    return _solution(task, "magnetic_deg", wrong)


@solver("card-steer-back")
def card_steer_back(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key M = C + D, D interpolated between the STEER entries."""
    task = _task(parameters, conventions, "compass_deg", backward=True)
    compass, d, v = task.entered_deg, task.deviation_deg, task.variation_deg
    wrong = {
        "reads-forward": shown(compass - d),
        "card-ignored": compass,
        "double": shown(compass + 2 * d),
        "adds-variation": shown(compass + d + v),
    }
    return _solution(task, "compass_deg", wrong)


@solver("card-two-states")
def card_two_states(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the change of compass heading, C2 - C1 = D1 - D2, that holds magnetic when radios are switched."""
    state, magnetic = parameters["card_state"], parameters["magnetic_deg"]
    card = with_second_row(parameters["card"], parameters["shift_deg"], parameters["shift_toward_deg"])
    old, new = (card_row(card, each) for each in (OTHER_STATE[state], state))
    d_old, d_new = (whole(deviation_for_magnetic(row, magnetic)) for row in (old, new))
    key = d_old - d_new
    if not 3 <= abs(key) <= 6 or min(abs(d_old), abs(d_new)) < 2 or abs(d_old + d_new) < 3:
        raise Redraw("the rows are too alike, or too plain, on this heading")
    steer_old, steer_new = (shown(magnetic - d) for d in (d_old, d_new))
    counted_new = whole(unwrap(steer_new, magnetic))
    return Solution(
        key=key,
        given={"card": card, "card_state": state, "magnetic_deg": magnetic},
        quantities={
            "other_state": f"were-{OTHER_STATE[state]}", "old_deviation_deg": d_old, "new_deviation_deg": d_new,
            "steer_old_deg": steer_old, "steer_new_deg": steer_new, "change_deg": key,
            "counted_old_deg": magnetic - d_old, "counted_new_deg": counted_new,
        },
        wrong={
            "sign": -key, "nothing-changes": 0, "sum": d_old + d_new, "new-row-alone": -d_new,
        },
        steps=("both-rows", "more" if key > 0 else "less"),
        figures=(FigureCall("correction-card", {"card": card}),),
        model_notes=("switched",),
        features={"opposite-signs": float(d_old * d_new < 0), "crosses-north": float(abs(steer_new - steer_old) > 180)},
    )  # fmt: skip


def _task(parameters: Mapping[str, Any], conventions: Conventions, name: str, *, backward: bool) -> CardTask:
    v = parameters["variation_deg"]
    own = whole(conventions.variation_deg)
    at_home = parameters["at_home"] and variation_fits(conventions) and abs(own) >= LEAST_DECOY_DEG
    card, state = parameters["card"], parameters["card_state"]
    if state != "one-row":
        card = with_second_row(card, parameters["shift_deg"], parameters["shift_toward_deg"])
    task = CardTask(card, state, parameters[name], own if at_home else v, at_home, backward)
    if abs(task.deviation_deg) < LEAST_DEVIATION_DEG:
        raise Redraw("so small a deviation hides whether the card was used")
    return task


def _solution(task: CardTask, name: str, wrong: dict[str, int]) -> Solution:
    """Return the solution both ways have in common; `name` is the vocabulary's name of the heading looked up."""
    before, after = task.bracket()
    entries, others = task.row.for_deg, task.row.steer_deg
    if task.backward:
        entries, others = others, entries
    past, ahead = wrap360(task.entered_deg - entries[before]), wrap360(entries[after] - task.entered_deg)
    if past and (min(past, ahead) < LEAST_PAST_ENTRY_DEG or past == ahead):
        raise Redraw("too near to an entry, or half-way between two")
    if past:
        wrong["no-interpolation"] = others[before if past < ahead else after]
    state, other = task.card_state, OTHER_STATE.get(task.card_state)
    if other:
        wrong["wrong-row"] = task.answer(other)
    deviations = task.row.deviations_deg
    given = {"card": task.card, "card_state": state, name: task.entered_deg, "variation_deg": task.variation_deg}
    return Solution(
        key=task.answer(state),
        given=given,
        quantities={
            "deviation_deg": round_half_up(task.deviation_deg, 1),
            "entry_deg": entries[before], "next_entry_deg": entries[after],
            "nearest_deg": entries[before if past < ahead else after],
            "found_deg": task.answer(state), "where": "where-home" if task.at_home else "where-field",
        },
        wrong=wrong,
        steps=_steps(task, past),
        figures=(FigureCall("correction-card", {"card": task.card}),),
        model_notes=("steady",),
        forms=() if past else ("typed",),
        features={
            "two-rows": float(bool(other)),
            "sign-change": float(deviations[before] * deviations[after] < 0),
            "crosses-north": float(abs(task.answer(state) - task.entered_deg) > 180),
        },
    )  # fmt: skip


def _steps(task: CardTask, past: float) -> tuple[Step, ...]:
    """Bracket, deviation on both sides, share, sum; on an entry itself only the deviation and the sum."""
    before, after = task.bracket()
    steps = [_entry_step(task, before, "on-entry" if not past else "first-entry")]
    d_before, d_after = (whole(task.row.deviations_deg[i]) for i in (before, after))
    if past:
        entries = task.row.steer_deg if task.backward else task.row.for_deg
        width = wrap360(entries[after] - entries[before])
        change = d_after - d_before
        share = {"past_deg": past, "width_deg": width, "from_deg": d_before, "change_deg": abs(change)}
        share["d_deg"] = round_half_up(task.deviation_deg, 2)
        kind = "share-same" if not change else "share-up" if change > 0 else "share-down"
        steps += [_entry_step(task, after, "second-entry"), Step(kind, share)]
    return (*steps, *_sum_steps(task))


def _entry_step(task: CardTask, place: int, line: str) -> Step:
    """Show FOR less STEER, the smaller number counted on past 360 where north lies between."""
    wanted, steered = task.row.for_deg[place], task.row.steer_deg[place]
    counted = whole(unwrap(steered, wanted))
    return Step(line, {"for_deg": wanted, "steer_deg": steered, "counted_deg": counted, "d_deg": wanted - counted})


def _sum_steps(task: CardTask) -> tuple[Step, ...]:
    """C = M - D or M = C + D, then north if it is passed, then the rounding if there is any."""
    d = round_half_up(task.deviation_deg, 2)
    adds = (d > 0) == task.backward
    total = task.entered_deg + (abs(d) if adds else -abs(d))
    side = "east" if d > 0 else "west"
    steps = [Step("add" if adds else "take-off", {"size_deg": abs(d), "total_deg": total, "side": side})]
    if not 0.5 <= total < 360.5:
        past = total > 180
        on = total - 360 if past else total + 360
        steps.append(Step("past-north" if past else "before-north", {"total_deg": total, "on_deg": on}))
    return (*steps, *([] if total == int(total) else [Step("rounded")]))
