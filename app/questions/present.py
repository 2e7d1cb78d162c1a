"""An item, or a family, as plain values for a reader without the code: enough to work every key again."""

from collections.abc import Mapping
from typing import Any

from app.figures import draw_figure
from app.packs.library import Library
from app.packs.spec import Family, Language
from app.questions.conventions import Conventions
from app.questions.model import Item, Step
from app.questions.wording import Writer, tidy, word_item

PLAIN = (str, int, float)  # most values, told before any that take longer to tell


def present_item(library: Library, item: Item, language: Language) -> dict[str, Any]:
    """Return one drawn item with its key, options, wrong values, working and figure; only for readers, never a page."""
    worded = word_item(library, item, language)
    writer = Writer(library, item, language)
    return {
        "family": item.family,
        "pack": item.pack,
        "version": item.version,
        "seed": item.seed,
        "language": language,
        "parameters": plain(item.parameters),
        "conventions": item.conventions.as_json(),
        "stem": worded.stem,
        "answer": {
            "form": item.form,
            "key": plain(item.key),
            "tolerance": item.tolerance,
            "unit": worded.box.unit,
        },
        "options": [
            {
                "text": shown.text,
                "value": plain(option.value),
                "misconception": list(option.misconceptions),
                "correct": option.correct,
            }
            for shown, option in zip(worded.options, item.options, strict=True)
        ],
        "wrong": [
            {"value": plain(wrong.value), "misconception": name, "remedy": _remedy(writer, name, wrong.more)}
            for name, wrong in item.wrong_values()
        ],
        "working": [_line(writer, step) for step in item.solution.steps],
        "figure": _figure(item, language),
        "sources": list(writer.family.sources),
    }


def present_family(library: Library, family: Family, language: Language) -> dict[str, Any]:
    """Return what a family is: its skill, answer forms, misconceptions, syllabus and sources."""
    return {
        "family": family.id,
        "pack": library.pack_of(family.id).id,
        "version": family.version,
        "title": family.title.of(language),
        "skill": family.skill.of(language),
        "grade": family.grade,
        "asks": {ask.id: list(ask.forms) for ask in family.asks},
        "misconceptions": {each.id: each.name.of(language) for each in family.misconceptions},
        "figures": list(family.figures),
        "syllabus": {tag: list(lines) for tag, lines in family.syllabus.items()},
        "sources": list(family.sources),
    }


def plain(value: Any) -> Any:
    """Return a value as JSON has it: tuples as lists, conventions as a table."""
    if isinstance(value, PLAIN):
        return value
    if isinstance(value, Mapping):
        return {str(k): plain(v) for k, v in value.items()}
    if isinstance(value, tuple | list):
        return [plain(each) for each in value]
    if isinstance(value, Conventions):
        return value.as_json()
    return value


def _figure(item: Item, language: Language) -> dict[str, Any] | None:
    if not item.solution.figures:
        return None
    figure = item.solution.figures[0]
    description = draw_figure(figure, language).description
    return {"name": figure.name, "parameters": plain(figure.parameters), "description": description}


def _line(writer: Writer, step: Step | str) -> str:
    text, arithmetic = writer.working(step)
    colon = " :" if writer.language == "fr" else ":"
    return tidy(f"{text}{colon} {arithmetic}", writer.language) if arithmetic else text


def _remedy(writer: Writer, name: str, more: Mapping[str, Any]) -> str:
    return writer.write(writer.family.misconception(name).remedy, more)
