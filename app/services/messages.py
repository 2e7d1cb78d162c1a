"""What use cases say to people, in both languages: what is wrong with this value, what is accepted, an example."""

from app.packs.spec import Language
from app.questions.wording import tidy

MESSAGES: dict[str, tuple[str, str]] = {
    "revised": (
        "This question has been revised since it was shown. Nothing was counted; please answer it as it stands now.",
        "Cette question a été révisée depuis son affichage. Rien n'a été compté; répondez à la version actuelle.",
    ),
    "withdrawn": (
        "This question is no longer offered. Nothing was counted; the summary lists the others.",
        "Cette question n'est plus proposée. Rien n'a été compté; le bilan présente les autres.",
    ),
    "not-answered": (
        "This question has no answer yet. Answer it first; then its verdict is shown.",
        "Cette question n'a pas encore de réponse. Répondez-y d'abord; le verdict viendra ensuite.",
    ),
    "nothing-missed": (
        "No answer of this drill was wrong: there is nothing to drill again.",
        "Aucune réponse de cet exercice n'était fausse : il n'y a rien à reprendre.",
    ),
    "nothing-offered": (
        "None of these questions is offered at {place}. Choose another topic or another home place.",
        "Aucune de ces questions n'est proposée à {place}. Choisissez un autre thème ou un autre lieu.",
    ),
    "length": (
        "A drill cannot have {value} questions; it has from 1 to {most}, such as 10.",
        "Un exercice ne peut pas compter {value} questions; il en a de 1 à {most}, par exemple 10.",
    ),
    "no-home": (
        "No home place was given. Choose one of the list, or give latitude and longitude, such as 45.32 and -75.67.",
        "Aucun lieu n'est indiqué. Choisissez-en un ou donnez latitude et longitude, par exemple 45,32 et -75,67.",
    ),
    "unknown-place": (
        "“{value}” is not in the list of places. Choose one of the list, such as {example}.",
        "« {value} » n'est pas dans la liste des lieux. Choisissez-en un, par exemple {example}.",
    ),
    "latitude": (
        "The latitude {value} is not on the earth. Accepted: -90 to 90 degrees, north positive, such as 45.32.",
        "La latitude {value} n'est pas sur la Terre. Accepté : de -90 à 90 degrés, nord positif, par exemple 45,32.",
    ),
    "longitude": (
        "The longitude {value} is not on the earth. Accepted: -180 to 180 degrees, east positive, such as -75.67.",
        "La longitude {value} n'est pas sur la Terre. Accepté : de -180 à 180 degrés, est positif, par exemple -75,67.",
    ),
    "date": (
        "The magnetic model does not hold on {value}. Accepted: {low} to {high}, such as {example}.",
        "Le modèle magnétique ne vaut pas pour le {value}. Accepté : du {low} au {high}, par exemple {example}.",
    ),
    "bench-heading": (
        "{value} is not a heading. Accepted: whole degrees from 1 to 360, such as 090.",
        "{value} n'est pas un cap. Accepté : degrés entiers de 1 à 360, par exemple 090.",
    ),
    "bench-bank": (
        "A bank of {value} degrees cannot be flown here. Accepted: {low} to {high}, such as 15.",
        "Une inclinaison de {value} degrés ne peut être volée ici. Accepté : de {low} à {high}, par exemple 15.",
    ),
    "bench-speed": (
        "An airspeed of {value} kt cannot be flown here. Accepted: {low} to {high}, such as 100.",
        "Une vitesse de {value} kt ne peut être volée ici. Accepté : de {low} à {high}, par exemple 100.",
    ),
    "bench-change": (
        "A change of {value} kt a second cannot be flown here. Accepted: {low} to {high}; slower is negative: -2.",
        "Un changement de {value} kt par seconde ne peut être volé ici. Accepté : de {low} à {high}; ralentir : -2.",
    ),
    "bench-seconds": (
        "{value} seconds cannot be flown here. Accepted: {low} to {high}, such as 10.",
        "{value} secondes ne peuvent être volées ici. Accepté : de {low} à {high}, par exemple 10.",
    ),
    "bench-dip": (
        "{value} is not a dip. Accepted: {low} to {high} degrees, down at the north end positive, such as 68.",
        "{value} n'est pas une inclinaison magnétique. Accepté : de {low} à {high} degrés, nord vers le bas positif.",
    ),
    "bench-moment": (
        "{value} s is not a moment of this flight. Accepted: {low} to {high}, such as 20.",
        "{value} s n'est pas un moment de ce vol. Accepté : de {low} à {high}, par exemple 20.",
    ),
    "unknown-rule": (
        "There is no house rule “{value}”. There are: {accepted}.",
        "Il n'y a pas de règle « {value} ». Il y a : {accepted}.",
    ),
    "rule": (
        "{name} cannot be “{value}”. Accepted: {accepted}.",
        "{name} ne peut pas être « {value} ». Accepté : {accepted}.",
    ),
    "empty-report": (
        "The report is empty. Say in a sentence what is wrong with the question.",
        "Le signalement est vide. Dites en une phrase ce qui ne va pas dans la question.",
    ),
    "long-report": (
        "The report has {value} characters; at most {most} are kept. Shorten it.",
        "Le signalement compte {value} caractères; au plus {most} sont gardés. Raccourcissez-le.",
    ),
    "enough-reports": (
        "This question already has {value} reports from you. Thank you; they are kept.",
        "Vous avez déjà fait {value} signalements pour cette question. Merci; ils sont gardés.",
    ),
}  # fmt: skip

LONGEST_QUOTE = 40


def say(code: str, language: Language, **values: object) -> str:
    """Return a message with its values filled in; a long value is cut, so that a page stays a page."""
    short = {name: _cut(str(value)) if name == "value" else value for name, value in values.items()}
    return tidy(MESSAGES[code][0 if language == "en" else 1].format(**short), language)


def say_number(value: float, language: Language) -> str:
    """Write a number as the language does."""
    return f"{value:g}" if language == "en" else f"{value:g}".replace(".", ",")


def _cut(text: str) -> str:
    return text if len(text) <= LONGEST_QUOTE else text[:LONGEST_QUOTE] + "…"
