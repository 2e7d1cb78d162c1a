"""What use cases say to people, in both languages."""

from app.packs.spec import Language

MESSAGES: dict[str, tuple[str, str]] = {
    "revised": (
        "This question has been revised since it was shown. Nothing was counted; please answer it as it stands now.",
        "Cette question a été révisée depuis son affichage. Rien n'a été compté; répondez à la version actuelle.",
    ),
}


def say(code: str, language: Language, **values: object) -> str:
    """Return a message with its values filled in."""
    english, french = MESSAGES[code]
    return (english if language == "en" else french).format(**values)
