"""Who may import whom: the contracts in pyproject.toml, and what contracts on modules cannot see."""

import ast
import os
import tomllib
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest
from importlinter.cli import lint_imports

ROOT = Path(__file__).resolve().parents[2]
PURE = ("physics", "packs", "figures", "questions", "grader", "learner", "insight")
CLOCK_CALLS = frozenset({"now", "today", "utcnow"})
UNSTABLE_DRAWS = frozenset({"choice", "choices", "randint", "randrange", "sample", "shuffle", "uniform", "gauss"})


def pure_packages() -> list[str]:
    return [name for name in PURE if (ROOT / "app" / name).is_dir()]


@lru_cache(maxsize=1)
def pure_nodes() -> list[tuple[str, ast.AST]]:
    """Return what can import, call or draw."""
    return [
        (f"{file.relative_to(ROOT).as_posix()}:{node.lineno}", node)
        for package in pure_packages()
        for file in sorted((ROOT / "app" / package).rglob("*.py"))
        for node in ast.walk(ast.parse(file.read_text("utf-8")))
        if isinstance(node, ast.Call | ast.Import | ast.ImportFrom)
    ]


def test_arrows_point_down(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir(ROOT)
    status = lint_imports(config_filename=os.fspath(ROOT / "pyproject.toml"))
    assert status == 0, capsys.readouterr().out


def contract(name: str) -> dict[str, Any]:
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["importlinter"]["contracts"]
    return next(each for each in contracts if each["id"] == name)


def test_every_pure_package_is_under_contract() -> None:
    assert sorted(contract("pure")["source_modules"]) == sorted(f"app.{name}" for name in pure_packages())


def test_every_area_of_the_web_is_under_contract() -> None:
    areas = sorted(f"app.web.{file.parent.name}" for file in (ROOT / "app" / "web").glob("*/__init__.py"))
    assert sorted(contract("areas")["modules"]) == areas


def test_pure_packages_read_no_clock() -> None:
    found = [
        where
        for where, node in pure_nodes()
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in CLOCK_CALLS
    ]
    assert not found


def test_pure_packages_draw_from_a_generator_they_were_handed() -> None:
    """Only the class is taken from random, and of it only random(): Python keeps that one sequence for ever.

    Source: Python library reference, random, Notes on Reproducibility.
    """
    found = []
    for where, node in pure_nodes():
        if isinstance(node, ast.Import) and any(alias.name == "random" for alias in node.names):
            found.append(f"{where} imports the module")
        if isinstance(node, ast.ImportFrom) and node.module == "random" and [a.name for a in node.names] != ["Random"]:
            found.append(f"{where} imports more than Random")
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in UNSTABLE_DRAWS:
            found.append(f"{where} calls {node.func.attr}")
    assert not found
