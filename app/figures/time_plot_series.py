"""The series of a plot of headings against time: what is accepted, and what is said of them."""

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any

from app.figures.faces import three_digits
from app.figures.figure import Values
from app.figures.model import Language
from app.figures.parameters import Parameter, is_number
from app.figures.strokes import number
from app.figures.words import pick

LINE_NAMES = ("real_deg", "settled_deg", "reading_deg")
EVENTS = {"full-bank": ("full bank", "pleine inclinaison"), "roll-out": ("roll-out starts", "début de sortie")}

Lines = Mapping[str, Sequence[float]]


def caption(lines: Lines, language: Language) -> str:
    """Say which line is which."""
    said = pick(
        language,
        "Dashed: the real magnetic heading. Heavy: the compass reading.",
        "Tirets\u00a0: le cap magnétique réel. Trait épais\u00a0: l'indication du compas.",
    )
    if "settled_deg" in lines:
        said += pick(
            language, " Thin: where a card without delay would stand.", " Trait fin\u00a0: une rose sans délai."
        )
    return said


def describe(values: Values, lines: Lines, language: Language) -> str:
    """Say the headings at the start, where they lie farthest apart, at the end and at the moment looked at."""
    times, real, reading = values["times_s"], lines["real_deg"], lines["reading_deg"]
    most = max(range(len(times)), key=lambda at: abs(real[at] - reading[at]))
    moments = [0, most, len(times) - 1]
    if "at_s" in values:
        moments.append(min(range(len(times)), key=lambda each: abs(times[each] - values["at_s"])))
    rows = [
        pick(
            language,
            f"at {number(round(times[at], 1))} s real {three_digits(real[at])}, reading {three_digits(reading[at])}",
            f"à {number(round(times[at], 1)).replace('.', ',')} s réel {three_digits(real[at])}, "
            f"indication {three_digits(reading[at])}",
        )
        for at in sorted(set(moments))
    ]
    start = pick(
        language, "Real heading and compass reading over time", "Cap réel et indication du compas dans le temps"
    )
    return f"{start}{pick(language, ': ', chr(160) + ': ')}{'; '.join(rows)}."


def conflicts(values: Values) -> list[str]:
    """List what does not fit together: lengths, times that do not grow, moments off the plot."""
    count, times = len(values["times_s"]), values["times_s"]
    found = [
        f"{name} has {len(values[name])} values for {count} times: give one for each time"
        for name in LINE_NAMES
        if name in values and len(values[name]) != count
    ]
    if times[0] < 0 or any(later <= earlier for earlier, later in pairwise(times)):
        found.append("times_s must start at 0 or later and grow")
    moments = [("at_s", values["at_s"])] if "at_s" in values else []
    moments += [("cues", cue["seconds"]) for cue in values.get("cues", ())]
    moments += [("events", event["seconds"]) for event in values.get("events", ())]
    found += [
        f"{name} is at {s:g} s: the plot ends at {times[-1]:g} s" for name, s in moments if not 0 <= s <= times[-1]
    ]
    return found


def _is_series(value: Any) -> bool:
    return isinstance(value, list | tuple) and 2 <= len(value) <= 20_000 and all(is_number(each) for each in value)


def _are_events(value: Any) -> bool:
    return isinstance(value, list | tuple) and all(
        set(event) == {"seconds", "name"} and is_number(event["seconds"]) and event["name"] in EVENTS for event in value
    )


def _are_cues(value: Any) -> bool:
    return isinstance(value, list | tuple) and all(
        set(cue) == {"seconds", "number"} and is_number(cue["seconds"]) and cue["number"] in range(1, 10)
        for cue in value
    )


SERIES = Parameter("a list of two or more numbers", _is_series)
EVENT_LIST = Parameter(f"a list of {{seconds, name}}, name one of {', '.join(EVENTS)}", _are_events)
CUE_LIST = Parameter("a list of {seconds, number}, number 1 to 9: roll-outs that somebody's rule starts", _are_cues)
