"""Golden draws: five a family, frozen whole; a key or a word that moves shows as a difference a person must accept."""

import hashlib
import json
from collections.abc import Mapping
from datetime import date
from typing import Any

from app.packs.library import Library
from app.questions.conventions import Conventions, conventions_at
from app.questions.draw import draw
from app.questions.model import NotOffered
from app.questions.present import present_item

GOLDEN_SEEDS = (1, 2, 3, 4, 5)


def golden_conventions() -> Conventions:
    """Return the one home place golden draws are made at."""
    return conventions_at("Larkspur", 45.3, -75.7, date(2026, 9, 1))


def golden_draws(library: Library, family_id: str) -> list[dict[str, Any]]:
    """Return what is frozen of each golden draw: stem, key and options in plain view, the rest as a digest."""
    rules = golden_conventions()
    frozen = []
    for seed in GOLDEN_SEEDS:
        try:
            item = draw(library, family_id, seed, rules)
        except NotOffered as outcome:
            frozen.append({"seed": seed, "not_offered": outcome.reason})
            continue
        shown = _as_typed({language: present_item(library, item, language) for language in ("en", "fr")})
        english = shown["en"]
        frozen.append(
            {
                "seed": seed,
                "stem": english["stem"],
                "key": json.dumps(english["answer"]["key"], ensure_ascii=False),
                "options": [option["text"] for option in english["options"]],
                "digest": hashlib.sha256(json.dumps(shown, sort_keys=True).encode()).hexdigest()[:16],
            }
        )
    return frozen


def _as_typed(shown: dict[str, Any]) -> dict[str, Any]:
    """Undo the printed apostrophes: what is frozen are words and numbers, not how a page sets them."""
    typed: dict[str, Any] = json.loads(json.dumps(shown).replace("\\u2019", "'"))
    return typed


def differences(library: Library, family_id: str, frozen: Mapping[str, Any]) -> list[str]:
    """Return in plain words how today's golden draws differ from the frozen ones."""
    wanted = frozen.get(family_id)
    if wanted is None:
        return ["no golden draws are frozen: read them and accept"]
    today = golden_draws(library, family_id)
    found = []
    for old, new in zip(wanted, today, strict=False):
        moved = [name for name in new if old.get(name) != new[name]]
        found += [f"seed {new['seed']}: {name} was {old.get(name)!r}, is {new[name]!r}" for name in moved]
    return found
