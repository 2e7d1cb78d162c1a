"""The packs in use: loaded once, looked at again now and then, and exchanged only for packs without errors."""

import logging
from collections.abc import Sequence
from datetime import datetime, timedelta
from pathlib import Path
from threading import Lock

from app.packs.issues import Issue, PackProblems
from app.packs.library import Library
from app.packs.load import load_library
from app.packs.parsed import Parsed

LOOK_AGAIN_AFTER = timedelta(seconds=5)

Stamp = frozenset[tuple[str, int, int]]


class Shelf:
    """Holds the library of one folder; after a bad edit the last good one stays in use."""

    def __init__(self, folder: Path, kept: Path | None = None) -> None:
        """Load the packs; raises PackProblems with every finding, as there is no earlier library to keep.

        kept: the file that keeps what was parsed for the next start.
        """
        self._folder = folder
        self._stamp = _stamp(folder)
        parsed = Parsed(kept)
        self._library = load_library(folder, parsed)
        parsed.keep()
        self._issues: tuple[Issue, ...] = ()
        self._looked: datetime | None = None
        self._looking = Lock()

    @property
    def library(self) -> Library:
        """The last good library; take it once a request, so that a reload cannot change it half way."""
        return self._library

    @property
    def issues(self) -> Sequence[Issue]:
        """What keeps the newest packs from being used; empty when they are in use."""
        return self._issues

    def library_at(self, now: datetime) -> Library:
        """Return the last good library, reading the folder again where a file has changed since the last look.

        It is looked at once in five seconds; whoever asks while it is being read gets the library there was.
        """
        due = self._looked is None or now - self._looked >= LOOK_AGAIN_AFTER
        if due and self._looking.acquire(blocking=False):
            try:
                self._looked = now
                if _stamp(self._folder) != self._stamp:
                    self.reload()
            finally:
                self._looking.release()
        return self._library

    def reload(self) -> Sequence[Issue]:
        """Read the folder again; returns the findings that kept the old library in use, or nothing."""
        self._stamp = _stamp(self._folder)
        try:
            self._library = load_library(self._folder)
        except PackProblems as problems:
            self._issues = problems.issues
            logging.getLogger(__name__).exception("The packs were changed and cannot be used; the earlier ones stay.")
        else:
            self._issues = ()
        return self._issues


def _stamp(folder: Path) -> Stamp:
    """Return what changes when any file of the packs is written, added or removed."""
    found = set()
    for file in folder.rglob("*.toml"):
        try:
            status = file.stat()
        except FileNotFoundError:  # removed meanwhile: that is a change too
            continue
        found.add((file.relative_to(folder).as_posix(), status.st_mtime_ns, status.st_size))
    return frozenset(found)
