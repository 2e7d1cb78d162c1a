"""Stand-ins for what a test must hold still: the clock and where drills' numbers come from."""

from datetime import UTC, datetime, timedelta
from itertools import count

START = datetime(2026, 9, 1, 14, 30, tzinfo=UTC)


class Clock:
    """A clock that moves only when told."""

    def __init__(self) -> None:
        self.time = START

    def __call__(self) -> datetime:
        return self.time

    def forward(self, step: timedelta) -> None:
        self.time += step

    def reset(self) -> None:
        self.time = START


class Seeds:
    """Seeds one after another, the same in every run; `then` sets the next one."""

    def __init__(self) -> None:
        self.reset()

    def __call__(self) -> int:
        return next(self._numbers)

    def then(self, seed: int) -> None:
        self._numbers = count(seed)

    def reset(self) -> None:
        self.then(1)


class PlainHasher:
    """Hashes at once, and counts how often it was asked."""

    def __init__(self) -> None:
        self.asked = 0

    def hash(self, password: str) -> str:
        return f"plain {password}"

    def fits(self, kept: str, password: str) -> bool:
        self.asked += 1
        return kept == self.hash(password)

    def nobodys(self) -> str:
        return "nobody's"
