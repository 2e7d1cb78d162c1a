"""The tilted card seen from behind: in a banked turn part of the vertical field lies along the card.

Seen from the left instead, nose to the left, the same drawing shows a change of speed: the tilt is then fore and aft.

In a co-ordinated turn the card hangs square to the apparent vertical, so it tilts with the bank p. Of the vertical
field Z the part Z sin p then lies along the card: toward the low wing where the dip is down, toward the high one where
it is up.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot

from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import between, need, one_of
from app.figures.strokes import (
    EDGE,
    THIN,
    Lettering,
    Pen,
    Point,
    around,
    polygon,
    polyline,
    ring,
    segment,
    sheet,
    stroke,
    words,
)
from app.figures.words import pick
from app.physics.angles import atan2_deg, cos_deg, sin_deg

WIDTH = 320.0
PIVOT_X, PIVOT_Y, BELOW = 142.0, 92.0, 170.0
HALF_CARD, HALF_CASE, CASE_TOP, CASE_FOOT = 104.0, 124.0, -58.0, 46.0
FIELD = 140.0
MARGIN, HEAD = 4.0, 10.0
LARGEST_BANK_DEG = 45


@dataclass(frozen=True, slots=True)
class Tilt:
    """A banked card on the drawing: `bank_deg` right positive, `down` +1 where the dip is down, -1 where it is up."""

    bank_deg: float
    down: int

    @property
    def right(self) -> int:
        """Side of the low wing: +1 right, -1 left."""
        return 1 if self.bank_deg >= 0 else -1

    @property
    def pivot(self) -> Point:
        """Where the card hangs: to the side of the high wing, low enough for the case above it."""
        above = MARGIN + HALF_CASE * abs(sin_deg(self.bank_deg)) - CASE_TOP * cos_deg(self.bank_deg)
        x = PIVOT_X if self.right > 0 else WIDTH - PIVOT_X
        return x, max(PIVOT_Y, above) if self.down > 0 else BELOW

    @property
    def height(self) -> float:
        """Height of the drawing."""
        below = HALF_CASE * abs(sin_deg(self.bank_deg)) + CASE_FOOT * cos_deg(self.bank_deg) + 30
        return self.pivot[1] + (BELOW if self.down > 0 else max(PIVOT_Y, below))

    def at(self, along: float, across: float) -> Point:
        """Return a point by its distances along the card, right positive, and square to it, downward."""
        sine, cosine = sin_deg(self.bank_deg), cos_deg(self.bank_deg)
        x, y = self.pivot
        return x + along * cosine - across * sine, y + along * sine + across * cosine

    @property
    def tip(self) -> Point:
        """End of the vertical field."""
        return self.pivot[0], self.pivot[1] + self.down * FIELD

    @property
    def part_along(self) -> Point:
        """End of the vertical field's part along the card."""
        return self.at(self.down * FIELD * sin_deg(self.bank_deg), 0)

    @property
    def part_across(self) -> Point:
        """End of the vertical field's part square to the card, along the apparent vertical."""
        return self.at(0, self.down * FIELD * cos_deg(self.bank_deg))


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw card, case and the vertical field with its two parts."""
    tilt = Tilt(values["bank_deg"], -1 if values["dip_deg"] < 0 else 1)
    aside = values.get("view") == "left"
    low_edge = pick(language, "low edge", "bord bas") if aside else pick(language, "low wing", "aile basse")
    corners = [(-HALF_CASE, CASE_TOP), (HALF_CASE, CASE_TOP), (HALF_CASE, CASE_FOOT), (-HALF_CASE, CASE_FOOT)]
    level_y = tilt.pivot[1]
    parts = [
        stroke(polygon(tilt.at(*corner) for corner in corners), THIN),
        stroke(segment((1, level_y), (WIDTH - 1, level_y)), THIN),
        stroke(polyline([tilt.part_along, tilt.tip, tilt.part_across]), THIN),
        stroke(segment(tilt.at(-HALF_CARD, 0), tilt.at(HALF_CARD, 0)), Pen("ink", 6)),
        *arrow(tilt.pivot, tilt.part_across, EDGE),
        *arrow(tilt.pivot, tilt.tip, Pen("magnetic", 2.5)),
        *arrow(tilt.pivot, tilt.part_along, Pen("magnetic", 4)),
        ring(tilt.pivot, 5, Pen("ink", 2), "paper"),
        *_labels(tilt, language, low_edge),
    ]
    title = pick(language, "The card tilts with the bank", "La rose s'incline en virage")
    description, said = _describe(tilt, language), pick(language, "Seen from behind.", "Vue de derrière.")
    if aside:
        title = pick(language, "The card tilts while the speed changes", "La rose penche quand la vitesse change")
        description = _describe_aside(tilt, language)
        said = pick(language, "Seen from the left, nose to the left.", "Vue de gauche, le nez à gauche.")
    markup = sheet("tilted-card", (WIDTH, tilt.height), parts, title, description)
    return Drawing("tilted-card", markup, title, description, said)


def arrow(start: Point, tip: Point, pen: Pen) -> Iterator[str]:
    """Draw an arrow; one too short for a head is a bare line."""
    run, drop = tip[0] - start[0], tip[1] - start[1]
    yield stroke(segment(start, tip), pen)
    if hypot(run, drop) > HEAD:
        back = atan2_deg(run, -drop) + 180
        head = polyline([around(tip, HEAD, back - 28), tip, around(tip, HEAD, back + 28)])
        yield stroke(head, Pen(pen.ink, min(pen.width, 2.5)))


def _labels(tilt: Tilt, language: Language, low_edge: str) -> Iterator[str]:
    right, (x, y) = tilt.right, tilt.pivot
    toward_low, toward_high = ("start", "end") if right > 0 else ("end", "start")
    edge = WIDTH - 2 if right > 0 else 2.0
    yield words(
        (edge, y + 17), pick(language, "level", "à plat"), Lettering(ink="soft", anchor=toward_high, halo="paper")
    )
    high = tilt.at(-HALF_CARD * right, 0)
    yield words((high[0], high[1] - 13), pick(language, "card", "rose"), Lettering(anchor=toward_low, halo="paper"))
    low = tilt.at(HALF_CASE * right, CASE_FOOT)
    yield words((low[0] - 30 * right, low[1] + 19), low_edge, Lettering(ink="soft"))
    if tilt.bank_deg:
        anchor, rise = (toward_low, -13) if tilt.down > 0 else (toward_high, 24)
        said = pick(language, "along the card", "suivant la rose")
        spot = (x + 12 * right * tilt.down, y + rise)
        yield words(spot, said, Lettering(15, "magnetic", bold=True, anchor=anchor, halo="paper"))
        yield from _apparent(tilt, language, toward_high if tilt.down > 0 else toward_low)
    way = pick(language, "Z, straight down|Z, straight up", "Z, vers le bas|Z, vers le haut").split("|")[tilt.down < 0]
    side, anchor = (right, toward_low) if tilt.down > 0 else (-right, toward_high)
    spot = (tilt.tip[0] + 9 * side, tilt.tip[1] + (2 if tilt.down > 0 else 8))
    yield words(spot, way, Lettering(ink="magnetic", anchor=anchor, halo="paper"))


def _apparent(tilt: Tilt, language: Language, anchor: str) -> Iterator[str]:
    ways = pick(language, "apparent|down apparent|up", "bas|apparent haut|apparent").split(" ")
    x, y = tilt.part_across
    beside = -9 * tilt.right * tilt.down
    for line, text in enumerate(ways[tilt.down < 0].split("|")):
        yield words((x + beside, y + 2 + 16 * line), text, Lettering(anchor=anchor, halo="paper"))


def _describe(tilt: Tilt, language: Language) -> str:
    side = pick(language, "right left", "droite gauche").split()[tilt.right < 0]
    size = f"{abs(tilt.bank_deg):g}"
    if not tilt.bank_deg:
        return pick(
            language,
            "Seen from behind with wings level: the card is level and no part of the vertical field Z lies along it.",
            "Vu de derrière, ailes à plat\u00a0: la rose est à plat, aucune part du champ vertical Z ne la suit.",
        )
    wing = pick(language, "low high", "basse haute").split()[tilt.down < 0]
    up = pick(language, "down up", "bas haut").split()[tilt.down < 0]
    return pick(
        language,
        f"Seen from behind in a bank of {size} degrees to the {side}: the card tilts with the aircraft. The vertical "
        f"field Z points straight {up}; a part of it lies along the card, toward the {wing} wing.",
        f"Vu de derrière, inclinaison latérale de {size} degrés à {side}\u00a0: la rose s'incline avec l'avion. Le "
        f"champ vertical Z pointe vers le {up}; une part suit la rose, vers l'aile {wing}.",
    )


def _describe_aside(tilt: Tilt, language: Language) -> str:
    if not tilt.bank_deg:
        return pick(
            language,
            "From the left, at a steady speed: the card is level, and no part of the vertical field Z lies along it.",
            "Vu de gauche à vitesse constante\u00a0: la rose est à plat, aucune part du champ vertical Z ne la suit.",
        )
    size = f"{abs(tilt.bank_deg):g}"
    edge = pick(language, "after forward", "arrière avant").split()[tilt.right < 0]
    return pick(
        language,
        f"Seen from the left while the speed changes: the card's {edge} edge has sunk by {size} degrees. A part of the "
        "vertical field Z lies along the card, fore and aft.",
        f"Vu de gauche pendant que la vitesse change\u00a0: le bord {edge} de la rose est descendu de "
        f"{size.replace('.', ',')} degrés. Une part du champ vertical Z suit la rose, d'avant en arrière.",
    )


TILTED_CARD = Figure(
    "tilted-card",
    {
        "dip_deg": need(between(-90, 90)),
        "bank_deg": need(between(-LARGEST_BANK_DEG, LARGEST_BANK_DEG)),
        "view": one_of("behind", "left"),
    },
    draw,
)
