"""The gyro panel: which feed drives what is lost with it, and what turn needle and ball say. Degrees, seconds."""

from collections.abc import Mapping
from typing import Any

from app.figures.model import FigureCall
from app.physics.angles import whole
from app.physics.turning import RATE_ONE_DEG_S, TurnSide, turn_sign
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution, Step
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of
from app.questions.solvers.ticks import to_tick

GYROS = ("attitude-indicator", "heading-indicator", "turn-instrument")
# What drives each gyro in each kind of panel, in the order of GYROS.
PANELS = {
    "classic": ("suction", "suction", "electrical"),
    "electric-horizon": ("electrical", "suction", "electrical"),
    "all-suction": ("suction", "suction", "suction"),
}
ELECTRIC = ("radio", "transponder", "landing-light", "pitot-heater", "compass-lamp", "fuel-gauges", "electric-flaps")
ALONE = ("altimeter", "vertical-speed", "magneto-ignition")  # on none of the three feeds
ENOUGH_SUCTION_INHG, FADING_INHG = 4.5, 1.2
MARKS = {"half-way": 0.5, "on-the-mark": 1.0, "past-the-mark": 1.5}  # share of the rate-one mark
LEFT_FOR_HEADING = ("indicator-as-before", "compass-and-clock", "compass-alone", "indicator-running-down")
FIRST_SIGNS = ("gauge-then-lean", "all-at-once", "discharge", "speed-alone")
SIGN_OF = {"suction": "gauge-then-lean", "electrical": "discharge", "pitot": "speed-alone"}
SIGN_BELIEFS = {
    "suction": {"sudden": "all-at-once", "wrong-feed": "discharge", "pitot-gyro": "speed-alone"},
    "electrical": {
        "wrong-feed": "gauge-then-lean",
        "all-on-current": "all-at-once",
        "pitot-static-powered": "speed-alone",
    },
    "pitot": {"wrong-feed": "gauge-then-lean", "pitot-gyro": "all-at-once", "pitot-static-powered": "discharge"},
}
# What is true of turn instrument and ball, and what is believed instead.
TRUE_OF_BALL = {
    "inside-is-slip": "slip-skid-swapped",
    "outside-is-skid": "slip-skid-swapped",
    "pedal-of-ball": "away-from-ball",
    "centred-no-pedal": "",
    "instrument-side-is-turn": "turn-mirrored",
    "needle-turn-alone": "needle-feels-roll",
    "coordinator-roll-too": "only-turn",
}
FALSE_OF_BALL = {
    "inside-is-skid": "slip-skid-swapped",
    "outside-is-slip": "slip-skid-swapped",
    "on-the-mark-is-balance": "ball-ignored",
    "ball-is-for-landing": "ball-ignored",
    "ball-side-is-turn": "turn-mirrored",
    "steep-is-slip": "every-turn-slips",
    "steep-is-skid": "every-turn-skids",
    "pedal-against-ball": "away-from-ball",
    "pedal-of-turn": "with-the-turn",
    "pedal-against-turn": "against-the-turn",
    "deflection-is-bank": "shows-bank",
    "bank-and-turn-both": "bank-and-turn",
    "needle-feels-roll-in": "needle-feels-roll",
    "coordinator-turn-alone": "only-turn",
}
# What is true of the gyros' feeds, and what is believed instead.
TRUE_OF_FEEDS = {
    "below-arc-is-failure": "gauge-not-heeded",
    "in-arc-is-right": "gauge-misread",
    "without-drive-covered": "trusts-coasting",
    "current-gone-suction-drives": "all-on-current",
    "turn-goes-with-its-feed": "turn-feed-missed",
    "electric-horizon-stays": "all-on-suction",
}
FALSE_OF_FEEDS = {
    "looks-right-is-right": "gauge-not-heeded",
    "low-until-it-leans": "gauge-not-heeded",
    "in-arc-gives-up": "gauge-misread",
    "coasting-is-good": "trusts-coasting",
    "reset-while-coasting": "trusts-coasting",
    "suction-runs-down-without-current": "all-runs-down",
    "turn-always-left": "turn-feed-missed",
    "turn-always-electric": "turn-feed-missed",
    "every-gyro-by-suction": "all-on-suction",
    "pitot-ice-stops-gyro": "pitot-gyro",
    "stops-at-once": "sudden",
}
TICKED, UNTICKED = 2, 5


def _panel(panel: str, failure: str) -> tuple[FigureCall, ...]:
    """Return the feeds with what hangs on them, the failed one barred: for a verdict."""
    return (FigureCall("gyro-panel", {"panel": panel, "failure": failure}),)


def _gauge(suction_inhg: float) -> FigureCall:
    return FigureCall("suction-gauge", {"suction_inhg": suction_inhg})


def _driven(panel: str, feed: str) -> tuple[str, ...]:
    """Return the gyros that hang on a feed; none hangs on the pitot tube."""
    return tuple(gyro for gyro, source in zip(GYROS, PANELS[panel], strict=True) if source == feed)


@solver("suction-failure")
def suction_failure(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: the instruments lost with a feed, what is left to hold a heading by, its first sign, or what is true."""
    if parameters["ask"] == "statements":
        return to_tick("statements", (TRUE_OF_FEEDS, FALSE_OF_FEEDS), (TICKED, UNTICKED), parameters["shuffle"],
                       scene="statements", features={"other-panel": 0.0})  # fmt: skip
    asked = {"lost": _lost, "heading-left": _heading_left, "signs": _signs, "gauge": _by_gauge}[parameters["ask"]]
    return asked(parameters)


def _lost(parameters: Mapping[str, Any]) -> Solution:
    panel, failure, shuffle = parameters["panel"], parameters["failure"], parameters["shuffle"]
    # Ice in the pitot tube may well mean a dead heater: it is not asked about there.
    current = [item for item in ELECTRIC if failure != "pitot" or item != "pitot-heater"]
    electric = few_of(current, 2, shuffle // len(ALONE))
    items = (*GYROS, "compass", "airspeed-indicator", *electric, ALONE[shuffle % len(ALONE)])
    hangs = {"electrical": ELECTRIC, "pitot": ("airspeed-indicator",)}.get(failure, ())
    key = tuple(item for item in items if item in {*_driven(panel, failure), *hangs})
    return Solution(
        key=key,
        given={"ask": "lost", "panel": panel, "failure": failure},
        verdict_figures=_panel(panel, failure),
        options=items,
        slips={
            (item, "left-out" if item in key else "chosen"): "feed-not-traced"
            if item in key
            else _belief(item, failure)
            for item in items
        },
        steps=(f"feed-{failure}", *(Step("lost", {"item": item}) for item in key), "compass-stays"),
        model_notes=("runs-down",) if failure == "suction" else (),
        features={"other-panel": float(panel != "classic")},
    )


def _belief(item: str, failure: str) -> str:
    """Return what is behind taking a working instrument for lost."""
    if item == "compass":
        return "compass-powered"
    if item in GYROS:
        return {"suction": "all-on-suction", "electrical": "all-on-current", "pitot": "pitot-gyro"}[failure]
    if item == "magneto-ignition":
        return "ignition-on-battery"
    if item in ALONE and failure == "pitot":
        return "pitot-moves-static"
    return "wrong-feed" if item in ELECTRIC else "pitot-static-powered"


def _heading_left(parameters: Mapping[str, Any]) -> Solution:
    panel, failure = parameters["panel"], parameters["failure"]
    if failure == "pitot":
        raise Redraw("no gyro hangs on the pitot tube")
    lost = _driven(panel, failure)
    as_before, by_clock, alone, running_down = LEFT_FOR_HEADING
    if "heading-indicator" not in lost:
        key = as_before
        wrong = {"wrong-feed": by_clock, "all-on-current": alone, "all-runs-down": running_down}
    else:
        key, wrong = _without_indicator(lost, "feed-not-traced")
    return Solution(
        key=key,
        given={"ask": "heading-left", "panel": panel, "failure": failure},
        verdict_figures=_panel(panel, failure),
        wrong=wrong,
        options=LEFT_FOR_HEADING,
        steps=(f"feed-{failure}", *(Step("lost", {"item": item}) for item in lost), f"so-{key}"),
        model_notes=("runs-down",) if failure == "suction" else (),
        features={"other-panel": float(panel != "classic")},
    )


def _without_indicator(lost: tuple[str, ...], trusts_it: str) -> tuple[str, dict[str, str]]:
    """Return what is left once the heading indicator is lost, and what slips lead to; `trusts_it` goes on by it."""
    as_before, by_clock, alone, running_down = LEFT_FOR_HEADING
    if "turn-instrument" in lost:
        return alone, {trusts_it: as_before, "turn-feed-missed": by_clock, "trusts-coasting": running_down}
    return by_clock, {trusts_it: as_before, "all-on-suction": alone, "trusts-coasting": running_down}


def _by_gauge(parameters: Mapping[str, Any]) -> Solution:
    """Read the suction gauge first: in its arc everything stays, below it all that suction drives is given up."""
    panel, suction = parameters["panel"], parameters["suction_inhg"]
    lost = _driven(panel, "suction") if suction < ENOUGH_SUCTION_INHG else ()
    as_before, by_clock, alone, running_down = LEFT_FOR_HEADING
    if lost:
        key, wrong = _without_indicator(lost, "gauge-not-heeded")
    elif panel == "all-suction":
        raise Redraw("with the suction as it should be, a panel without current has too few slips")
    else:
        key = as_before
        wrong = {"gauge-misread": by_clock, "all-on-suction": alone, "all-runs-down": running_down}
    return Solution(
        key=key,
        given={"ask": "gauge", "panel": panel, "suction_inhg": suction},
        figures=(_gauge(suction),),
        verdict_figures=_panel(panel, "suction") if lost else (),
        wrong=wrong,
        options=LEFT_FOR_HEADING,
        steps=("gauge-low" if lost else "gauge-in-arc", *(Step("lost", {"item": item}) for item in lost), f"so-{key}"),
        model_notes=("runs-down",) if lost else (),
        scene="gauge",
        features={"other-panel": float(panel != "classic")},
    )


def _signs(parameters: Mapping[str, Any]) -> Solution:
    failure = parameters["failure"]
    if parameters["panel"] != "classic":
        raise Redraw("the signs are asked of the usual panel")
    return Solution(
        key=SIGN_OF[failure],
        given={"ask": "signs", "panel": "classic", "failure": failure},
        verdict_figures=(*((_gauge(FADING_INHG),) if failure == "suction" else ()), *_panel("classic", failure)),
        wrong=SIGN_BELIEFS[failure],
        options=FIRST_SIGNS,
        steps=(f"feed-{failure}", f"shows-{failure}"),
        features={"other-panel": -1.0},
    )


@solver("slip-ball-and-turn-needle")
def slip_ball_and_turn_needle(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key: turn and balance, the pedal to press, degrees turned in some seconds, or what the instrument shows."""
    if parameters["ask"] == "statements":
        return to_tick("statements", (TRUE_OF_BALL, FALSE_OF_BALL), (TICKED, UNTICKED), parameters["shuffle"],
                       features={"ball-out": 0.0})  # fmt: skip
    asked = {"state": _state, "pedal": _pedal, "degrees": _degrees, "meaning": _meaning}[parameters["ask"]]
    return asked(parameters)


def _other_side(side: str) -> str:
    return "left" if side == "right" else "right"


def _shown(parameters: Mapping[str, Any]) -> dict[str, Any]:
    """Return what the instrument shows: its kind, side, share of the rate-one mark, and the ball."""
    return {name: parameters[name] for name in ("instrument", "turn", "mark", "ball")}


def _drawn(parameters: Mapping[str, Any]) -> tuple[FigureCall, ...]:
    return (FigureCall("turn-instrument", _shown(parameters)),)


def _ball(parameters: Mapping[str, Any]) -> str:
    """Return where the ball lies: left, centre or right."""
    return str(parameters["ball"]).removeprefix("ball-")


def _state(parameters: Mapping[str, Any]) -> Solution:
    turn, ball = parameters["turn"], _ball(parameters)
    other = _other_side(turn)
    if ball == "centre":
        balance = "balanced"
        wrong = {"turn-mirrored": f"{other}-balanced", "every-turn-slips": f"{turn}-slip",
                 "every-turn-skids": f"{turn}-skid"}  # fmt: skip
    else:
        balance, swapped = ("slip", "skid") if ball == turn else ("skid", "slip")
        wrong = {"slip-skid-swapped": f"{turn}-{swapped}", "ball-ignored": f"{turn}-balanced",
                 "turn-mirrored": f"{other}-{swapped}"}  # fmt: skip
    return Solution(
        key=f"{turn}-{balance}",
        given={"ask": "state", **_shown(parameters)},
        figures=_drawn(parameters),
        wrong=wrong,
        steps=("needle-tells-turn", f"ball-{balance}"),
        features={"ball-out": float(ball != "centre")},
    )


def _pedal(parameters: Mapping[str, Any]) -> Solution:
    turn, ball = parameters["turn"], _ball(parameters)
    if ball == "centre":
        key = "no-pedal"
        wrong = {"with-the-turn": f"{turn}-pedal", "against-the-turn": f"{_other_side(turn)}-pedal"}
    else:
        key = f"{ball}-pedal"
        wrong = {"away-from-ball": f"{_other_side(ball)}-pedal", "ball-ignored": "no-pedal"}
    return Solution(
        key=key,
        given={"ask": "pedal", **_shown(parameters)},
        figures=_drawn(parameters),
        wrong=wrong,
        options=("left-pedal", "no-pedal", "right-pedal"),
        steps=("step-on-the-ball" if ball != "centre" else "ball-is-home",),
        features={"ball-out": float(ball != "centre")},
    )


def _degrees(parameters: Mapping[str, Any]) -> Solution:
    turn: TurnSide = parameters["turn"]
    share, seconds = MARKS[parameters["mark"]], parameters["seconds"]
    rate = share * RATE_ONE_DEG_S
    turned = rate * seconds
    if turned % 1:
        raise Redraw("half a degree has no place in the answer")
    wrong = {"other-side": -turned, "minute-circle": 2 * turned, "one-a-second": share * seconds}
    if share != 1:
        wrong["mark-ignored"] = RATE_ONE_DEG_S * seconds
    side = turn_sign(turn)
    return Solution(
        key=side * whole(turned),
        given={"ask": "degrees", **_shown(parameters), "seconds": seconds},
        figures=_drawn(parameters),
        wrong={name: side * whole(value) for name, value in wrong.items()},
        quantities={"share": share, "rate": rate, "turned_deg": turned},
        steps=("mark-is-rate-one", "this-rate", "times-seconds", f"signed-{turn}"),
        features={"ball-out": float(_ball(parameters) != "centre")},
    )


def _meaning(parameters: Mapping[str, Any]) -> Solution:
    needle = parameters["instrument"] == "turn-needle"
    key, other = ("turn-only", "turn-and-roll") if needle else ("turn-and-roll", "turn-only")
    mixed_up = "needle-feels-roll" if needle else "only-turn"
    return Solution(
        key=key,
        given={"ask": "meaning", "instrument": parameters["instrument"]},
        wrong={mixed_up: other, "shows-bank": "bank", "bank-and-turn": "bank-and-turn"},
        options=("turn-only", "turn-and-roll", "bank", "bank-and-turn"),
        steps=("needle-axis" if needle else "coordinator-axis", "bank-by-speed"),
        features={"ball-out": -1.0},
    )
