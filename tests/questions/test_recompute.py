"""Every key, worked again from the printed parameters alone by functions that share no code with the solvers."""

from collections.abc import Callable, Mapping
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from app.packs.fixed import SOLVER
from app.packs.spec import ValueFormat
from app.questions.draw import draw, offered_forms
from app.questions.model import Item, NotOffered
from app.questions.present import plain
from app.questions.sums import misses_by
from app.questions.wording import Writer
from tests.questions.engine import home, library

DRAWS = 300
SUMS_READ = 60
HOMES = (
    (45.3, -75.7, "ca-south"),
    (-43.5, 172.6, "nz"),
    (51.8, -1.3, "uk"),
    (63.7, -68.5, "ca-north"),
    (-0.2, -78.5, "us"),
)

Recompute = Callable[[Mapping[str, Any]], Any]


def all_functions() -> dict[str, Recompute]:
    functions: dict[str, Recompute] = {}
    for file in sorted((Path(__file__).parent / "recompute").glob("[a-z]*.py")):
        functions |= import_module(f"tests.questions.recompute.{file.stem}").RECOMPUTE
    return functions


FUNCTIONS = all_functions()


def test_every_family_is_recomputed() -> None:
    """Hand-written questions hold words alone: there is nothing to work again."""
    drawn = [family.id for family in library().families.values() if family.solver != SOLVER]
    assert sorted(FUNCTIONS) == sorted(drawn)


@pytest.mark.parametrize("family_id", sorted(FUNCTIONS))
def test_key_agrees(family_id: str) -> None:
    forms = offered_forms(library().family(family_id))
    drawn = 0
    for seed in range(1, DRAWS + 1):
        try:
            item = draw(library(), family_id, seed, home(*HOMES[seed % len(HOMES)]), forms[seed % len(forms)])
        except NotOffered:
            continue
        drawn += 1
        if drawn <= SUMS_READ:
            writer = Writer(library(), item, "en")
            assert not [line for _, line in map(writer.working, item.solution.steps) if misses_by(line)], f"seed {seed}"
        wanted = FUNCTIONS[family_id](as_printed(item))
        assert same(wanted, item), f"seed {seed}: worked again {wanted!r}, key {item.key!r}, {item.parameters}"
    assert drawn > DRAWS / 4


def as_printed(item: Item) -> dict[str, Any]:
    """Return what a reader of the printed draw has to work from."""
    return {
        "family": item.family,
        "seed": item.seed,
        "parameters": plain(item.parameters),
        "conventions": item.conventions.as_json(),
        "form": item.form,
        "options": [plain(option.value) for option in item.options],
    }


def same(wanted: Any, item: Item) -> bool:
    """Compare codes and whole numbers exactly, other numbers to a hundredth of the unit."""
    if item.form == "several":
        return sorted(wanted) == sorted(item.key)
    return close(plain(wanted), plain(item.key), item.value)


def close(wanted: Any, key: Any, form: ValueFormat) -> bool:
    if isinstance(key, Mapping):
        return set(wanted) == set(key) and all(close(wanted[name], key[name], form) for name in key)
    if isinstance(key, list):
        return len(wanted) == len(key) and all(close(a, b, form) for a, b in zip(wanted, key, strict=True))
    if isinstance(key, str):
        return bool(wanted == key)
    gap = abs(float(wanted) - float(key))
    return min(gap, abs(gap - 360) if form.kind == "heading" else gap) < 0.01
