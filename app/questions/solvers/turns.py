"""Turns onto headings: which way and how far, and how long by the clock. Degrees, right positive; seconds."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import shown, whole
from app.physics.headings import reciprocal
from app.physics.turning import (
    HALF_RATE_DEG_S,
    RATE_ONE_DEG_S,
    TurnSide,
    heading_after,
    shortest_turn_deg,
    turn_seconds,
    turn_side,
    turn_sign,
)
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Step, Wrong
from app.questions.solvers.registry import solver

LONGEST_TIME_S = 240


@solver("turn-shortest")
def turn_shortest(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the signed difference target - start the short way round, from 15 to 165 degrees either way."""
    start, target = parameters["start_deg"], parameters["target_deg"]
    turn = whole(shortest_turn_deg(start, target))
    if not 15 <= abs(turn) <= 165:
        raise Redraw("the turn is too small, or its side too close a call")
    sign = 1 if turn > 0 else -1
    long_way = 360 - abs(turn)
    wrong: dict[str, Any] = {
        "long-way": -sign * long_way,
        "other-side": -turn,
        "wrong-count": sign * long_way,
        "to-the-tail": Wrong(
            whole(shortest_turn_deg(start, reciprocal(target))), {"tail_deg": shown(reciprocal(target))}
        ),
    }
    crosses = _crosses_north(start, target)
    if crosses:
        to_north, past_north = _parts_at_north(start, target)
        wrong |= {"stops-at-north": sign * to_north, "starts-at-north": sign * past_north}
    return Solution(
        key=turn,
        given={"start_deg": start, "target_deg": target},
        wrong=wrong,
        quantities={"turn_deg": turn, "difference_deg": target - start},
        steps=_shortest_steps(target - start, turn),
        figures=_instrument(start) if parameters["face"] == "heading-indicator" else (),
        features={"crosses-north": float(crosses), "left-turn": float(turn < 0)},
    )


def _instrument(heading_deg: int) -> tuple[FigureCall, ...]:
    return (FigureCall("heading-indicator", {"indicator_deg": heading_deg}),)


def _crosses_north(start_deg: float, target_deg: float) -> bool:
    """Whether the short turn passes north, with something left on either side of it."""
    return 360 not in {start_deg, target_deg} and abs(target_deg - start_deg) > 180


def _parts_at_north(start_deg: float, target_deg: float) -> tuple[int, int]:
    """Degrees of a turn across north on this side of it and beyond, both 0..180."""
    return abs(whole(shortest_turn_deg(start_deg, 360))), abs(whole(shortest_turn_deg(360, target_deg)))


def _shortest_steps(difference_deg: int, turn_deg: int) -> tuple[Step | str, ...]:
    steps: list[Step | str] = ["difference"]
    if difference_deg != turn_deg:
        steps.append("add-360" if difference_deg < 0 else "take-off-360")
    steps.append("to-the-right" if turn_deg > 0 else "to-the-left")
    return tuple(steps)


@solver("timed-turn")
def timed_turn(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    """Key: seconds = degrees / rate, to the nearest second; or the heading after so many seconds."""
    return _heading_by_clock(parameters) if parameters["ask"] == "heading" else _seconds(parameters, conventions)


def _seconds(parameters: Mapping[str, Any], conventions: Conventions) -> Solution:
    start, target, rate = parameters["start_deg"], parameters["target_deg"], parameters["rate_deg_s"]
    by_compass = parameters["at_home"] and conventions.hemisphere != "none" and not conventions.beyond_rules
    if by_compass:  # an allowance belongs to a turn onto north or south
        target = 180 if 90 < target < 270 else 360
    turn = whole(shortest_turn_deg(start, target))
    if not 20 <= abs(turn) <= 160:
        raise Redraw("the turn is too short for the clock, or its side too close a call")
    wrong: dict[str, Any] = _wrong_seconds(start, target, turn, rate)
    allowance: dict[str, Any] = {}
    if by_compass:
        allowance = {"allowance_deg": conventions.allowance_deg}
        near_pole = (target == 360) == (conventions.hemisphere == "north")
        wrong["compass-allowance"] = _allowed(turn, rate, conventions.allowance_deg, early=near_pole)
    exact = turn_seconds(turn, rate)
    return Solution(
        key=whole(exact),
        given={"ask": "seconds", "start_deg": start, "target_deg": target, "turn": turn_side(turn),
               "rate_deg_s": rate, **allowance},
        wrong={name: value for name, value in wrong.items() if value is not None},
        quantities={**_said(rate), "turn_deg": turn, "exact_s": exact, "time_s": whole(exact)},
        steps=(_count(start, target, turn), "divide", *(("to-the-second",) if exact % 1 else ())),
        model_notes=("roll",),
        scene="allowance" if by_compass else "",
        verdict_figures=_turning(turn_side(turn), rate),
        features={"crosses-north": float(_crosses_north(start, target)), "half-rate": float(rate == HALF_RATE_DEG_S)},
    )  # fmt: skip


def _count(start_deg: int, target_deg: int, turn_deg: int) -> Step:
    upper, lower = (target_deg, start_deg) if turn_deg > 0 else (start_deg, target_deg)
    return Step("count" if upper > lower else "count-across-north", {"upper_deg": upper, "lower_deg": lower})


def _turning(turn: str, rate_deg_s: float) -> tuple[FigureCall, ...]:
    """Return the turn coordinator as it stands while the turn lasts."""
    mark = "on-the-mark" if rate_deg_s == RATE_ONE_DEG_S else "half-way"
    shown = {"instrument": "turn-coordinator", "turn": turn, "mark": mark, "ball": "ball-centre"}
    return (FigureCall("turn-instrument", shown),)


def _said(rate_deg_s: float) -> dict[str, Any]:
    one = rate_deg_s == RATE_ONE_DEG_S
    return {"rate_name": "rate-one" if one else "half-rate", "other_rate_deg_s": _other_rate(rate_deg_s)}


def _other_rate(rate_deg_s: float) -> float:
    return HALF_RATE_DEG_S if rate_deg_s == RATE_ONE_DEG_S else RATE_ONE_DEG_S


def _wrong_seconds(start: int, target: int, turn: int, rate: float) -> dict[str, Any]:
    size = abs(turn)
    multiplied = whole(size * rate)
    wrong: dict[str, Any] = {
        "multiplies": Wrong(multiplied, option=multiplied <= LONGEST_TIME_S),
        "long-way": Wrong(whole(turn_seconds(360 - size, rate)), {"counted_deg": 360 - size}),
        "other-rate": whole(turn_seconds(size, _other_rate(rate))),
        "ten-a-second": whole(size / 10),
        "one-a-second": size,
    }
    if _crosses_north(start, target):
        to_north, past_north = _parts_at_north(start, target)
        wrong["stops-at-north"] = Wrong(whole(turn_seconds(to_north, rate)), {"counted_deg": to_north})
        wrong["starts-at-north"] = Wrong(whole(turn_seconds(past_north, rate)), {"counted_deg": past_north})
    return wrong


def _allowed(turn: int, rate: float, allowance_deg: int, *, early: bool) -> Wrong | None:
    """Seconds of a student who stops the turn short, or carries it on, as the compass would have it."""
    flown = abs(turn) - allowance_deg if early else abs(turn) + allowance_deg
    if flown <= 0:
        return None
    return Wrong(whole(turn_seconds(flown, rate)), {"counted_deg": flown})


def _heading_by_clock(parameters: Mapping[str, Any]) -> Solution:
    start, turn, rate, seconds = (parameters[name] for name in ("start_deg", "turn", "rate_deg_s", "seconds"))
    turned = rate * seconds
    if turned % 1:
        raise Redraw("half a degree has no place in the answer")
    other: TurnSide = "left" if turn == "right" else "right"
    opposite: dict[str, Any] = {"other-side": shown(heading_after(start, other, rate, seconds))}
    through = start + turn_sign(turn) * turned
    crosses = not 1 <= through <= 360
    clock = _clock(parameters["clock_s"], seconds) if parameters["instrument"] == "clock" else None
    misread = _minute_not_crossed(start, turn, rate, clock) if clock else {}
    return Solution(
        key=shown(through),
        given={"ask": "heading", "start_deg": start, "turn": turn, "rate_deg_s": rate,
               **(clock.parameters if clock else {"seconds": seconds})},
        wrong=opposite | _wrong_headings(start, turn, rate, seconds) | misread,
        quantities={**_said(rate), "turned_deg": turned, "target_deg": shown(through),
                    "seconds": seconds},
        steps=(*_reading_steps(clock), "multiply", f"turn-{turn}"),
        model_notes=("roll",),
        scene="clock" if clock else "",
        figures=(clock,) if clock else (),
        verdict_figures=(*((clock,) if clock else ()), *_turning(turn, rate)),
        features={"crosses-north": float(crosses), "half-rate": float(rate == HALF_RATE_DEG_S)},
    )  # fmt: skip


def _clock(clock_s: int, seconds: int) -> FigureCall:
    """Return the clock as the roll-in begins and as the roll-out begins."""
    return FigureCall("clock", {"clock_s": clock_s, "later_clock_s": clock_s + seconds})


def _second_hand(clock: FigureCall) -> tuple[int, int]:
    """Return where the second hand stands at both moments; 60 rather than 0 where it ends."""
    return clock.parameters["clock_s"] % 60, clock.parameters["later_clock_s"] % 60 or 60


def _reading_steps(clock: FigureCall | None) -> tuple[Step, ...]:
    if clock is None:
        return ()
    first, last = _second_hand(clock)
    seconds = {"first_s": first, "last_s": last}
    return (Step("read-clock" if first < last else "read-clock-across", seconds),)


def _minute_not_crossed(start: int, turn: TurnSide, rate: float, clock: FigureCall) -> dict[str, Any]:
    """Return the heading of a student who takes the smaller place of the second hand from the larger."""
    first, last = _second_hand(clock)
    if first < last:
        return {}
    taken = first - last
    more = {"counted_s": taken, "counted_deg": rate * taken}
    return {"minute-not-crossed": Wrong(shown(heading_after(start, turn, rate, taken)), more)}


def _wrong_headings(start: int, turn: TurnSide, rate: float, seconds: int) -> dict[str, Any]:
    rates = {"seconds-as-degrees": 1.0, "other-rate": _other_rate(rate), "divides": 1 / rate, "ten-a-second": 10.0}
    return {
        name: Wrong(shown(heading_after(start, turn, each, seconds)), {"counted_deg": each * seconds})
        for name, each in rates.items()
        if each * seconds < 360
    }
