"""Files that were parsed before: their data is kept as JSON, so that a start parses only what has changed."""

import json
import os
import tomllib
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import Any


class Parsed:
    """Parses TOML, each text once: it is found by its digest, so that an edited file is parsed anew."""

    def __init__(self, kept: Path | None = None) -> None:
        """`kept` is the file of an earlier start; without one, or where it cannot be read, everything is parsed."""
        self._kept = kept
        self._earlier = _read(kept) if kept else {}
        self._used: dict[str, Any] = {}

    def loads(self, source: str) -> dict[str, Any]:
        """Return the data of a TOML text; raises TOMLDecodeError."""
        digest = sha256(source.encode()).hexdigest()
        data: dict[str, Any] = self._earlier.get(digest) or tomllib.loads(source)
        if digest in self._earlier or _is_json(data):
            self._used[digest] = data
        return data

    def keep(self) -> None:
        """Keep what was asked for, for the next start; where the file cannot be written that one parses again."""
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
