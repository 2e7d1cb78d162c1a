"""Says in words where a lubber line stands among the labels and marks of a face, without saying the reading.

Counted from left to right, whichever way the numbers grow, so that the words ask the same work of a reader as the
picture does.
"""

from app.figures.faces import label, three_digits
from app.figures.model import Language
from app.figures.words import in_a_row, pick
from app.physics.angles import difference, shown, wrap360

FIFTHS = {
    "en": ("", "one fifth", "two fifths", "three fifths", "four fifths"),
    "fr": ("", "un cinquième", "deux cinquièmes", "trois cinquièmes", "quatre cinquièmes"),
}


def label_words(heading_deg: float, hidden_deg: float | None, language: Language) -> str:
    """Name a label, or say that it is covered."""
    if hidden_deg is not None and shown(hidden_deg) == shown(heading_deg):
        return pick(language, "a covered label", "une inscription masquée")
    return label(heading_deg, language)


def labels_in_view(headings_deg: list[int], hidden_deg: float | None, language: Language) -> str:
    """Say which labels are seen, in the order given, which is left to right."""
    names = in_a_row([label_words(heading, hidden_deg, language) for heading in headings_deg], language)
    return pick(
        language, f"Labels seen, left to right: {names}.", f"Inscriptions visibles, de gauche à droite\u00a0: {names}."
    )


def place_on_face(
    reading_deg: float, larger: str, language: Language, what: str, hidden_deg: float | None = None
) -> str:
    """Say where a whole reading stands between two labels; `larger` is the side on which numbers grow."""
    past_deg = wrap360(reading_deg) % 30
    if past_deg == 0:
        name = label_words(reading_deg, hidden_deg, language)
        return pick(
            language, f"{what} stands right on the label {name}.", f"{what} est juste sur l'inscription {name}."
        )
    low, high = reading_deg - past_deg, reading_deg - past_deg + 30
    left, right = (low, high) if larger == "right" else (high, low)
    names = [label_words(each, hidden_deg, language) for each in (left, right)]
    count = _count(round(abs(difference(reading_deg, left))), language)
    return pick(
        language,
        f"{what} stands between two labels: {names[0]} on its left, {names[1]} on its right. Five marks divide the "
        f"space between them into six steps of 5 degrees. Counted from the left, {count}.",
        f"{what} est entre deux inscriptions\u00a0: {names[0]} à sa gauche, {names[1]} à sa droite. Cinq traits "
        f"divisent l'intervalle en six pas de 5 degrés. En comptant à partir de la gauche, {count}.",
    )


def _count(from_left_deg: int, language: Language) -> str:
    marks, fifths = divmod(from_left_deg, 5)
    if not fifths:
        return pick(language, f"it is on mark {marks}", f"elle est sur le trait {marks}")
    part = FIFTHS[language][fifths]
    start = (
        pick(language, f"mark {marks}", f"le trait {marks}")
        if marks
        else pick(language, "the label on the left", "l'inscription de gauche")
    )
    end = (
        pick(language, f"mark {marks + 1}", f"le trait {marks + 1}")
        if marks < 5
        else pick(language, "the label on the right", "l'inscription de droite")
    )
    return pick(
        language, f"it is {part} of the way from {start} to {end}", f"elle est à {part} du pas entre {start} et {end}"
    )


def answer_words(key_deg: float | None, yours_deg: float | None, language: Language) -> str:
    """Say what the triangle and the ring mark, once the question is answered."""
    said = []
    if key_deg is not None:
        value = three_digits(key_deg)
        said.append(pick(language, f"A filled triangle marks {value}.", f"Un triangle plein marque {value}."))
    if yours_deg is not None:
        value = three_digits(yours_deg)
        said.append(
            pick(language, f"An open ring marks your answer, {value}.", f"Un anneau marque votre réponse, {value}.")
        )
    return " ".join(said)
