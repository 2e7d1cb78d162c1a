"""A finding about a pack, as data: which rule, how bad, where, what is wrong and what to do."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning", "hint"]


@dataclass(frozen=True, slots=True, order=True)
class Issue:
    """One finding; an error keeps the packs from loading, a warning is shown, a hint may be ignored."""

    file: str
    line: int
    rule: str
    severity: Severity
    what: str
    advice: str = ""

    def __str__(self) -> str:
        """Write the finding as one line: place, rule, what, what to do."""
        advice = f" {self.advice}" if self.advice else ""
        return f"{self.file}:{self.line}: {self.severity} {self.rule}: {self.what}{advice}"


class PackProblems(Exception):
    """The packs cannot be used; `issues` holds every finding."""

    def __init__(self, issues: Sequence[Issue]) -> None:
        super().__init__("\n".join(str(issue) for issue in issues))
        self.issues = tuple(issues)
