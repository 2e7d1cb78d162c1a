"""What is printed on compass faces: labels, three digits, letters; and where the labels of a face stand."""

from collections.abc import Iterator

from app.figures.model import Language
from app.figures.words import NBSP, word
from app.physics.angles import difference, round_half_up, shown

CARDINALS = {360: "N", 90: "E", 180: "S", 270: "W"}


def label(heading_deg: float, language: Language) -> str:
    """Label of a face: N E S W (O in French), else tens of degrees, 3 to 33."""
    degrees = shown(heading_deg)
    return word(CARDINALS[degrees], language) if degrees in CARDINALS else str(degrees // 10)


def is_cardinal(heading_deg: float) -> bool:
    """Whether a heading is north, east, south or west."""
    return shown(heading_deg) in CARDINALS


def three_digits(heading_deg: float) -> str:
    """Heading as it is written: 001 to 360."""
    return f"{shown(heading_deg):03d}"


def card_label(heading_deg: float, language: Language) -> str:
    """Heading on a correction card: N E S W, else three digits."""
    return label(heading_deg, language) if is_cardinal(heading_deg) else three_digits(heading_deg)


def size_and_letter(value_deg: float, language: Language) -> str:
    """Write an angle, east positive, with its letter: 13 W; nothing but 0 without one."""
    size = round_half_up(abs(value_deg), 1)
    text = f"{size:g}" if language == "en" else f"{size:g}".replace(".", ",")
    if size == 0:
        return text
    return f"{text}{NBSP}{word('E' if value_deg > 0 else 'W', language)}"


def marks_near(reading_deg: float, within_deg: float, every_deg: int) -> Iterator[tuple[int, float]]:
    """Give the marks of a face near a reading: heading 0..355 and how far clockwise of the reading it lies."""
    for heading_deg in range(0, 360, every_deg):
        off_deg = difference(heading_deg, reading_deg)
        if abs(off_deg) <= within_deg:
            yield heading_deg, off_deg
