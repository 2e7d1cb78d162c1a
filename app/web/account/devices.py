"""What a browser calls itself, in words that people know it by."""

BROWSERS = (
    ("Edg", "Edge"), ("OPR", "Opera"), ("FxiOS", "Firefox"), ("Firefox", "Firefox"), ("CriOS", "Chrome"),
    ("Chrome", "Chrome"), ("Safari", "Safari"),
)  # fmt: skip
SYSTEMS = (
    ("iPhone", "iPhone"), ("iPad", "iPad"), ("Android", "Android"), ("Windows", "Windows"), ("Macintosh", "Mac"),
    ("Linux", "Linux"),
)  # fmt: skip


def device_words(told: str) -> str:
    """Return browser and system, as far as they are known; else what it calls itself."""
    known = (next((words for sign, words in names if sign in told), "") for names in (BROWSERS, SYSTEMS))
    return ", ".join(filter(None, known)) or told
