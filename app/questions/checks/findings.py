"""Collects findings about one family, each rule and message once, with how often it was met."""

from collections import Counter
from dataclasses import dataclass, field

from app.packs.issues import Issue, Severity


@dataclass
class Findings:
    """Findings about the family in `file`; `source` of a finding is a line of that file."""

    file: str
    seen: Counter[tuple[str, Severity, str, str]] = field(default_factory=Counter)

    def error(self, rule: str, what: str, advice: str = "") -> None:
        """Note what keeps the family out of the bank."""
        self.seen[rule, "error", what, advice] += 1

    def warn(self, rule: str, what: str, advice: str = "") -> None:
        """Note what should be mended."""
        self.seen[rule, "warning", what, advice] += 1

    def has(self, rule: str) -> bool:
        """Whether a rule has found something."""
        return any(seen == rule for seen, *_ in self.seen)

    def issues(self) -> list[Issue]:
        """Return the findings, the most frequent first, at most five of a rule."""
        kept: Counter[str] = Counter()
        found = []
        for (rule, severity, what, advice), times in self.seen.most_common():
            kept[rule] += 1
            if kept[rule] <= 5:
                often = f" ({times} times)" if times > 1 else ""
                found.append(Issue(self.file, 1, rule, severity, what + often, advice))
        return found
