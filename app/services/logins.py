"""Login names made from people's names: short, plain letters, unique in a school."""

import unicodedata
from collections.abc import Container
from itertools import count

LONGEST = 40
SPELLED_OUT = str.maketrans(
    {"'": "", "’": "", "ß": "ss", "æ": "ae", "Æ": "ae", "œ": "oe", "Œ": "oe", "ø": "o", "Ø": "o", "ł": "l", "Ł": "l"}
)


def plain_login(name: str) -> str:
    """Return a name as a login: José Núñez-Roy becomes jose.nunez-roy, and a name without Latin letters "student"."""
    decomposed = unicodedata.normalize("NFKD", name.translate(SPELLED_OUT)).lower()
    letters = "".join(
        c if c.isascii() and (c.isalnum() or c == "-") else "." for c in decomposed if not unicodedata.combining(c)
    )
    words = [word.strip("-") for word in letters.split(".")]
    return ".".join(word for word in words if word)[:LONGEST].strip(".-") or "student"


def free_login(name: str, taken: Container[str]) -> str:
    """Return the first login of a name that is not taken: alice.roy, alice.roy2, alice.roy3 ..."""
    login = plain_login(name)
    if login not in taken:
        return login
    return next(f"{login}{number}" for number in count(2) if f"{login}{number}" not in taken)
