"""The packs in use: loaded once, and exchanged only for packs without errors."""

from collections.abc import Sequence
from pathlib import Path

from app.packs.issues import Issue, PackProblems
from app.packs.library import Library
from app.packs.load import load_library


class Shelf:
    """Holds the library of one folder; after a bad edit the last good one stays in use."""

    def __init__(self, folder: Path) -> None:
        """Load the packs; raises PackProblems with every finding, as there is no earlier library to keep."""
        self._folder = folder
        self._library = load_library(folder)
        self._issues: tuple[Issue, ...] = ()

    @property
    def library(self) -> Library:
        """The last good library; take it once a request, so that a reload cannot change it half way."""
        return self._library

    @property
    def issues(self) -> Sequence[Issue]:
        """What keeps the newest packs from being used; empty when they are in use."""
        return self._issues

    def reload(self) -> Sequence[Issue]:
        """Read the folder again; returns the findings that kept the old library in use, or nothing."""
        try:
            self._library = load_library(self._folder)
        except PackProblems as problems:
            self._issues = problems.issues
        else:
            self._issues = ()
        return self._issues
