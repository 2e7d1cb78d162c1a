"""Headings against time: the real one dashed, the reading solid and heavy, a card without delay thin.

Two widths: a wide one with the lines named beside them, a narrow one for a phone, whose lines the caption names.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor

from app.figures.faces import three_digits
from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import between, need, one_of
from app.figures.strokes import (
    EVENT_DASH,
    GRATICULE,
    HEAVY,
    MAGNETIC,
    Lettering,
    Pen,
    Point,
    disc,
    polyline,
    ring,
    segment,
    sheet,
    stroke,
    words,
)
from app.figures.time_plot_series import CUE_LIST, EVENT_LIST, EVENTS, SERIES, caption, conflicts, describe
from app.figures.words import pick
from app.physics.angles import unwrap

SIZES = {"wide": (720.0, 330.0), "narrow": (320.0, 320.0)}
LEFT, RIGHT, TOP, BOTTOM = 46.0, 14.0, 30.0, 44.0
MOST_POINTS = 300
STEPS_S = (5, 10, 20, 30, 60, 120, 300, 600)
STEPS_DEG = (30, 60, 90, 180, 360)
LINES = {
    "real_deg": (MAGNETIC, "real", "réel"),
    "settled_deg": (Pen("line", 1.5), "no delay", "sans délai"),
    "reading_deg": (HEAVY, "compass", "compas"),
}


@dataclass(frozen=True, slots=True)
class Frame:
    """The plot's stretch of time and of unwrapped headings, and where they stand."""

    wide: bool
    last_s: float
    low: float
    high: float

    @property
    def size(self) -> Point:
        """Width and height of the drawing."""
        return SIZES["wide" if self.wide else "narrow"]

    def at(self, seconds: float, heading: float) -> Point:
        """Return the point of a time and an unwrapped heading."""
        width, height = self.size
        x = LEFT + seconds * (width - LEFT - RIGHT) / self.last_s
        y = height - BOTTOM - (heading - self.low) * (height - TOP - BOTTOM) / (self.high - self.low)
        return round(x, 1), round(y, 1)  # a page holds some thousand of them


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the headings over time, the events and the moment looked at."""
    times = values["times_s"]
    lines = _unwrapped(values)
    held = [heading for line in lines.values() for heading in line]
    frame = Frame(values["width"] == "wide", times[-1], 30 * floor(min(held) / 30), 30 * ceil((max(held) + 1e-9) / 30))
    parts = [*_graticule(frame, language), *_events(frame, values, language)]
    for name, line in lines.items():
        step = max(1, ceil(len(line) / MOST_POINTS))
        points = [frame.at(t, h) for t, h in zip(times, line, strict=True)]
        parts.append(stroke(polyline([*points[:-1:step], points[-1]]), LINES[name][0]))
    if frame.wide:
        parts += _names(frame, times, lines, language)
    parts += _cues(frame, values, times, lines["reading_deg"])
    if "at_s" in values:
        parts += _moment(frame, values["at_s"], times, lines)
    title = pick(language, "Headings against time", "Caps en fonction du temps")
    description = describe(values, lines, language)
    markup = sheet("time-plot", frame.size, parts, title, description)
    return Drawing("time-plot", markup, title, description, caption(lines, language))


def _unwrapped(values: Values) -> dict[str, list[float]]:
    """Count every line on across north, all from the first real heading."""
    lines: dict[str, list[float]] = {}
    for name in LINES:
        if name in values:
            near, line = float(values["real_deg"][0]), []
            for heading in values[name]:
                near = unwrap(heading, near)
                line.append(near)
            lines[name] = line
    return lines


def _graticule(frame: Frame, language: Language) -> Iterator[str]:
    width, height = frame.size
    every = next(step for step in STEPS_DEG if (frame.high - frame.low) / step <= 12 or step == STEPS_DEG[-1])
    for heading in range(int(frame.low), int(frame.high) + 1, every):
        _, y = frame.at(0, heading)
        yield stroke(segment((LEFT, y), (width - RIGHT, y)), GRATICULE)
        yield words((LEFT - 8, y + 5), three_digits(heading), Lettering(ink="soft", anchor="end"))
    foot = height - BOTTOM
    yield stroke(segment((LEFT, foot), (width - RIGHT, foot)), Pen("line", 1.25))
    most = 9 if frame.wide else 5
    step = next((each for each in STEPS_S if frame.last_s / each <= most), STEPS_S[-1])
    for seconds in range(0, floor(frame.last_s) + 1, step):
        x, _ = frame.at(seconds, frame.low)
        yield stroke(segment((x, foot), (x, foot + 5)), Pen("line", 1.25))
        yield words((x, foot + 20), str(seconds), Lettering(ink="soft"))
    said = pick(language, "seconds", "secondes")
    yield words((width - RIGHT, height - 6), said, Lettering(ink="soft", anchor="end"))


def _events(frame: Frame, values: Values, language: Language) -> Iterator[str]:
    for event in values.get("events", ()):
        x, _ = frame.at(event["seconds"], frame.low)
        yield stroke(segment((x, 8), (x, frame.size[1] - BOTTOM)), Pen("line", 2, EVENT_DASH))
        if frame.wide:
            said = pick(language, *EVENTS[event["name"]])
            room = x + 150 <= frame.size[0]
            spot = (x + 6 if room else x - 6, 18)
            yield words(spot, said, Lettering(ink="soft", anchor="start" if room else "end"))


def _names(frame: Frame, times: Sequence[float], lines: dict[str, list[float]], language: Language) -> Iterator[str]:
    """Name each line beside it, on the side away from the others."""
    real = lines["real_deg"]
    up = -1 if real[-1] >= real[0] else 1
    for name, share, side in (("real_deg", 0.22, 1), ("settled_deg", 0.6, 1), ("reading_deg", 0.78, -1)):
        if name not in lines:
            continue
        at = round(share * (len(times) - 1))
        x, y = frame.at(times[at], lines[name][at])
        pen, english, french = LINES[name]
        style = Lettering(15, pen.ink if name != "settled_deg" else "soft", bold=name != "settled_deg",
                          anchor="end" if side > 0 else "start", halo="paper")  # fmt: skip
        yield words((x - 10 * side, y + 5 + 14 * side * up), pick(language, english, french), style)


def _cues(frame: Frame, values: Values, times: Sequence[float], reading: Sequence[float]) -> Iterator[str]:
    """Ring the readings at which somebody's roll-out starts, each with its number, above and below in turn."""
    for cue in values.get("cues", ()):
        near = min(range(len(times)), key=lambda each: abs(times[each] - cue["seconds"]))
        x, y = frame.at(cue["seconds"], reading[near])
        side = -1 if cue["number"] % 2 else 1
        yield ring((x, y), 5, Pen("ink", 2), "paper")
        yield words((x, y + 5 + 18 * side), str(cue["number"]), Lettering(15, bold=True, halo="paper"))


def _moment(frame: Frame, at_s: float, times: Sequence[float], lines: dict[str, list[float]]) -> Iterator[str]:
    """Draw the moment looked at: a lubber line, with a dot on the real heading and one on the reading."""
    at = min(range(len(times)), key=lambda each: abs(times[each] - at_s))
    x, _ = frame.at(times[at], frame.low)
    yield "<g>"  # together, so that a page can move it
    yield stroke(segment((x, TOP - 8), (x, frame.size[1] - BOTTOM)), HEAVY)
    for name, ink in (("real_deg", "magnetic"), ("reading_deg", "ink")):
        yield disc(frame.at(times[at], lines[name][at]), 7, "paper")
        yield disc(frame.at(times[at], lines[name][at]), 4.5, ink)
    yield "</g>"


TIME_PLOT = Figure(
    "time-plot",
    {
        "times_s": need(SERIES),
        "real_deg": need(SERIES),
        "reading_deg": need(SERIES),
        "settled_deg": SERIES,
        "at_s": between(0, 86_400, "seconds"),
        "events": EVENT_LIST,
        "cues": CUE_LIST,
        "width": need(one_of("wide", "narrow")),
    },
    draw,
    conflicts,
)
