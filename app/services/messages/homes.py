"""What is said about a home place and its house rules."""

MESSAGES = {
    "no-home": (
        "No home place was given. Choose one of the list, or give latitude and longitude, such as 45.32 and -75.67.",
        "Aucun lieu n'est indiqué. Choisissez-en un ou donnez latitude et longitude, par exemple 45,32 et -75,67.",
    ),
    "unknown-place": (
        "“{value}” is not in the list of places. Choose one of the list, such as {example}.",
        "« {value} » n'est pas dans la liste des lieux. Choisissez-en un, par exemple {example}.",
    ),
    "latitude": (
        "The latitude {value} is not on the earth. Accepted: -90 to 90 degrees, north positive, such as 45.32.",
        "La latitude {value} n'est pas sur la Terre. Accepté : de -90 à 90 degrés, nord positif, par exemple 45,32.",
    ),
    "longitude": (
        "The longitude {value} is not on the earth. Accepted: -180 to 180 degrees, east positive, such as -75.67.",
        "La longitude {value} n'est pas sur la Terre. Accepté : de -180 à 180 degrés, est positif, par exemple -75,67.",
    ),
    "date": (
        "The magnetic model does not hold on {value}. Accepted: {low} to {high}, such as {example}.",
        "Le modèle magnétique ne vaut pas pour le {value}. Accepté : du {low} au {high}, par exemple {example}.",
    ),
    "unknown-rule": (
        "There is no house rule “{value}”. There are: {accepted}.",
        "Il n'y a pas de règle « {value} ». Il y a : {accepted}.",
    ),
    "rule": (
        "{name} cannot be “{value}”. Accepted: {accepted}.",
        "{name} ne peut pas être « {value} ». Accepté : {accepted}.",
    ),
}  # fmt: skip
