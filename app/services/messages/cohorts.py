"""What is said about classes side by side, and the columns of their table."""

MESSAGES = {
    "cohorts": (
        "Number of classes chosen: {value}. Accepted: {least} to {most}.",
        "Nombre de classes choisies : {value}. Accepté : de {least} à {most}.",
    ),
    "cohorts-class": ("Class.", "Classe."),
    "cohorts-title": ("Topic or kind of question.", "Thème ou genre de question."),
    "cohorts-students": ("Students who answered.", "Élèves ayant répondu."),
    "cohorts-answers": ("Answers.", "Réponses."),
    "cohorts-estimate": ("Likely right, per cent.", "Réponses justes probables, pour cent."),
    "cohorts-low": ("Range from, per cent.", "Intervalle de, pour cent."),
    "cohorts-high": ("Range to, per cent.", "Intervalle à, pour cent."),
    "cohorts-spread": ("Spread between students, points.", "Écart entre élèves, points."),
    "cohorts-care": ("To be compared with care.", "À comparer avec prudence."),
    "cohorts-hidden": ("Fewer than {least} students.", "Moins de {least} élèves."),
    "cohorts-families": (
        "Fewer than half of the kinds of questions in common.",
        "Moins de la moitié des genres de questions en commun.",
    ),
    "cohorts-amount": (
        "Answers per student differ more than threefold.",
        "Les réponses par élève diffèrent de plus du triple.",
    ),
}  # fmt: skip
