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
        "Questions différentes qui répondent à cela : {found}, et non {value}. Demandez-en moins ou élargissez.",
    ),
    "set-not-offered": (
        "The family “{value}” makes no question of this kind at {place}. Take it off the list.",
        "La famille « {value} » ne donne aucune question de ce genre à {place}. Retirez-la de la liste.",
    ),
    "set-no-topic": ("There is no topic “{value}”.", "Il n'y a pas de thème « {value} »."),
    "set-no-family": (
        "There is no kind of question “{value}”. Titles and names stand under each topic, such as true-to-compass.",
        "Aucun genre de question « {value} ». Titres et noms figurent sous chaque thème, comme true-to-compass.",
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
    "no-zone": (
        "There is no time zone “{value}”. Accepted: names such as America/Toronto or Europe/London.",
        "Il n'y a pas de fuseau « {value} ». Accepté : des noms comme America/Toronto ou Europe/London.",
    ),
    "no-day": (
        "“{value}” is not a day. Accepted: year-month-day, such as 2026-09-12.",
        "« {value} » n'est pas un jour. Accepté : année-mois-jour, par exemple 2026-09-12.",
    ),
    "no-clock": (
        "“{value}” is not a time. Accepted: hours and minutes, such as 17:00.",
        "« {value} » n'est pas une heure. Accepté : heures et minutes, par exemple 17:00.",
    ),
    "time-skipped": (
        "The clocks of {zone} skip {value}: it does not exist there. Choose an hour earlier or later.",
        "Les horloges de {zone} sautent {value} : elle n'y existe pas. Choisissez une heure plus tôt ou plus tard.",
    ),
    "time-twice": (
        "The clocks of {zone} show {value} twice that day. Choose an hour earlier or later.",
        "Les horloges de {zone} affichent {value} deux fois ce jour-là. Choisissez une heure plus tôt ou plus tard.",
    ),
    "due-passed": (
        "“{value}” has passed: in {zone} it is {now}. Choose a later time.",
        "« {value} » est passé : à {zone}, il est {now}. Choisissez un moment plus tard.",
    ),
    "held-until-end": (
        "Your answer is kept. Verdicts of this set are shown once you have finished it.",
        "Votre réponse est gardée. Les verdicts de cette série s'affichent quand vous l'aurez finie.",
    ),
    "held-until-due": (
        "Your answer is kept. Verdicts of this set are shown once it is due for everybody.",
        "Votre réponse est gardée. Les verdicts de cette série s'affichent après l'échéance de tout le monde.",
    ),
    "handed-in": (
        "This set has been handed in. This answer was not counted; those before it were.",
        "Cette série a été remise. Cette réponse n'a pas été comptée; les précédentes l'ont été.",
    ),
    "time-is-up": (
        "The time of this set is up. This answer was not counted; those before it were.",
        "Le temps de cette série est écoulé. Cette réponse n'a pas été comptée; les précédentes l'ont été.",
    ),
    "set-withdrawn": (
        "Your instructor has withdrawn this set. What you answered before is kept.",
        "Votre instructeur a retiré cette série. Ce que vous avez répondu avant est gardé.",
    ),
    "no-attempt-left": (
        "Attempts allowed for this set: {value}. You have used them all.",
        "Tentatives permises pour cette série : {value}. Vous les avez toutes faites.",
    ),
    "nobody-to-assign": (
        "Choose at least one class or one student.",
        "Choisissez au moins une classe ou un élève.",
    ),
    "assigned-before": (
        "This set is already assigned to {value}. Extend it there, or withdraw it first.",
        "Cette série est déjà assignée à {value}. Prolongez-la là, ou retirez-la d'abord.",
    ),
    "due-wanted": (
        "Answers are shown after the due time: give one, or choose another way in the settings.",
        "Les réponses s'affichent après l'échéance : donnez-en une, ou changez cela dans les réglages.",
    ),
    "extension-earlier": (
        "That is not later than {value}, when the set is due anyway.",
        "Ce n'est pas plus tard que {value}, l'échéance actuelle.",
    ),
    "nothing-to-extend": (
        "This set has no due time: there is nothing to extend.",
        "Cette série n'a pas d'échéance : il n'y a rien à prolonger.",
    ),
    "column-name": ("Name.", "Nom."),
    "column-login": ("Login name.", "Identifiant."),
    "column-stage": ("State.", "État."),
    "column-late": ("Late.", "En retard."),
    "column-joined-late": ("Joined after it was due.", "Arrivé après l'échéance."),
    "column-attempts": ("Attempts.", "Tentatives."),
    "column-answered": ("Answered.", "Réponses."),
    "column-questions": ("Number of questions.", "Nombre de questions."),
    "column-percent": ("Best score, per cent.", "Meilleur résultat, pour cent."),
    "column-pass-then": ("Pass mark then, per cent.", "Note de passage alors, pour cent."),
    "column-pass-now": ("Pass mark now, per cent.", "Note de passage actuelle, pour cent."),
    "column-due-utc": ("Due, UTC.", "Échéance, UTC."),
    "column-due-local": ("Due, {zone}.", "Échéance, {zone}."),
    "column-done-utc": ("Done, UTC.", "Fini, UTC."),
    "column-done-local": ("Done, {zone}.", "Fini, {zone}."),
    "column-seen-utc": ("Last seen, UTC.", "Dernière visite, UTC."),
    "column-seen-local": ("Last seen, {zone}.", "Dernière visite, {zone}."),
    "cell-not-started": ("Not started.", "Pas commencé."),
    "cell-in-progress": ("In progress.", "En cours."),
    "cell-done": ("Done.", "Fini."),
    "cell-yes": ("Yes.", "Oui."),
    "cell-no": ("No.", "Non."),
}  # fmt: skip
