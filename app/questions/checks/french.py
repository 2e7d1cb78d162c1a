"""French as it is written: elision before a vowel; du, des, au and aux instead of de le, de les, à le and à les.

Read on texts as a student sees them, where a filled-in word may begin with a vowel or an article. Names of places are
elided when a text is written (`app.questions.wording`); letters that stand alone, and those of aircraft, are not.
"""

import re
from collections.abc import Iterable

VOWELS = "aeiouâàéèêëîïôœ"
MUTE_H = "hélice|hélicoptère|hémisphère|heure|hiver|horaire|horizon|horloge|huile|humidité"
SHORT = r"[DdLlNnSsMmTtCcJj]e|[Ll]a|[Qq]ue|[Jj]usque|[Ll]orsque|[Pp]uisque|[Qq]uoique"
UNELIDED = re.compile(
    rf"(?<![-\w])(?:{SHORT}) (?!(?:onze|onzième|oui)\b)(?:(?:{MUTE_H})s?\b|[{VOWELS}])\w*", re.UNICODE
)
# An infinitive after le or les makes it a pronoun: "de le caler" stands.
UNCONTRACTED = re.compile(r"\b(?:[Dd]e|[Àà]) les? (?!\w+(?:er|ir|re)\b)\w+")


def unelided(text: str) -> list[str]:
    """Return the places where a short word should have been elided or contracted."""
    return [found[0] for rule in (UNELIDED, UNCONTRACTED) for found in rule.finditer(text)]


def places(texts: Iterable[str]) -> list[tuple[str, str]]:
    """Return each such place with the beginning of its text."""
    return [(found, text) for text in texts for found in unelided(text)]
