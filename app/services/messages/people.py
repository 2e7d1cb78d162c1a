"""What is said about schools, accounts and signing in."""

MESSAGES = {
    "school-changed": (
        "Somebody has changed these settings since you opened the page. Nothing was kept; see them as they are now.",
        "Quelqu'un a modifié ces réglages depuis l'ouverture de la page. Rien n'a été gardé; voyez-les tels quels.",
    ),
    "whole-number": (
        "“{value}” cannot be accepted here. Accepted: a whole number from {least} to {most}.",
        "« {value} » n'est pas accepté ici. Accepté : un nombre entier de {least} à {most}.",
    ),
    "language": (
        "“{value}” is not a language of this program. Accepted: en or fr.",
        "« {value} » n'est pas une langue de ce programme. Accepté : en ou fr.",
    ),
    "erase-oneself": (
        "You cannot erase yourself: somebody must look after the school. Ask another administrator.",
        "Vous ne pouvez pas vous effacer : quelqu'un doit s'occuper de l'école. Demandez à un autre administrateur.",
    ),
    "erase-login": (
        "“{value}” is not the login name of this person. To erase them, type {login}; nothing was erased.",
        "« {value} » n'est pas l'identifiant de cette personne. Pour l'effacer, tapez {login}; rien n'a été effacé.",
    ),
    "sign-in-refused": (
        "School, login name and password do not belong together. Check all three, or ask your instructor for a code.",
        "L'école, l'identifiant et le mot de passe ne vont pas ensemble. Vérifiez les trois ou demandez un code.",
    ),
    "code-refused": (
        "School, login name and code do not belong together, or the code was used or has expired. Ask for a new one.",
        "L'école, l'identifiant et le code ne vont pas ensemble, ou le code a déjà servi ou a expiré. Demandez-en un.",
    ),
    "too-often": (
        "There were too many tries. Try again in {minutes} minutes; nothing is lost meanwhile.",
        "Il y a eu trop d'essais. Réessayez dans {minutes} minutes; rien n'est perdu d'ici là.",
    ),
    "password-length": (
        "This password has {value} characters. Accepted: {least} to {most}; a few words in a row are easy to remember.",
        "Ce mot de passe compte {value} caractères. Accepté : de {least} à {most}; quelques mots se retiennent bien.",
    ),
    "password-guessed": (
        "This password is easily guessed. Choose another one, such as a few words that do not belong together.",
        "Ce mot de passe se devine facilement. Choisissez-en un autre, par exemple des mots sans lien entre eux.",
    ),
    "present-password": (
        "This is not your present password. Nothing was changed.",
        "Ce n'est pas votre mot de passe actuel. Rien n'a été modifié.",
    ),
    "school-code": (
        "“{value}” cannot be a school's code. Accepted: 2 to 30 small letters, digits and hyphens, such as north-bay.",
        "« {value} » ne peut être le code d'une école. Accepté : 2 à 30 minuscules, chiffres et traits d'union.",
    ),
    "school-code-taken": (
        "Another school has the code “{value}”. Choose a different one.",
        "Une autre école a le code « {value} ». Choisissez-en un différent.",
    ),
    "name": (
        "“{value}” cannot be a name. Accepted: 1 to {most} characters.",
        "« {value} » ne peut être un nom. Accepté : de 1 à {most} caractères.",
    ),
    "time-zone": (
        "“{value}” is not a time zone. Accepted: a name of the IANA database, such as America/Toronto.",
        "« {value} » n'est pas un fuseau horaire. Accepté : un nom de la base IANA, comme America/Toronto.",
    ),
}  # fmt: skip
