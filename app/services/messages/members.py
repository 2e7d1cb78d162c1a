"""What is said about rosters and about looking after people's accounts."""

MESSAGES = {
    "no-names": (
        "No names were given. Paste one name a line, up to {most}.",
        "Aucun nom n'est donné. Collez un nom par ligne, au plus {most}.",
    ),
    "too-many-names": (
        "{count} names were given; at most {most} are taken at once. Nothing was made: divide the list.",
        "{count} noms sont donnés; au plus {most} à la fois. Rien n'a été créé : divisez la liste.",
    ),
    "roster-line": (
        "Line {line}: {reason} Nothing was made.",
        "Ligne {line} : {reason} Rien n'a été créé.",
    ),
    "double-names": (
        "Twice in the list, or in the class already: {names}. Nothing was made. If these are different people, say so.",
        "Deux fois dans la liste, ou déjà en classe : {names}. Rien n'est créé. Si ce sont des homonymes, dites-le.",
    ),
    "unreadable-roster": (
        "This file is not a table of text. Accepted: a CSV file with a name in each line, e-mail address if you like.",
        "Ce fichier n'est pas un tableau de texte. Accepté : un fichier CSV, un nom par ligne, courriel au besoin.",
    ),
    "email": (
        "“{value}” is not an e-mail address. Accepted: none at all, or one such as alice@school.example.",
        "« {value} » n'est pas une adresse courriel. Accepté : aucune, ou une adresse comme alice@ecole.example.",
    ),
    "has-left": (
        "{name} has left the school. Let them return first.",
        "{name} a quitté l'école. Rouvrez d'abord son compte.",
    ),
    "needs-successor": (
        "{name} alone teaches {classes}. Choose who takes these classes over.",
        "{name} enseigne sans collègue à {classes}. Choisissez qui reprend ces classes.",
    ),
    "last-administrator": (
        "{name} is the only administrator of this school. Make somebody else one first.",
        "{name} est la seule personne qui administre l'école. Nommez d'abord quelqu'un d'autre.",
    ),
    "invited-role": (
        "“{value}” cannot be invited. Accepted: instructor or administrator; students join by a class's code.",
        "« {value} » ne peut être invité. Accepté : instructeur ou administrateur; l'élève s'inscrit avec un code.",
    ),
    "invitation-closed": (
        "This invitation is mistyped, used, taken back or expired. Ask whoever sent it for a new one.",
        "Cette invitation est mal tapée, utilisée, annulée ou expirée. Demandez-en une autre à qui vous l'a envoyée.",
    ),
    "join-refused": (
        "No class can be joined with this school code and class code now. Check both, or ask your instructor.",
        "Aucune classe n'est ouverte avec ce code d'école et ce code de classe. Vérifiez-les.",
    ),
    "member-role": (
        "“{value}” cannot be this person's role. Accepted: instructor or administrator, never for a student.",
        "« {value} » n'est pas admis comme rôle ici. Accepté : instructeur ou administrateur, jamais pour un élève.",
    ),
}  # fmt: skip
