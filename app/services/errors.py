"""The ways a use case refuses; the web maps each to one status, the command line to exit code 2."""

from collections.abc import Iterable
from datetime import timedelta


class NotFound(Exception):
    """There is no such thing for this actor: it does not exist, or it is somebody else's."""


class NotAllowed(Exception):
    """The actor may see this thing but not do this with it."""


class Conflict(Exception):
    """The thing has changed meanwhile; `message`, in the actor's language, says what to do."""

    def __init__(self, message: str) -> None:
        super().__init__(message)
        self.message = message


class Invalid(Exception):
    """A value that cannot be accepted; `message`, in the actor's language, names it and what is accepted.

    `others` are further values of the same form that cannot be accepted either.
    """

    def __init__(self, message: str, field: str, others: Iterable["Invalid"] = ()) -> None:
        super().__init__(message)
        self.message, self.field, self.others = message, field, tuple(others)


def refuse_all(found: Iterable[Invalid]) -> None:
    """Raise Invalid for all that was found at once; nothing found is nothing refused."""
    every = tuple(found)
    if every:
        raise Invalid(every[0].message, every[0].field, every[1:])


class TooOften(Exception):
    """Something was tried too often; `message`, in the actor's language, says when it may be tried again."""

    def __init__(self, message: str, wait: timedelta) -> None:
        super().__init__(message)
        self.message, self.wait = message, wait
