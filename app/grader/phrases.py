"""The grader's own sentences in English and French; everything about a family stands in its pack."""

from app.packs.spec import Language, typeset
from app.questions.wording import tidy

_PHRASES: dict[str, tuple[str, str]] = {
    "right": ("{yours} is right.", "{yours}, c'est juste."),
    "right-long": ("That is right.", "C'est juste."),
    "wrong": ("{yours} is not it. The answer is {key}.", "{yours}, non. La bonne réponse est {key}."),
    "wrong-long": ("Not so. The answer: {key}.", "Non. La bonne réponse : {key}."),
    "partly": ("{right} of {count} right.", "{right} sur {count} justes."),
    "open": ("No answer. The right one is {key}.", "Sans réponse. La bonne réponse est {key}."),
    "open-long": ("No answer. The right one: {key}.", "Sans réponse. La bonne réponse : {key}."),
    "open-parts": ("No answer.", "Sans réponse."),
    "open-rule": (
        "By the house rule, {key}. You gave no answer.",
        "Selon la règle de l'école, {key}. Vous n'avez pas répondu.",
    ),
    "rule": ("By the house rule, {key}.", "Selon la règle de l'école, {key}."),
    "rule-right": ("By the house rule, {yours} is right.", "Selon la règle de l'école, {yours} est juste."),
    "row-rule": ("Rule, as asked", "Règle demandée"),
    "row-yours": ("Your answer", "Votre réponse"),
    "row-model": ("Model, {place}", "Modèle, {place}"),
    "model-nearer": (
        "Here the model lies nearer to your answer than to the rule; the question asks for the rule.",
        "Ici, le modèle est plus près de votre réponse que de la règle; la question porte sur la règle.",
    ),
    "model-caution": (
        "Simplified model: the size differs by compass, latitude and handling.",
        "Modèle simplifié : la grandeur varie selon le compas, la latitude et le pilotage.",
    ),
    "nothing": ("Nothing was answered. Choose an option.", "Aucune réponse. Choisissez une option."),
    "nothing-typed": ("The box is empty. Type {accepted}.", "La case est vide. Tapez {accepted}."),
    "choice": (
        "“{value}” is not one of the options; they count from 1 to {count}.",
        "« {value} » n'est pas une des options; elles vont de 1 à {count}.",
    ),
    "not-a": ("“{value}” cannot be read. Type {accepted}.", "« {value} » ne peut pas être lu. Tapez {accepted}."),
    "heading": (
        "a heading with three digits from 001 to 360, such as {example}",
        "un cap à trois chiffres, de 001 à 360, par exemple {example}",
    ),
    "number": ("a number, such as {example}", "un nombre, par exemple {example}"),
    "size": (
        "the size as a number, such as {example}, and choose its side",
        "la grandeur, par exemple {example}, et choisissez le côté",
    ),
    "arc": (
        "degrees and minutes, such as {example}, and choose the side",
        "des degrés et des minutes, par exemple {example}, et choisissez le côté",
    ),
    "clock": ("a time as four digits, such as {example}", "une heure à quatre chiffres, par exemple {example}"),
    "runway": (
        "a runway number from 1 to 36, such as {example}",
        "un numéro de piste de 1 à 36, par exemple {example}",
    ),
    "side": ("Choose the side: {sides}.", "Choisissez le côté : {sides}."),
    "order": (
        "Give every line its own place, 1 to {count}; now {value}.",
        "Donnez à chaque ligne sa place, de 1 à {count}; maintenant {value}.",
    ),
    "group": (
        "Choose a place for every line; “{value}” has none.",
        "Choisissez une place pour chaque ligne; « {value} » n'en a pas.",
    ),
    "too-long": (
        "The answer has {value} characters; at most 60 are read.",
        "La réponse a {value} caractères; au plus 60 sont lus.",
    ),
}  # fmt: skip


def phrase(code: str, language: Language, **values: object) -> str:
    """Return one of the grader's sentences filled in."""
    return tidy(typeset(_PHRASES[code][0 if language == "en" else 1]).format(**values), language)
