"""What is said about flights of the bench."""

MESSAGES = {
    "bench-heading": (
        "{value} is not a heading. Accepted: whole degrees from 1 to 360, such as 090.",
        "{value} n'est pas un cap. Accepté : degrés entiers de 1 à 360, par exemple 090.",
    ),
    "bench-bank": (
        "A bank of {value} degrees cannot be flown here. Accepted: {low} to {high}, such as 15.",
        "Le banc n'admet pas {value} degrés d'inclinaison latérale. Accepté : de {low} à {high}, par exemple 15.",
    ),
    "bench-speed": (
        "An airspeed of {value} kt cannot be flown here. Accepted: {low} to {high}, such as 100.",
        "Le banc n'admet pas une vitesse de {value} kt. Accepté : de {low} à {high}, par exemple 100.",
    ),
    "bench-change": (
        "A change of {value} kt a second cannot be flown here. Accepted: {low} to {high}; slower is negative: -2.",
        "Le banc n'admet pas un changement de {value} kt par seconde. Accepté : de {low} à {high}; ralentir : -2.",
    ),
    "bench-last-speed": (
        "This would end at {value} kt. Accepted: an end between {low} and {high} kt; change less, or for less long.",
        "La vitesse finale serait de {value} kt. Accepté : de {low} à {high} kt; changez moins, ou moins longtemps.",
    ),
    "bench-seconds": (
        "{value} seconds cannot be flown here. Accepted: {low} to {high}, such as 10.",
        "Le banc n'admet pas {value} secondes. Accepté : de {low} à {high}, par exemple 10.",
    ),
    "bench-dip": (
        "{value} is not a dip. Accepted: {low} to {high} degrees, down at the north end positive, such as 68.",
        "{value} n'est pas une inclinaison magnétique. Accepté : de {low} à {high} degrés, nord vers le bas positif.",
    ),
    "bench-moment": (
        "{value} s is not a moment of this flight. Accepted: {low} to {high}, such as 20.",
        "{value} s n'est pas un moment de ce vol. Accepté : de {low} à {high}, par exemple 20.",
    ),
}  # fmt: skip
