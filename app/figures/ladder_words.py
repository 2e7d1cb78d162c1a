"""The words of the ladder: names of its rows, and what a step adds or takes off."""

from app.figures.faces import size_and_letter
from app.figures.model import Language
from app.figures.words import NBSP, pick, word
from app.physics.angles import round_half_up, signed


def row_names(language: Language) -> dict[str, str]:
    """Return the names of rows and steps."""
    return {
        "T": word("true", language),
        "M": word("magnetic", language),
        "C": word("compass", language),
        "variation_deg": pick(language, "variation", "déclinaison"),
        "deviation_deg": pick(language, "deviation", "déviation"),
    }


def step_words(east_deg: float, change_deg: float | None, given_deg: float | None, language: Language) -> str:
    """Say what a step does: add 13 W, 13 W off; without `change_deg` only its size and letter.

    `east_deg` is the upper heading less the lower one, the letter's own sign. Where the size is the one given but the
    way is wrong, the given letter stays: the student took that very angle and turned it the wrong way.
    """
    east = round_half_up(signed(east_deg), 1)
    if change_deg is None:
        return size_and_letter(east, language)
    if east == 0:
        return pick(language, f"left{NBSP}out", "omise") if given_deg else "0"
    lettered = given_deg if given_deg and abs(given_deg) == abs(east) else east
    text = size_and_letter(lettered, language)
    if change_deg > 0:
        return pick(language, f"add {text}", f"ajouter {text}")
    return pick(language, f"{text} off", f"ôter {text}")
