"""What is said about classes, their people, rosters and invitations."""

MESSAGES = {
    "period": (
        "The latest {value} weeks cannot be chosen. Accepted: {accepted} weeks.",
        "Les {value} dernières semaines ne peuvent être choisies. Accepté : {accepted} semaines.",
    ),
    "recheck-nobody": (
        "Nobody is behind “{value}” any more. Look at the weak spots again.",
        "Plus personne n'est derrière « {value} ». Regardez de nouveau les points faibles.",
    ),
    "last-teacher": (
        "{name} is the only instructor of this class. Add another one first.",
        "{name} est la seule personne qui enseigne à cette classe. Ajoutez d'abord quelqu'un d'autre.",
    ),
    "no-student": (
        "No student of this school has the login name “{value}”. It stands on the slip, such as alice.roy.",
        "Aucun élève de cette école n'a l'identifiant « {value} ». Il figure sur la fiche, par exemple alice.roy.",
    ),
    "joining-days": (
        "Joining cannot be open for {value} days. Accepted: {accepted}.",
        "L'inscription ne peut pas être ouverte {value} jours. Accepté : {accepted}.",
    ),
    "class-archived": (
        "{name} is put away. Bring it back first.",
        "La classe {name} est rangée. Ramenez-la d'abord.",
    ),
    "class-changed": (
        "Somebody has changed {name} since you opened this page. Nothing was kept; look at it again.",
        "Quelqu'un a modifié {name} depuis l'ouverture de cette page. Rien n'a été gardé; regardez de nouveau.",
    ),
}  # fmt: skip
