"""What is said about past answers that are to be marked again or set aside."""

MESSAGES = {
    "past-version": (
        "“{value}” is no version. Accepted: a whole number, or nothing for all versions.",
        "« {value} » n'est pas une version. Accepté : un nombre entier, ou rien pour toutes les versions.",
    ),
    "past-day": (
        "“{value}” is no day. Accepted: year-month-day, such as 2026-09-12, or nothing.",
        "« {value} » n'est pas un jour. Accepté : année-mois-jour, par exemple 2026-09-12, ou rien.",
    ),
    "past-days": (
        "The last day, {value}, lies before the first, {first}. Accepted: the first day or a later one.",
        "Le dernier jour, {value}, précède le premier, {first}. Accepté : le premier jour ou un jour plus tard.",
    ),
    "past-many": (
        "These are {value} answers; a page takes at most {most}. Choose fewer, or run {command} on the server.",
        "Il y a {value} réponses; une page en traite au plus {most}. Réduisez, ou lancez {command} au serveur.",
    ),
    "past-deed": (
        "“{value}” cannot be done to past answers. Accepted: {accepted}.",
        "« {value} » ne peut pas se faire aux réponses passées. Accepté : {accepted}.",
    ),
    "past-not-withdrawn": (
        "Only answers to a kind of question that your school has withdrawn can be set aside. Withdraw it first.",
        "On ne met de côté que les réponses à un genre de question que votre école a retiré. Retirez-le d'abord.",
    ),
    "past-changed": (
        "Answers have come or changed since you looked. Nothing was done; what would change now stands below.",
        "Des réponses sont arrivées ou ont changé entre-temps. Rien n'a été fait; le nouvel aperçu figure ci-dessous.",
    ),
}  # fmt: skip
