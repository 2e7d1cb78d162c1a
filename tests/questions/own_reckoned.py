"""An own question whose numbers are drawn, as it is kept: the time of a leg, in two languages."""

from typing import Any


def mistake(name: str, did: str, remedy: str) -> dict[str, str]:
    return {"name": name, "did": did, "remedy": remedy}


ENGLISH: dict[str, Any] = {
    "title": "Time for a leg",
    "situation": "You fly DISTANCE NM to Osier at a groundspeed of SPEED kt in WZG.",
    "question": "How long does the leg take?",
    "why": ["Time is distance divided by groundspeed, in hours.", "DISTANCE ÷ SPEED × 60 = KEY min."],
    "wrong": [
        mistake("Divides the wrong way round", "SPEED ÷ DISTANCE × 60 makes YOURS min.", "Distance goes on top."),
        mistake("Takes decimals of an hour for minutes", "DISTANCE ÷ SPEED × 100 makes YOURS.", "An hour has 60."),
        mistake("Turns knots into statute miles", "DISTANCE ÷ (SPEED × 1.15) × 60 = YOURS.", "NM and kt go together."),
        mistake(
            "Takes half an hour for one", "DISTANCE NM take KEY min, not YOURS.", "An hour at SPEED kt is SPEED NM."
        ),
    ],
}
FRENCH: dict[str, Any] = {
    "title": "Durée d’un segment",
    "situation": "Vous parcourez DISTANCE NM vers Osier à une vitesse sol de SPEED kt dans WZG.",
    "question": "Combien de temps dure le segment?",
    "why": ["Le temps est la distance divisée par la vitesse sol, en heures.", "DISTANCE ÷ SPEED × 60 = KEY min."],
    "wrong": [
        mistake("Divise à l’envers", "SPEED ÷ DISTANCE × 60 donne YOURS min.", "La distance va en haut."),
        mistake("Prend des décimales pour des minutes", "DISTANCE ÷ SPEED × 100 donne YOURS.", "Une heure en a 60."),
        mistake("Convertit les nœuds", "DISTANCE ÷ (SPEED × 1,15) × 60 = YOURS.", "NM et kt vont ensemble."),
        mistake(
            "Prend une demi-heure pour une heure", "La durée est KEY min, non YOURS.", "SPEED kt, SPEED NM à l’heure."
        ),
    ],
}
BODY: dict[str, Any] = {
    "format": 1,
    "topic": "track",
    "grade": "easy",
    "source": "Common practice, no source",
    "numbers": [
        {"name": "DISTANCE", "low": 20, "high": 150, "step": 5},
        {"name": "SPEED", "low": 70, "high": 130, "step": 5},
    ],
    "answer": {"formula": "DISTANCE ÷ SPEED × 60", "nearest": "1", "unit": "min", "tolerance": 1},
    "wrong": [
        "SPEED / DISTANCE * 60",
        "DISTANCE / SPEED * 100",
        "DISTANCE / (SPEED × 1,15) × 60",
        "DISTANCE / SPEED * 30",
    ],
    "en": ENGLISH,
    "fr": FRENCH,
}


def changed(**changes: Any) -> dict[str, Any]:
    """Return the question with other parts."""
    return {**BODY, **changes}
