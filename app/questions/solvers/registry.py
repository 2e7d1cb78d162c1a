"""Solvers by name. A pack can name one, never bring one."""

from collections.abc import Callable

from app.questions.model import Solver

_SOLVERS: dict[str, Solver] = {}


def solver(name: str) -> Callable[[Solver], Solver]:
    """Register a solver under the name packs use; two solvers with one name are a mistake in the code."""

    def register(function: Solver) -> Solver:
        if name in _SOLVERS:
            raise ValueError(f"two solvers are called {name!r}")
        _SOLVERS[name] = function
        return function

    return register


def find_solver(name: str) -> Solver | None:
    """Return the solver of that name, or None."""
    return _SOLVERS.get(name)


def solver_names() -> tuple[str, ...]:
    """Return every registered name, in alphabetical order."""
    return tuple(sorted(_SOLVERS))
