"""Elision and contraction, as any grammar of French has them (common knowledge, no source)."""

import pytest

from app.questions.checks.french import unelided


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("la ligne de isogone", ["de isogone"]),
        ("l'angle que indique le compas", ["que indique"]),
        ("à la fin de heures de vol", ["de heures"]),
        ("l'aile de le coordonnateur", ["de le coordonnateur"]),
        ("ajouté à les caps", ["à les caps"]),
        ("se élève", ["se élève"]),
    ],
)
def test_finds_what_should_be_elided(text: str, found: list[str]) -> None:
    assert unelided(text) == found


@pytest.mark.parametrize(
    "text",
    [
        "la ligne d'isogone, l'est et l'ouest",
        "de A à B, et de KVL vers Osier",
        "afin de le caler sur le compas",
        "le onze du mois, de haut en bas",
        "du coordonnateur aux caps",
        "un écart de 11° et le 8 de la ligne",
        "une rose de huit, de la hauteur",
        "enlevez-le et comparez; est-ce un virage?",
    ],
)
def test_leaves_what_is_right(text: str) -> None:
    assert unelided(text) == []
