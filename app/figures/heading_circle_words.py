"""What a compass does in a turn and in a change of speed, by the sign of the dip alone, and the words for it.

Source of the signs: FAA-H-8083-15B ch. 7, acceleration and northerly turning errors; the south is the mirror image.
"""

from collections.abc import Iterator

from app.figures.faces import three_digits
from app.figures.figure import Values
from app.figures.model import Language
from app.figures.words import pick
from app.physics.angles import sin_deg

DIP_SIGN = {"north": 1, "south": -1, "none": 0}


def swing_of(values: Values) -> str:
    """Return toward which pole a change of speed swings the reading: "north", "south", or "none"."""
    change = {"faster": 1, "slower": -1, "steady": 0}[values["speed_change"]]
    toward = change * DIP_SIGN[values["hemisphere"]]
    if toward == 0 or sin_deg(values["heading_deg"]) == 0:
        return "none"
    return "north" if toward > 0 else "south"


def half_behind(values: Values) -> str:
    """Return the half of the circle in which a turn makes the compass read behind: "north", "south", or "none"."""
    return str(values["hemisphere"])


def what_happens(values: Values, language: Language) -> str:
    """Say what the reading does where no half is hatched."""
    if "turn" in values:
        return pick(language, "no dip: the reading agrees", "aucune inclinaison\u00a0: pas d'écart")
    toward = swing_of(values)
    if toward == "none":
        return pick(language, "the reading does not swing", "l'indication ne bouge pas")
    if toward == "north":
        return pick(language, "the reading swings toward north", "l'indication tend vers le nord")
    return pick(language, "the reading swings toward south", "l'indication tend vers le sud")


def describe(values: Values, language: Language) -> str:
    """Say what the drawing shows, and after the answer what the compass does."""
    heading = three_digits(values["heading_deg"])
    said = [
        pick(
            language,
            f"A circle of magnetic headings, north at the top. The aeroplane in the middle points to {heading}.",
            f"Un cercle de caps magnétiques, nord en haut. L'avion, au centre, pointe vers {heading}.",
        ),
        *_action_words(values, language),
    ]
    if values.get("show_errors", False):
        said.append(_error_words(values, language))
    return " ".join(said)


def _action_words(values: Values, language: Language) -> Iterator[str]:
    if "turn" in values:
        side = pick(language, values["turn"], {"left": "gauche", "right": "droite"}[values["turn"]])
        yield pick(
            language, f"A curved arrow shows a turn to the {side}.", f"Une flèche courbe montre un virage à {side}."
        )
    change = values.get("speed_change", "steady")
    if change == "faster":
        yield pick(language, "Chevrons ahead show that it speeds up.", "Des chevrons devant montrent qu'il accélère.")
    if change == "slower":
        yield pick(
            language, "Chevrons behind show that it slows down.", "Des chevrons derrière montrent qu'il ralentit."
        )


def _error_words(values: Values, language: Language) -> str:
    half = half_behind(values)
    if "turn" not in values or half == "none":
        said = what_happens(values, language)
        return f"{said[0].upper()}{said[1:]}."
    if half == "north":
        return pick(
            language,
            "In a turn the compass reads behind in the northern half, hatched, and ahead in the southern half.",
            "En virage, le compas retarde dans la moitié nord, hachurée, et avance dans la moitié sud.",
        )
    return pick(
        language,
        "In a turn the compass reads behind in the southern half, hatched, and ahead in the northern half.",
        "En virage, le compas retarde dans la moitié sud, hachurée, et avance dans la moitié nord.",
    )
