"""What is said about the training record."""

MESSAGES = {
    "entry-kind": (
        "There is no kind of entry “{value}”. There are: {accepted}.",
        "Il n'y a pas d'inscription du genre « {value} ». Il y a : {accepted}.",
    ),
    "entry-day": (
        "“{value}” is not a day that has been. Accepted: year-month-day up to {today}.",
        "« {value} » n'est pas un jour passé. Accepté : année-mois-jour, jusqu'au {today}.",
    ),
    "entry-text": (
        "This text has {value} characters. Accepted: 1 to {most}; say in a sentence what it was.",
        "Ce texte compte {value} caractères. Accepté : de 1 à {most}; dites en une phrase ce que c'était.",
    ),
    "entry-minutes": (
        "“{value}” minutes cannot be entered. Accepted: a whole number from 1 to {most}.",
        "« {value} » minutes ne peuvent être inscrites. Accepté : un nombre entier de 1 à {most}.",
    ),
}  # fmt: skip
