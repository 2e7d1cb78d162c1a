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
    "reports-when": ("Reported, UTC.", "Signalé, UTC."),
    "reports-title": ("Kind of question.", "Genre de question."),
    "reports-text": ("What is wrong.", "Ce qui ne va pas."),
    "reports-family": ("Family.", "Famille."),
    "reports-version": ("Version of the question.", "Version de la question."),
    "reports-pack": ("Pack.", "Lot."),
    "reports-pack_version": ("Version of the pack.", "Version du lot."),
    "reports-seed": ("Seed.", "Germe."),
    "reports-form": ("Form of the answer.", "Forme de la réponse."),
    "reports-ask": ("What is asked.", "Ce qui est demandé."),
    "reports-parameters": ("Numbers.", "Nombres."),
    "reports-conventions": ("House rules.", "Règles de l'école."),
    "reports-key": ("Key.", "Bonne réponse."),
    "reports-options": ("Options shown.", "Options montrées."),
    "reports-shown": ("Question as shown.", "Question telle que montrée."),
    "reports-answered": ("What was answered.", "Réponse donnée."),
    "reports-right": ("Right.", "Juste."),
    "reports-state": ("State.", "État."),
    "reports-settled": ("Settled, UTC.", "Réglé, UTC."),
    "reports-settled-by": ("Settled by.", "Réglé par."),
    "reports-answer": ("Answer to the report.", "Réponse au signalement."),
    "reports-open-state": ("open.", "ouvert."),
    "reports-settled-state": ("settled.", "réglé."),
    "reports-yes-state": ("yes.", "oui."),
    "reports-no-state": ("no.", "non."),
    "reports-aside-state": ("set aside.", "mise de côté."),
    "withdrawal-reason": (
        "The reason has {value} characters. Accepted: 1 to {most}.",
        "Le motif compte {value} caractères. Accepté : de 1 à {most}.",
    ),
}  # fmt: skip
