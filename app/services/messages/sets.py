"""What is said about topic sets, assigning them and sitting them."""

MESSAGES = {
    "set-count": (
        "A set cannot have {value} questions; it has from 1 to {most}, such as 10.",
        "Une série ne peut pas compter {value} questions; elle en a de 1 à {most}, par exemple 10.",
    ),
    "set-nothing-fits": (
        "No question fits all of this at {place}. Take away a condition, or choose another home place.",
        "Aucune question ne répond à tout cela à {place}. Retirez une condition ou choisissez un autre lieu.",
    ),
    "set-too-few": (
        "Only {found} different questions fit all of this, not {value}. Ask for fewer, or take away a condition.",
        "Seulement {found} questions différentes répondent à cela, pas {value}. Demandez-en moins ou élargissez.",
    ),
    "set-not-offered": (
        "The family “{value}” makes no question of this kind at {place}. Take it off the list.",
        "La famille « {value} » ne donne aucune question de ce genre à {place}. Retirez-la de la liste.",
    ),
    "set-no-topic": ("There is no topic “{value}”.", "Il n'y a pas de thème « {value} »."),
    "set-no-family": (
        "There is no family “{value}”. The names stand under each topic, such as true-to-compass.",
        "Il n'y a pas de famille « {value} ». Les noms figurent sous chaque thème, par exemple true-to-compass.",
    ),
    "set-no-line": ("No question serves the syllabus line “{value}”.", "Aucune question ne sert le point « {value} »."),
    "set-no-misconception": (
        "There is no misconception “{value}”; it is written as family/name, such as true-to-compass/v-sign.",
        "Il n'y a pas d'idée fausse « {value} »; elle s'écrit famille/nom, par exemple true-to-compass/v-sign.",
    ),
    "set-choice": ("“{value}” is not one of: {accepted}.", "« {value} » ne fait pas partie de : {accepted}."),
    "set-limit": (
        "{value} is out of range. Accepted: {least} to {most}.",
        "{value} est hors limites. Accepté : de {least} à {most}.",
    ),
    "set-title": (
        "The title has {value} characters. Accepted: 1 to {most}.",
        "Le titre compte {value} caractères. Accepté : de 1 à {most}.",
    ),
    "set-note": (
        "The note has {value} characters; at most {most} are kept.",
        "La note compte {value} caractères; au plus {most} sont gardés.",
    ),
    "set-changed": (
        "Somebody has changed “{title}” since you opened it. Nothing was changed now: look at it again first.",
        "Quelqu'un a modifié « {title} » depuis que vous l'avez ouverte. Rien n'a été changé : revoyez-la d'abord.",
    ),
    "set-locked": (
        "The questions of this set are locked, so that everybody gets the same. Copy the set to change them.",
        "Les questions de cette série sont verrouillées : tout le monde a les mêmes. Copiez-la pour les changer.",
    ),
    "set-no-other": (
        "There is no other question for place {value} with what this set is drawn from.",
        "Il n'y a pas d'autre question pour la place {value} dans ce dont cette série est tirée.",
    ),
}  # fmt: skip
