"""What is said about questions that a school's own instructors write."""

MESSAGES = {
    "own-empty": ("Nothing is written here yet.", "Rien n'est encore écrit ici."),
    "own-long": (
        "This has {value} characters. Accepted: 1 to {most}.",
        "Ce texte compte {value} caractères. Accepté : de 1 à {most}.",
    ),
    "own-braces": (
        "Braces cannot stand in a question. Use round brackets.",
        "Une question ne peut pas contenir d'accolades. Utilisez des parenthèses.",
    ),
    "own-value": ("“{value}” cannot be kept here.", "« {value} » ne peut pas être enregistré ici."),
    "own-topic": (
        "There is no topic “{value}”. Accepted: {accepted}.",
        "Il n'y a pas de thème « {value} ». Acceptés : {accepted}.",
    ),
    "own-wrong": (
        "There are {value} wrong answers. Accepted: {least} to {most}, each with all four lines filled in.",
        "Il y a {value} mauvaises réponses. Accepté : de {least} à {most}, chacune avec ses quatre lignes remplies.",
    ),
    "own-steps": (
        "There are {value} steps. Accepted: 1 to {most}, one a line.",
        "Il y a {value} étapes. Accepté : de 1 à {most}, une par ligne.",
    ),
    "own-unwritten": (
        "Write the question in one language at least.",
        "Rédigez la question dans une langue au moins.",
    ),
    "own-unlike": (
        "English and French must have as many wrong answers and as many steps. Leave one language out, or even them.",
        "Il faut autant de mauvaises réponses et d'étapes en anglais qu'en français. Omettez une langue ou égalisez.",
    ),
    "own-file": (
        "The file cannot be read. Accepted: a file of own questions as it is saved here.",
        "Le fichier ne peut pas être lu. Accepté : un fichier de questions maison enregistré ici.",
    ),
    "own-file-question": ("Look at question {number}, {field}.", "Voyez la question {number}, {field}."),
    "own-file-size": ("It is larger than {most} kB.", "Il dépasse {most} ko."),
    "own-file-many": ("It holds {value} questions, at most {most}.", "Il contient {value} questions, {most} au plus."),
    "own-file-form": ("It holds no list of questions.", "Il ne contient pas de liste de questions."),
    "own-reason": (
        "The reason has {value} characters. Accepted: 1 to {most}.",
        "La raison compte {value} caractères. Accepté : de 1 à {most}.",
    ),
    "own-changed": (
        "Somebody has changed or released this question meanwhile. Look at it as it is now, then try again.",
        "Quelqu'un a entre-temps modifié ou publié cette question. Consultez-la telle qu'elle est, puis réessayez.",
    ),
    "own-not-fit": (
        "The question cannot be asked yet: see what the checks have against it.",
        "La question ne peut pas encore être posée : voyez ce que les vérifications lui reprochent.",
    ),
    "own-rule": ("The checks say: {what}.", "Les vérifications signalent : {what}."),
    "own-rule-negative-stem": (
        "It asks in the negative. Ask what is; where it must be, write NOT in capitals.",
        "Elle est posée à la forme négative. Demandez ce qui est; au besoin, écrivez NE PAS en capitales.",
    ),
    "own-rule-catch-all-option": (
        "An answer such as “all of the above” tells nothing about the mistake. Offer a real answer.",
        "Une réponse comme « toutes ces réponses » ne dit rien de l'erreur. Proposez une vraie réponse.",
    ),
    "own-rule-options-collide": (
        "Two answers read alike. Each must say something else.",
        "Deux réponses se lisent de la même façon. Chacune doit dire autre chose.",
    ),
    "own-rule-test-wise": (
        "The right answer can be told by its length alone. Make a wrong one as long.",
        "La bonne réponse se devine à sa seule longueur. Rédigez une mauvaise réponse aussi longue.",
    ),
    "own-rule-option-length": (
        "The right answer and the wrong ones differ much in length: some students choose by that.",
        "La bonne réponse et les mauvaises diffèrent beaucoup en longueur : certains choisissent d'après cela.",
    ),
    "own-rule-long-sentence": (
        "A sentence has over 40 words. Split it.",
        "Une phrase compte plus de 40 mots. Scindez-la.",
    ),
    "own-rule-elision": (
        "The French wants an elision: {what}.",
        "Il manque une élision : {what}.",
    ),
}
