"""What is said about reports of a problem with a question."""

MESSAGES = {
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
    "report-settled": (
        "Somebody has settled this report already. Their answer stands below.",
        "Quelqu'un a déjà réglé ce signalement. Sa réponse figure ci-dessous.",
    ),
    "report-answer": (
        "The answer has {value} characters. Accepted: 1 to {most}.",
        "La réponse compte {value} caractères. Accepté : de 1 à {most}.",
    ),
    "withdrawal-reason": (
        "The reason has {value} characters. Accepted: 1 to {most}.",
        "Le motif compte {value} caractères. Accepté : de 1 à {most}.",
    ),
}  # fmt: skip
