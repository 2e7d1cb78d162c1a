"""The few words that stand in drawings and in their descriptions, in both languages."""

from app.figures.model import Language

NBSP = "\u00a0"

_WORDS: dict[str, tuple[str, str]] = {
    "true": ("true", "vrai"),
    "magnetic": ("magnetic", "magnétique"),
    "compass": ("compass", "compas"),
    "left": ("left", "gauche"),
    "right": ("right", "droite"),
    "N": ("N", "N"),
    "E": ("E", "E"),
    "S": ("S", "S"),
    "W": ("W", "O"),
}


def word(name: str, language: Language) -> str:
    """Return one word in a language. Raises KeyError for a word that is not listed."""
    return _WORDS[name][0 if language == "en" else 1]


def pick(language: Language, english: str, french: str) -> str:
    """Return the text of the language, with printed apostrophes."""
    return (english if language == "en" else french).replace("'", "’")


def in_a_row(texts: list[str], language: Language) -> str:
    """Join texts as a person lists them: a, b and c."""
    if len(texts) < 2:
        return "".join(texts)
    return f"{', '.join(texts[:-1])} {pick(language, 'and', 'et')} {texts[-1]}"
