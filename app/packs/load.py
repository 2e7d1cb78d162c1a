"""Reads the packs from their folder and collects everything that is wrong, each finding with file and line."""

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from app.packs.fixed import FixedQuestion
from app.packs.issues import Issue, PackProblems
from app.packs.library import Library
from app.packs.locate import line_of
from app.packs.parsed import Parsed
from app.packs.spec import FORMAT, Family, Pack, Shared
from app.packs.syllabus import Syllabuses
from app.packs.templates import read_template

LARGEST_FILE_BYTES = 200_000
SHARED_FILE = "shared.toml"
SYLLABUS_FILE = "syllabus.toml"

Model = TypeVar("Model", bound=BaseModel)


@dataclass(frozen=True, slots=True)
class _Folder:
    """The folder of all packs, and what parses its files."""

    path: Path
    parsed: Parsed

    def name_of(self, file: Path) -> str:
        return file.relative_to(self.path).as_posix()


def load_library(folder: Path, parsed: Parsed | None = None) -> Library:
    """Return all packs in `folder`; raises PackProblems with every error found, never only the first."""
    library, issues = read_library(folder, parsed)
    errors = [issue for issue in issues if issue.severity == "error"]
    if library is None or errors:
        raise PackProblems(sorted(errors))
    return library


def read_library(folder: Path, parsed: Parsed | None = None) -> tuple[Library | None, list[Issue]]:
    """Return the packs as far as they can be read, and all findings about their form."""
    issues: list[Issue] = []
    root = _Folder(folder, parsed or Parsed())
    shared = _read(folder / SHARED_FILE, Shared, root, issues)
    syllabuses: Syllabuses | None = Syllabuses(format=FORMAT)
    if (folder / SYLLABUS_FILE).is_file():
        syllabuses = _read(folder / SYLLABUS_FILE, Syllabuses, root, issues)
    packs: dict[str, Pack] = {}
    families: dict[str, Family] = {}
    files: dict[str, str] = {}
    for pack_file in sorted(folder.glob("*/pack.toml")):
        pack = _read(pack_file, Pack, root, issues)
        if pack is None:
            continue
        name = root.name_of(pack_file)
        if pack.id != pack_file.parent.name:
            issues.append(
                _error(name, 1, "pack-id", f"the pack in folder {pack_file.parent.name!r} calls itself {pack.id!r}")
            )
        packs[pack.id] = pack
        found = _read_families(pack_file.parent, root, families, files, issues)
        issues += _check_listing(pack, found, name)
    if not packs and not issues:
        issues.append(_error(".", 1, "no-packs", "the folder holds no pack: a pack is a folder with a pack.toml"))
    if shared is None or syllabuses is None or any(issue.severity == "error" for issue in issues):
        return None, issues
    return Library(packs, families, shared, files, syllabuses), issues


def _read_families(
    pack_folder: Path, root: _Folder, families: dict[str, Family], files: dict[str, str], issues: list[Issue]
) -> set[str]:
    found = set()
    for file in sorted([*(pack_folder / "families").glob("*.toml"), *(pack_folder / "fixed").glob("*.toml")]):
        family = _read_family(file, root, issues)
        if family is None:
            found.add(file.stem)
            continue
        name = root.name_of(file)
        if family.id in families:
            issues.append(_error(name, 1, "duplicate-id", f"family {family.id!r} is already in {files[family.id]}"))
        if family.topic != pack_folder.name:
            issues.append(_error(name, 1, "topic", f"topic is {family.topic!r}, but the pack is {pack_folder.name!r}"))
        families[family.id] = family
        files[family.id] = name
        found.add(family.id)
    return found


def _read_family(file: Path, root: _Folder, issues: list[Issue]) -> Family | None:
    if file.parent.name == "families":
        return _read(file, Family, root, issues)
    question = _read(file, FixedQuestion, root, issues)
    return question.as_family() if question else None


def _check_listing(pack: Pack, found: set[str], name: str) -> Iterable[Issue]:
    for family_id in pack.families:
        if family_id not in found:
            yield _error(
                name, 1, "listing", f"families lists {family_id!r}, but no file in families/ or fixed/ has this id"
            )
    for family_id in sorted(found - set(pack.families)):
        yield _error(name, 1, "listing", f"family {family_id!r} is missing from families in pack.toml")
    if len(set(pack.families)) != len(pack.families):
        yield _error(name, 1, "listing", "families lists a family twice")


def _read(file: Path, model: type[Model], root: _Folder, issues: list[Issue]) -> Model | None:
    name = root.name_of(file)
    source = _source(file, name, issues)
    if source is None:
        return None
    try:
        data, known = root.parsed.loads(source)
    except tomllib.TOMLDecodeError as error:
        line = int(match) if (match := str(error).partition("line ")[2].partition(",")[0]).isdigit() else 1
        issues.append(_error(name, line, "toml", str(error)))
        return None
    if data.get("format") != FORMAT:
        what = f"format is {data.get('format')!r}; this version reads format {FORMAT}"
        issues.append(_error(name, line_of(source, ("format",)), "format", what, "Update the program or the pack."))
        return None
    try:
        read = model.model_validate(data)
    except ValidationError as error:
        issues += [_schema_issue(name, source, detail, model) for detail in error.errors()]
        return None
    if not known:
        issues += _text_issues(name, source, data)
    return read


def _source(file: Path, name: str, issues: list[Issue]) -> str | None:
    try:
        size = file.stat().st_size
        if size > LARGEST_FILE_BYTES:
            what = f"the file has {size:,} bytes; at most {LARGEST_FILE_BYTES:,} are read"
            issues.append(_error(name, 1, "file-size", what, "Split it."))
            return None
        return file.read_text(encoding="utf-8")
    except FileNotFoundError:
        issues.append(_error(name, 1, "missing-file", "the file is missing"))
    except (OSError, UnicodeDecodeError) as error:
        issues.append(_error(name, 1, "unreadable", f"the file cannot be read as UTF-8 text: {error}"))
    return None


def _schema_issue(name: str, source: str, detail: Any, model: type[BaseModel]) -> Issue:
    location = tuple(detail["loc"])
    place = ".".join(str(part) for part in location) or "the file"
    advice = ""
    if detail["type"] == "extra_forbidden":
        near = get_close_matches(str(location[-1]), model.model_fields, n=1)
        advice = f"Did you mean {near[0]!r}?" if near else "Remove it."
    elif detail["type"] == "missing" and location[-1] in {"en", "fr"}:
        advice = "Every text stands in both languages."
    rule = "missing-language" if advice.startswith("Every text") else "schema"
    return _error(name, line_of(source, location), rule, f"{place}: {detail['msg']}", advice)


def _text_issues(name: str, source: str, data: Any, location: tuple[str | int, ...] = ()) -> Iterable[Issue]:
    """Check every string that stands under en, fr or sum: these are templates."""
    if isinstance(data, dict):
        for key, value in data.items():
            yield from _text_issues(name, source, value, (*location, key))
    elif isinstance(data, list):
        for index, value in enumerate(data):
            yield from _text_issues(name, source, value, (*location, index))
    elif isinstance(data, str) and location[-1] in {"en", "fr", "sum"}:
        for problem in read_template(data)[1]:
            where = ".".join(str(part) for part in location)
            yield _error(
                name, line_of(source, location), "template", f"{where}: {problem}", "Write {{ name | filter }}."
            )


def _error(file: str, line: int, rule: str, what: str, advice: str = "") -> Issue:
    return Issue(file, line, rule, "error", what, advice)
