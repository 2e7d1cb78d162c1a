"""What is said about exam profiles, rehearsals and readiness."""

MESSAGES = {
    "in-rehearsal": (
        "This question belongs to a rehearsal. It is answered there, and its verdict is shown after the end.",
        "Cette question fait partie d'une répétition d'examen. On y répond là-bas, et le verdict vient après la fin.",
    ),
    "rehearsal-over": (
        "The time of this rehearsal is up. The answers kept until then count.",
        "Le temps de cette répétition est écoulé. Les réponses gardées jusque-là comptent.",
    ),
    "rehearsal-paused": (
        "This rehearsal is paused. Go on with it first; the clock runs again from then.",
        "Cette répétition est en pause. Reprenez-la d'abord; l'horloge tournera de nouveau.",
    ),
    "no-pause": (
        "This rehearsal was started in strict mode: it cannot be paused.",
        "Cette répétition a commencé en mode strict : elle ne peut pas être mise en pause.",
    ),
    "exam-number": (
        "“{value}” is not accepted here. Accepted: a whole number from {least} to {most}.",
        "« {value} » n'est pas accepté ici. Accepté : un nombre entier de {least} à {most}.",
    ),
    "exam-text": (
        "“{value}” is not accepted here. Accepted: 1 to {most} characters on one line.",
        "« {value} » n'est pas accepté ici. Accepté : de 1 à {most} caractères sur une ligne.",
    ),
    "exam-family": (
        "“{value}” is no kind of question. Accepted: ids separated by commas, such as term-match.",
        "« {value} » n'est pas un genre de question. Accepté : des identifiants séparés de virgules, tel term-match.",
    ),
    "exam-sections": (
        "The sections have {value} questions together; the exam has {total}. The two must be the same.",
        "Les sections comptent {value} questions ensemble; l'examen en compte {total}. Les deux doivent être égaux.",
    ),
    "exam-asks-nothing": (
        "A rehearsal would ask {value} questions. Give at least one section a topic and a number of questions to ask.",
        "Une répétition poserait {value} question. Donnez à une section au moins un thème et un nombre de questions.",
    ),
    "exam-no-topic": (
        "The section {value} asks questions of no topic. Tick a topic, name a kind of question, or ask 0.",
        "La section {value} ne pose des questions d'aucun thème. Cochez un thème, nommez un genre ou posez-en 0.",
    ),
    "exam-changed": (
        "Somebody has changed this profile since you opened this page. Nothing was kept; look at it again.",
        "Quelqu'un a modifié ce profil depuis l'ouverture de cette page. Rien n'a été gardé; regardez de nouveau.",
    ),
    "readiness-day": (
        "“{value}” is no day to sit an exam on. Accepted: a date from today to two years ahead, such as {example}.",
        "« {value} » n'est pas un jour d'examen. Accepté : une date d'ici deux ans, par exemple {example}.",
    ),
}  # fmt: skip
