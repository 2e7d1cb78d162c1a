"""An own question as the form sends it."""

WRITTEN = {
    "topic": "principle",
    "grade": "easy",
    "source": "Own lesson 3, common practice",
    "en.title": "Where the lubber line stands",
    "en.situation": "You sit in WZG <on the apron>.",
    "en.question": "Which part of the compass stays with the aircraft?",
    "en.key": "the lubber line",
    "en.why": "The card stays with the field.\nThe line is painted on the bowl.",
    "en.wrong.0.text": "the compass card",
    "en.wrong.0.name": "Takes the card for fixed",
    "en.wrong.0.did": "The card is what stays with the field.",
    "en.wrong.0.remedy": "The card stands still; the aircraft turns around it.",
    "en.wrong.1.text": "the two magnets",
    "en.wrong.1.name": "Takes the magnets for fixed",
    "en.wrong.1.did": "The magnets hold the card to the field.",
    "en.wrong.1.remedy": "Magnets and card are one.",
}
