"""A leg from A to B, flown from left to right, and the position off it; drawn wider across the track than it is.

The widening keeps every share of a fan between the track and a ten-degree line as it is. With `lines` the fans stand
at both ends; with `angles` the way flown and the way to go are drawn with their angles, as after an answer.
"""

from collections.abc import Iterator

from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import FLAG, between, need, one_of
from app.figures.strokes import (
    EDGE,
    EVENT_DASH,
    FRAME,
    HEAVY,
    THIN,
    Lettering,
    Pen,
    Point,
    centred,
    disc,
    polyline,
    ring,
    rounded,
    segment,
    segments,
    sheet,
    stroke,
)
from app.figures.words import NBSP, pick
from app.physics.angles import tan_deg

SIZE = (320.0, 240.0)
START_X, END_X, TRACK_Y = 34.0, 286.0, 120.0
LONGEST_WIDENING, HALF_ROOM = 3.0, 80.0
LINES_DEG = 10.0
LABEL_OUT = 17.0


def position_of(values: Values) -> Point:
    """Return where the aircraft stands on the drawing; right of the track is below it."""
    gone, leg = values["gone_nm"], values["gone_nm"] + values["left_nm"]
    right = 1 if values["side"] == "right" else -1
    return START_X + _unit(leg) * gone, TRACK_Y + right * _unit(leg) * _widening(values) * off_nm(values)


def line_end(values: Values, *, from_start: bool, right: bool) -> Point:
    """Return the far end of a ten-degree line, at the height of the frame or at the other end of the leg."""
    slope = _widening(values) * tan_deg(LINES_DEG)
    run = min(END_X - START_X, HALF_ROOM / slope)
    x = START_X + run if from_start else END_X - run
    return x, TRACK_Y + (1 if right else -1) * run * slope


def off_nm(values: Values) -> float:
    """Return the miles off: as given, or from the share of the fan drawn from A."""
    if "off_nm" in values:
        return float(values["off_nm"])
    return float(values["fraction"] * values["gone_nm"] * tan_deg(LINES_DEG))


def _unit(leg_nm: float) -> float:
    return (END_X - START_X) / leg_nm


def _widening(values: Values) -> float:
    """Return how many times wider: as much as there is room for, with the lines drawn at least up to the position."""
    unit = _unit(values["gone_nm"] + values["left_nm"])
    widest = off_nm(values)
    if values.get("lines"):
        widest = max(widest, max(values["gone_nm"], values["left_nm"]) * tan_deg(LINES_DEG))
    return float(min(LONGEST_WIDENING, HALF_ROOM / (unit * widest)))


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the leg with the position, and what was asked for besides."""
    at = position_of(values)
    parts = [
        stroke(rounded((6, 6), (SIZE[0] - 12, SIZE[1] - 12), 2), EDGE, "card"),
        *(_fans(values) if values.get("lines") else ()),
        stroke(segment((START_X, TRACK_Y), (END_X, TRACK_Y)), HEAVY),
        stroke(polyline(((156, TRACK_Y - 6), (168, TRACK_Y), (156, TRACK_Y + 6))), FRAME),
        *(_angles(values, at) if values.get("angles") else ()),
        *(disc((x, TRACK_Y), 4.5) for x in (START_X, END_X)),
        ring(at, 6, FRAME, "card"),
        disc(at, 2.5),
        *_labels(values),
    ]
    title = pick(language, "The leg and where you are", "L'étape et votre position")
    description = _describe(values, language)
    return Drawing("track-sketch", sheet("track-sketch", SIZE, parts, title, description), title, description)


def _fans(values: Values) -> Iterator[str]:
    ends = [
        ((START_X if start else END_X, TRACK_Y), line_end(values, from_start=start, right=right))
        for start in (True, False)
        for right in (True, False)
    ]
    yield stroke(segments(ends), Pen("ink", 1.5, "9 6"))
    for x, anchor in ((START_X + 62, START_X), (END_X - 62, END_X)):
        slope = _widening(values) * tan_deg(LINES_DEG)
        yield centred((x, TRACK_Y - abs(x - anchor) * slope - 13), "10°", Lettering(14, halo="card"))


def _angles(values: Values, at: Point) -> Iterator[str]:
    """Draw the way flown whole and the way to go dotted, each with its angle."""
    yield stroke(segment((START_X, TRACK_Y), at), FRAME)
    yield stroke(segment(at, (END_X, TRACK_Y)), Pen("ink", 2, EVENT_DASH))
    up = -1 if values["side"] == "right" else 1  # angles are written on the free side of the track
    for x, along in ((START_X + 34, "gone_nm"), (END_X - 34, "left_nm")):
        said = f"{_angle_deg(values, along):.0f}°"
        yield centred((x, TRACK_Y + up * LABEL_OUT), said, Lettering(16, bold=True, halo="card"))


def _angle_deg(values: Values, along: str) -> float:
    """By the lines where they are drawn, else by one-in-sixty."""
    if values.get("lines"):
        return LINES_DEG * off_nm(values) / float(values[along] * tan_deg(LINES_DEG))
    return 60 * off_nm(values) / float(values[along])


def _labels(values: Values) -> Iterator[str]:
    for x, letter in ((START_X - 14, "A"), (END_X + 14, "B")):
        yield centred((x, TRACK_Y), letter, Lettering(17, bold=True, halo="card"))
    middle = position_of(values)[0]
    for x, distance in (((START_X + middle) / 2, values["gone_nm"]), ((middle + END_X) / 2, values["left_nm"])):
        inside = min(max(x, 44.0), 276.0)
        yield centred((inside, 222), f"{distance:g}{NBSP}NM", Lettering(14, halo="card"))
    ends = [((x, 206.0), (x, 214.0)) for x in (START_X, middle, END_X)]
    yield stroke(segments([*ends, ((START_X, 210.0), (END_X, 210.0))]), THIN)


def _describe(values: Values, language: Language) -> str:
    gone, left = (f"{values[name]:g}{NBSP}NM" for name in ("gone_nm", "left_nm"))
    side = pick(language, values["side"], {"left": "gauche", "right": "droite"}[values["side"]])
    said = [
        pick(
            language,
            f"A leg from A to B; your position lies {side} of it, {gone} along, with {left} left. "
            "Across the track it is drawn wider than it is.",
            f"Une étape de A à B; votre position est à {side} de celle-ci, à {gone} de A, et il reste {left}. "
            "En travers de la route, le dessin est élargi.",
        )
    ]
    if values.get("lines"):
        said += [_share(values, language, name) for name in ("gone_nm", "left_nm")]
    if values.get("angles"):
        behind, ahead = (_angle_deg(values, name) for name in ("gone_nm", "left_nm"))
        said.append(
            pick(
                language,
                f"Angle at A {behind:.0f}°, at B {ahead:.0f}°.",
                f"Angle en A {behind:.0f}°, en B {ahead:.0f}°.",
            )
        )
    return " ".join(said)


def _share(values: Values, language: Language, along: str) -> str:
    """Say how far out between track and line the position lies, as the eye sees it; not in degrees."""
    share = round(10 * off_nm(values) / (values[along] * tan_deg(LINES_DEG)))
    end = "A" if along == "gone_nm" else "B"
    if share > 10:
        return pick(
            language,
            f"It lies outside the lines drawn from {end}.",
            f"Elle se trouve à l'extérieur des lignes tirées de {end}.",
        )
    return pick(
        language,
        f"It lies {share} tenths of the way from the track to the ten-degree line drawn from {end}.",
        f"Elle se trouve aux {share} dixièmes de l'écart entre la route et la ligne de dix degrés tirée de {end}.",
    )


def _conflicts(values: Values) -> list[str]:
    return [] if ("off_nm" in values) != ("fraction" in values) else ["give off_nm, or fraction of the fan from A"]


DISTANCE = need(between(1, 500, "a number of nautical miles"))
TRACK_SKETCH = Figure(
    "track-sketch",
    {
        "gone_nm": DISTANCE,
        "left_nm": DISTANCE,
        "off_nm": between(0.1, 100, "a number of nautical miles"),
        "fraction": between(0.05, 2, "a share"),
        "side": need(one_of("left", "right")),
        "lines": FLAG,
        "angles": FLAG,
    },
    draw,
    _conflicts,
)
