"""Files that were parsed before: their data is kept as JSON, so that a start parses and checks what has changed."""

import json
import os
import tomllib
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import Any

from app.packs import templates

_RULES = sha256(Path(templates.__file__).read_bytes())  # what the texts of a pack may hold


class Parsed:
    """Parses TOML, each file once: it is found by its digest and by the rules that its texts were held to."""

    def __init__(self, kept: Path | None = None) -> None:
        """`kept` is the file of an earlier start; without one, or where it cannot be read, everything is parsed."""
        self._kept = kept
        self._earlier = _read(kept) if kept else {}
        self._used: dict[str, Any] = {}

    def loads(self, source: str) -> tuple[dict[str, Any], bool]:
        """Return the data of a TOML text, and whether it is an earlier start's; raises TOMLDecodeError."""
        rules = _RULES.copy()
        rules.update(source.encode())
        digest = rules.hexdigest()
        known = digest in self._earlier
        data: dict[str, Any] = self._earlier[digest] if known else tomllib.loads(source)
        if known or _is_json(data):
            self._used[digest] = data
        return data, known

    def keep(self) -> None:
        """Keep what was asked for, which must be free of errors, for the next start; without a file that one parses."""
        if self._kept is None or self._used.keys() == self._earlier.keys():
            return
        beside = self._kept.with_name(f"{self._kept.name}.{os.getpid()}")
        with suppress(OSError):
            beside.write_text(json.dumps(self._used), "utf-8")
            beside.replace(self._kept)


def _is_json(data: object) -> bool:
    """Whether the data is the same when read back: a date would not be."""
    try:
        json.dumps(data)
    except TypeError:
        return False
    return True


def _read(file: Path) -> dict[str, Any]:
    try:
        held = json.loads(file.read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    return held if isinstance(held, dict) else {}
