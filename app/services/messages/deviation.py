"""What is said about swing sheets and coefficients of deviation."""

MESSAGES = {
    "coefficient-size": (
        "A coefficient of {value} degrees is not taken here. Accepted: {low} to {high}, east positive, such as 2.5.",
        "Un coefficient de {value} degrés n'est pas admis ici. Accepté : de {low} à {high}, est positif, tel 2,5.",
    ),
    "deviation-size": (
        "A deviation of {value} degrees: such a compass is repaired first. Accepted: {low} to {high}, such as 2.5.",
        "Une déviation de {value} degrés : on répare d'abord ce compas. Accepté : de {low} à {high}, tel 2,5.",
    ),
    "sheet-few": (
        "Readings on the sheet: {value}, too few for a curve. Accepted: {low} to {high} lines, eight are usual.",
        "Lectures sur la feuille : {value}, trop peu. Accepté : de {low} à {high} lignes, huit est l'usage.",
    ),
    "sheet-many": (
        "Readings on the sheet: {value}, too many. Accepted: {low} to {high} lines, eight are usual.",
        "Lectures sur la feuille : {value}, c'est trop. Accepté : de {low} à {high} lignes, huit est l'usage.",
    ),
    "sheet-line": (
        "Line {line}, “{value}”, is not two headings. Accepted: magnetic, then compass, such as 090 093.",
        "La ligne {line}, « {value} », n'a pas deux caps. Accepté : magnétique, puis compas, tels 090 093.",
    ),
    "sheet-heading": (
        "Line {line}: {value} is not a heading. Accepted: 001 to 360, such as 090 093.",
        "Ligne {line} : {value} n'est pas un cap. Accepté : de 001 à 360, par exemple 090 093.",
    ),
    "sheet-far": (
        "Line {line}: {magnetic} and {compass} are {value} degrees apart: a slip, a fault. Accepted: {most} at most.",
        "Ligne {line} : {magnetic} et {compass} diffèrent de {value} degrés : erreur, panne. Accepté : {most} au plus.",
    ),
    "sheet-twice": (
        "{value} stands on the sheet twice. Accepted: each magnetic heading once.",
        "{value} figure deux fois sur la feuille. Accepté : chaque cap magnétique une seule fois.",
    ),
    "sheet-gap": (
        "From {before} to {after}, {value} degrees, nothing was read. Accepted: gaps of {most} at most, as N, E, S, W.",
        "De {before} à {after}, {value} degrés, rien n'a été lu. Accepté : au plus {most}, comme à N, E, S, O.",
    ),
}  # fmt: skip
