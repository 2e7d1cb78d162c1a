"""Numbers as people write them, in English and French: three-digit headings, east and west, times, decimals."""

from collections.abc import Callable

from app.packs.spec import Language
from app.physics.angles import round_half_up, shown, whole

NBSP = "\u00a0"
NARROW = "\u202f"
MINUS = "\u2212"
POINTS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")
LETTERS = {"en": ("N", "E", "S", "W"), "fr": ("N", "E", "S", "O")}


def heading(value: float) -> str:
    """Write a direction with three digits, 001 to 360; north is 360."""
    return f"{shown(value):03d}"


def decimals(value: float, places: int, language: Language) -> str:
    """Write a number with a fixed count of decimals, half up, a true minus and a decimal comma in French."""
    rounded = round_half_up(value, places)
    text = f"{abs(rounded):.{places}f}"
    if len(text.partition(".")[0]) > 4:
        text = f"{abs(rounded):,.{places}f}".replace(",", NARROW)
    if rounded < 0:
        text = MINUS + text
    return text.replace(".", ",") if language == "fr" else text


def exact(value: float, language: Language) -> str:
    """Write a number as short as it stands: 3, 2.5, 0.25."""
    places = next((n for n in range(4) if abs(round_half_up(value, n) - value) < 1e-9), 3)
    return decimals(value, places, language)


def signed(value: float, language: Language, places: int = 0) -> str:
    """Write a number with its sign in front, zero without."""
    text = decimals(value, places, language)
    return text if round_half_up(value, places) <= 0 else f"+{text}"


def letter(value: float, language: Language) -> str:
    """Return E for plus, W (O in French) for minus, nothing for zero."""
    if value == 0:
        return ""
    return LETTERS[language][1] if value > 0 else LETTERS[language][3]


def east_west(value: float, language: Language) -> str:
    """Write a signed angle with its letter: 13° W."""
    return f"{exact(abs(value), language)}°{NBSP}{letter(value, language)}" if value else "0°"


def north_south(value: float, language: Language) -> str:
    """Write a latitude or dip with its letter: 45° N."""
    side = LETTERS[language][0 if value >= 0 else 2]
    return f"{exact(abs(value), language)}°{NBSP}{side}"


def arc_minutes(value: float, language: Language) -> str:
    """Write signed minutes of arc, east positive, as degrees and minutes: 16° 08′ W."""
    degrees, minutes = divmod(whole(abs(value)), 60)
    return f"{degrees}°{NBSP}{minutes:02d}′{NBSP}{letter(value, language)}".rstrip(NBSP)


def clock(minutes: float, language: Language) -> str:
    """Write minutes after midnight as a 24-hour time: 14:05, in French 14 h 05."""
    hours, rest = divmod(whole(minutes) % 1440, 60)
    return f"{hours:02d}:{rest:02d}" if language == "en" else f"{hours}{NBSP}h{NBSP}{rest:02d}"


def four_digit_time(minutes: float) -> str:
    """Write minutes after midnight as four digits, as in flight plans: 1405."""
    hours, rest = divmod(whole(minutes) % 1440, 60)
    return f"{hours:02d}{rest:02d}"


def minutes_seconds(seconds: float, _language: Language) -> str:
    """Write seconds as minutes and seconds: 1 min 20 s."""
    minutes, rest = divmod(whole(seconds), 60)
    parts = ([f"{minutes}{NBSP}min"] if minutes else []) + ([f"{rest}{NBSP}s"] if rest or not minutes else [])
    return " ".join(parts)


def point(value: float) -> str:
    """Return the code of the nearest of the eight points of the compass."""
    return POINTS[whole(value / 45) % 8]


NUMBER_FILTERS: dict[str, Callable[[float, Language], str]] = {
    "arc": arc_minutes,
    "clock": clock,
    "degrees": lambda v, lang: f"{exact(v, lang)}°",
    "ew": east_west,
    "ew_letter": letter,
    "exact": exact,
    "heading": lambda v, _: heading(v),
    "hhmm": lambda v, _: four_digit_time(v),
    "minsec": minutes_seconds,
    "ns": north_south,
    "one": lambda v, lang: decimals(v, 1, lang),
    "plural_s": lambda v, _: "" if abs(v) < 2 else "s",
    "runway": lambda v, _: f"{whole(v):02d}",
    "signed": signed,
    "signed_exact": lambda v, lang: f"{'+' if v > 0 else ''}{exact(v, lang)}",
    "signed_one": lambda v, lang: signed(v, lang, 1),
    "signed_two": lambda v, lang: signed(v, lang, 2),
    "size": lambda v, lang: exact(abs(v), lang),
    "size_one": lambda v, lang: decimals(abs(v), 1, lang),
    "thousands": lambda v, lang: decimals(v, 0, lang),
    "two": lambda v, lang: decimals(v, 2, lang),
    "whole": lambda v, lang: decimals(v, 0, lang),
}
