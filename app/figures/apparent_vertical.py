"""Why the card tilts: gravity, and the aircraft's acceleration turned round, add to the vertical the card hangs from.

Seen from behind for a turn, from the left with the nose to the left for a change of speed, as the tilted card itself.
"""

from collections.abc import Iterator

from app.figures.figure import Figure, Values
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import between, need, one_of
from app.figures.strokes import EDGE, THIN, Lettering, Pen, Point, ring, segment, sheet, stroke, words
from app.figures.tilted_card import LARGEST_BANK_DEG, arrow
from app.figures.words import pick
from app.physics.angles import cos_deg, sin_deg, tan_deg

SIZE = (320.0, 196.0)
PIVOT = (160.0, 48.0)
GRAVITY, HALF_CARD = 106.0, 64.0
ROOM = 136.0  # that the longest name takes, in the widest face that may stand in for ours


def draw(values: Values, language: Language, _medium: Medium) -> Drawing:
    """Draw the card and the two vectors with their sum."""
    bank_deg, aside = float(values["bank_deg"]), values.get("view") == "left"
    x, y = PIVOT
    down: Point = (x, y + GRAVITY)
    apparent: Point = (x - GRAVITY * tan_deg(bank_deg), down[1])
    reach = (HALF_CARD * cos_deg(bank_deg), HALF_CARD * sin_deg(bank_deg))
    parts = [
        stroke(segment((1, y), (SIZE[0] - 1, y)), THIN),
        stroke(segment((x - reach[0], y - reach[1]), (x + reach[0], y + reach[1])), Pen("ink", 6)),
        *arrow(PIVOT, down, Pen("ink", 2.5)),
        *(arrow(down, apparent, EDGE) if bank_deg else ()),
        *arrow(PIVOT, apparent, Pen("ink", 4)),
        ring(PIVOT, 5, Pen("ink", 2), "paper"),
        *_labels(bank_deg, apparent, language),
    ]
    title = pick(language, "Why the card tilts", "Pourquoi la rose penche")
    description = _describe(bank_deg, language, aside=aside)
    said = pick(language, "Why it tilts: it hangs square to the apparent down.",
                "Pourquoi elle penche\u00a0: elle pend d'équerre au bas apparent.")  # fmt: skip
    markup = sheet("apparent-vertical", SIZE, parts, title, description)
    return Drawing("apparent-vertical", markup, title, description, said)


def _labels(bank_deg: float, apparent: Point, language: Language) -> Iterator[str]:
    side = 1 if bank_deg >= 0 else -1
    toward, away = ("start", "end") if side > 0 else ("end", "start")
    x, y = PIVOT
    yield words((x + 10 * side, y + 64), pick(language, "gravity", "pesanteur"), Lettering(anchor=toward, halo="paper"))
    if bank_deg:
        said = pick(language, "acceleration, turned round", "accélération, renversée")
        yield words((x, apparent[1] + 24), said, Lettering(halo="paper"))
        beside = min(max((x + apparent[0]) / 2 - 10 * side, ROOM), SIZE[0] - ROOM)
        style = Lettering(15, bold=True, anchor=away, halo="paper")
        yield words((beside, y + 64), pick(language, "apparent down", "bas apparent"), style)


def _describe(bank_deg: float, language: Language, *, aside: bool) -> str:
    if not bank_deg:
        return pick(language, "No acceleration: the card hangs from gravity alone and is level.",
                    "Sans accélération, la rose pend selon la seule pesanteur et reste à plat.")  # fmt: skip
    size = f"{abs(bank_deg):g}"
    english, french = "the front|the rear|the right|the left", "l'avant|l'arrière|la droite|la gauche"
    ways = pick(language, english, french).split("|")
    way = ways[(0 if bank_deg < 0 else 1) if aside else (2 if bank_deg > 0 else 3)]
    return pick(
        language,
        f"The aircraft accelerates toward {way}: what hangs in it is left behind, the other way. Gravity and this add "
        f"to an apparent down {size} degrees off the true one, and the card lies square to it.",
        f"L'avion accélère vers {way}\u00a0: ce qui y pend reste en retrait, de l'autre côté. La pesanteur et cela "
        f"donnent un bas apparent à {size.replace('.', ',')} degrés du vrai, et la rose s'y met d'équerre.",
    )


APPARENT_VERTICAL = Figure(
    "apparent-vertical",
    {"bank_deg": need(between(-LARGEST_BANK_DEG, LARGEST_BANK_DEG)), "view": one_of("behind", "left")},
    draw,
)
