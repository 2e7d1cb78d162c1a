"""What is said about starting drills, asking and answering."""

MESSAGES = {
    "revised": (
        "This question has been revised since it was shown. Nothing was counted; please answer it as it stands now.",
        "Cette question a été révisée depuis son affichage. Rien n'a été compté; répondez à la version actuelle.",
    ),
    "withdrawn": (
        "This question is no longer offered. Nothing was counted; the summary lists the others.",
        "Cette question n'est plus proposée. Rien n'a été compté; le bilan présente les autres.",
    ),
    "kinds-withdrawn": (
        "Your school has withdrawn these questions: {titles}. They are not asked for now.",
        "Votre école a retiré ces questions : {titles}. Elles ne sont pas posées pour le moment.",
    ),
    "not-answered": (
        "This question has no answer yet. Answer it first; then its verdict is shown.",
        "Cette question n'a pas encore de réponse. Répondez-y d'abord; le verdict viendra ensuite.",
    ),
    "minutes": (
        "A drill cannot last {value} minutes; it lasts from 1 to {most}, such as 10.",
        "Un exercice ne peut pas durer {value} minutes; il dure de 1 à {most}, par exemple 10.",
    ),
    "nothing-missed": (
        "No answer of this drill was wrong: there is nothing to drill again.",
        "Aucune réponse de cet exercice n'était fausse : il n'y a rien à reprendre.",
    ),
    "nothing-offered": (
        "None of these questions is offered at {place}. Choose another topic or another home place.",
        "Aucune de ces questions n'est proposée à {place}. Choisissez un autre thème ou un autre lieu.",
    ),
    "length": (
        "A drill cannot have {value} questions; it has from 1 to {most}, such as 10.",
        "Un exercice ne peut pas compter {value} questions; il en a de 1 à {most}, par exemple 10.",
    ),
}  # fmt: skip
