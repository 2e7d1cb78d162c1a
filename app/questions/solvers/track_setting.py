"""Setting heading and altering it by eye: the time to log, the heading after a landmark, and what to do off track."""

from collections.abc import Mapping
from typing import Any

from app.physics.angles import shown
from app.physics.track import MINUTES_A_DAY
from app.questions.conventions import Conventions
from app.questions.model import Redraw, Solution
from app.questions.solvers.registry import solver
from app.questions.solvers.subsets import few_of

# What to do in each situation, then what is behind each of the other three answers.
DEEDS: dict[str, tuple[str, dict[str, str]]] = {
    "landmark-ahead": ("fly-to-it", {"work-it": "sums-for-eyes", "wait": "waits", "check-instruments": "doubts-first"}),
    "landmark-abeam-nose": ("fly-to-it", {"work-it": "sums-for-eyes", "wait": "waits",
                                          "check-instruments": "doubts-first"}),
    "fix-in-haze": ("work-it", {"fly-to-it": "steers-unseen", "wait": "waits", "check-instruments": "doubts-first"}),
    "fix-behind-hills": ("work-it", {"fly-to-it": "steers-unseen", "wait": "waits",
                                     "check-instruments": "doubts-first"}),
    "on-the-line": ("wait", {"work-it": "alters-on-a-guess", "fly-to-it": "chases-landmarks",
                             "check-instruments": "doubts-first"}),
    "late-on-the-line": ("wait", {"work-it": "alters-for-time", "fly-to-it": "chases-landmarks",
                                  "check-instruments": "doubts-first"}),
    "off-at-once": ("check-instruments", {"work-it": "corrects-a-wrong-heading", "wait": "waits",
                                          "fly-to-it": "hides-the-cause"}),
    "card-disagrees": ("check-instruments", {"work-it": "corrects-a-wrong-heading", "wait": "waits",
                                             "fly-to-it": "hides-the-cause"}),
}  # fmt: skip

SORTED = 4


@solver("set-heading-and-alter")
def set_heading_and_alter(parameters: Mapping[str, Any], _conventions: Conventions) -> Solution:
    """Key by ask: the time overhead at height and speed; the heading less the track error; what the situation needs."""
    ask = parameters["ask"]
    if ask == "log":
        return _time_to_log(parameters)
    if ask == "deeds":
        return _deeds(few_of(tuple(DEEDS), SORTED, parameters["shuffle"]))
    return _after_landmark(parameters) if ask == "after" else _deed(parameters["situation"])


def _time_to_log(parameters: Mapping[str, Any]) -> Solution:
    off, climb, level = (parameters[name] for name in ("time_utc", "earlier_minutes", "later_minutes"))
    times = {
        "takeoff_min": off,
        "first_pass_min": (off + climb) % MINUTES_A_DAY,
        "overhead_min": (off + climb + level) % MINUTES_A_DAY,
        "checkpoint_min": (off + climb + level + parameters["minutes"]) % MINUTES_A_DAY,
    }
    return Solution(
        key=times["overhead_min"],
        given={"ask": "log", **times},
        wrong={"takeoff-time": times["takeoff_min"], "still-climbing": times["first_pass_min"],
               "first-checkpoint": times["checkpoint_min"]},
        steps=("which-pass", "why-there"),
        scene="log",
    )  # fmt: skip


def _after_landmark(parameters: Mapping[str, Any]) -> Solution:
    heading, error, closing, side = (
        parameters[name] for name in ("heading_deg", "track_error_deg", "closing_deg", "side")
    )
    back = -1 if side == "right" else 1
    key, steered = shown(heading + back * error), shown(heading + back * (error + closing))
    if closing == error:
        raise Redraw("steering to the landmark is doubling the error")
    return Solution(
        key=key,
        given={"ask": "after", "heading_deg": heading, "track_error_deg": error, "side": side, "steer_deg": steered},
        wrong={
            "old-heading": heading,
            "keeps-the-steered": steered,
            "twice": shown(heading + 2 * back * error),
            "other-way": shown(heading - back * error),
            "off-the-steered": shown(steered + back * error),
            "twice-other-way": shown(heading - 2 * back * error),
        },
        quantities={"key_deg": key, "turn": "left" if back < 0 else "right"},
        steps=("landmark-reached", "less-error" if back < 0 else "plus-error"),
        scene="after",
        features={"crosses-north": float(abs(key - heading) > 180)},
    )


def _deeds(situations: tuple[str, ...]) -> Solution:
    slips = {(each, answer): name for each in situations for answer, name in DEEDS[each][1].items()}
    return Solution(
        key={each: DEEDS[each][0] for each in situations},
        given={"ask": "deeds"},
        options=situations,
        slips=slips,
        steps=tuple(f"why-{each}" for each in situations),
        scene="deeds",
    )


def _deed(situation: str) -> Solution:
    key, behind = DEEDS[situation]
    return Solution(
        key=key,
        given={"ask": "deed", "situation": situation},
        options=tuple(sorted((key, *behind))),
        wrong={name: answer for answer, name in behind.items()},
        steps=(f"why-{situation}",),
        scene="deed",
    )
