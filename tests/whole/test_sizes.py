"""Budgets that keep the code readable: see Style in DEVELOPERS.md. Everything over one is listed at once."""

import ast
import re
from functools import lru_cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
MODULE_LINES = 400
FUNCTION_LINES = 40
PARAMETERS = 6
TEMPLATE_LINES = 150
CONFTEST_LINES = 150
VAGUE_NAMES = frozenset({"utils", "util", "helpers", "helper", "common", "manager", "misc"})
UNFINISHED = re.compile(r"\b(?:TO" + r"DO|FIX" + r"ME|XX" + r"X)\b")


@lru_cache(maxsize=1)
def python_files() -> list[Path]:
    return sorted(file for folder in ("app", "migrations", "tests") for file in (ROOT / folder).rglob("*.py"))


def templates() -> list[Path]:
    return sorted(file for file in (ROOT / "app" / "web" / "templates").rglob("*") if file.is_file())


def lines_in(file: Path) -> int:
    return len(file.read_text("utf-8").splitlines())


def name_of(file: Path) -> str:
    return file.relative_to(ROOT).as_posix()


@lru_cache(maxsize=1)
def functions() -> list[tuple[str, ast.FunctionDef | ast.AsyncFunctionDef]]:
    return [
        (f"{name_of(file)}:{node.lineno} {node.name}", node)
        for file in python_files()
        for node in ast.walk(ast.parse(file.read_text("utf-8")))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    ]


def length_of(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Count from the def line: decorators declare, they do not nest."""
    return (function.end_lineno or function.lineno) - function.lineno + 1


def parameters_of(function: ast.FunctionDef | ast.AsyncFunctionDef) -> list[str]:
    arguments = function.args
    names = [a.arg for a in (*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs)]
    return names[1:] if names[:1] in (["self"], ["cls"]) else names


def options_of(function: ast.FunctionDef | ast.AsyncFunctionDef) -> bool:
    """Tell a click command, whose parameters are the options of its help page, from a function that is called."""
    return any("click" in ast.unparse(decorator) for decorator in function.decorator_list)


def test_modules_are_short() -> None:
    long = [f"{name_of(f)}: {lines_in(f)} lines" for f in python_files() if lines_in(f) > MODULE_LINES]
    assert not long


def test_functions_are_short() -> None:
    assert not [f"{where}: {length_of(f)} lines" for where, f in functions() if length_of(f) > FUNCTION_LINES]


def test_functions_take_few_parameters() -> None:
    crowded = [
        f"{where}: {len(parameters_of(f))} parameters"
        for where, f in functions()
        if len(parameters_of(f)) > PARAMETERS and not where.startswith("tests/") and not options_of(f)
    ]
    assert not crowded


def test_templates_are_short() -> None:
    assert not [f"{name_of(f)}: {lines_in(f)} lines" for f in templates() if lines_in(f) > TEMPLATE_LINES]


def test_conftests_are_short() -> None:
    long = [f for f in python_files() if f.name == "conftest.py" and lines_in(f) > CONFTEST_LINES]
    assert not [name_of(f) for f in long]


def test_modules_say_what_they_hold() -> None:
    assert not [name_of(f) for f in python_files() if VAGUE_NAMES & set(f.relative_to(ROOT).with_suffix("").parts)]


def test_nothing_is_marked_unfinished() -> None:
    found = [
        f"{name_of(file)}:{number}"
        for file in (*python_files(), *templates())
        for number, line in enumerate(file.read_text("utf-8").splitlines(), 1)
        if UNFINISHED.search(line)
    ]
    assert not found
