"""The words of a turn seen from above. A pair is the progress of a real heading and that of its reading."""

from app.figures.face_words import answer_words
from app.figures.faces import three_digits
from app.figures.figure import Values
from app.figures.model import Language
from app.figures.turn_layout import Turn
from app.figures.words import pick

Pairs = list[tuple[float, float]]


def caption(language: Language, *, ties: bool) -> str:
    """Say what the rings and the thin lines are."""
    rings = pick(
        language,
        "Seen from above. Outer ring: the real magnetic heading. Inner ring: what the compass reads.",
        "Vue du dessus. Anneau extérieur\u00a0: le cap magnétique réel. "
        "Anneau intérieur\u00a0: ce que le compas indique.",
    )
    if not ties:
        return rings
    joined = pick(
        language,
        "Each thin line joins a real heading to the reading at that moment, by the model.",
        "Chaque trait fin relie un cap réel à l'indication du compas à ce moment, selon le modèle.",
    )
    return f"{rings} {joined}"


def describe(turn: Turn, ties: Pairs, values: Values, language: Language) -> str:
    """Say what turn is drawn, and what the model reads where the rings are joined."""
    start, target = three_digits(turn.start_deg), three_digits(turn.target_deg)
    side = pick(language, turn.side, {"left": "gauche", "right": "droite"}[turn.side])
    said = [
        pick(
            language,
            f"Seen from above, north at the top: a turn to the {side} from {start} to {target}, magnetic. The outer "
            "ring counts real headings, the inner ring compass readings.",
            f"Vu du dessus, nord en haut\u00a0: un virage à {side} de {start} à {target}, caps magnétiques. L'anneau "
            "extérieur compte les caps réels, l'anneau intérieur les indications du compas.",
        )
    ]
    if ties:
        pairs = [(three_digits(turn.heading(h)), three_digits(turn.heading(r))) for h, r in ties]
        join = pick(language, "reads", "indique")
        listed = ", ".join(f"{heading} {join} {reading}" for heading, reading in pairs)
        said.append(pick(language, f"By the model: {listed}.", f"Selon le modèle\u00a0: {listed}."))
    said.append(answer_words(values.get("key_deg"), values.get("yours_deg"), language))
    return " ".join(filter(None, said))
