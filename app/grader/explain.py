"""Explains a graded reply with the item's own numbers: what it did, the working, the remedy, the model's view."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from app.figures import draw_figure, figure_parameters
from app.figures.model import Drawing, FigureCall
from app.grader.grade import Grade
from app.grader.grade import grade as grade_reply
from app.grader.phrases import phrase
from app.grader.reply import Reply
from app.packs.library import Library
from app.packs.spec import Language, typeset
from app.questions.model import OPTION_FORMS, Item
from app.questions.numbers import NBSP
from app.questions.values import distance, show_value
from app.questions.wording import Writer

LONG_TEXT = 28


@dataclass(frozen=True, slots=True)
class WorkingStep:
    """One numbered line of the working; `sum` is its arithmetic, its result last, after an equals sign."""

    text: str
    sum: str


@dataclass(frozen=True, slots=True)
class Finding:
    """A misconception behind the answer: its id and name, what it did here, and the one line to remember."""

    id: str
    name: str
    did: str
    remedy: str


@dataclass(frozen=True, slots=True)
class PartResult:
    """One box, tick or place: its label, what was given, what is right."""

    id: str
    label: str
    yours: str
    key: str
    correct: bool
    followed: bool


@dataclass(frozen=True, slots=True)
class Explanation:
    """A verdict in words. `unmatched`: the answer is wrong and matches no known misconception.

    `missed`: what is true and was left unticked, where no misconception stands behind it.
    """

    correct: bool
    headline: str
    key: str
    yours: str
    findings: tuple[Finding, ...]
    unmatched: bool
    working: tuple[WorkingStep, ...]
    model_notes: tuple[str, ...]
    rows: tuple[tuple[str, str], ...]
    parts: tuple[PartResult, ...]
    figures: tuple[Drawing, ...]
    sources: tuple[str, ...]
    key_position: int | None = None
    your_position: int | None = None
    missed: tuple[str, ...] = ()

    @property
    def remedies(self) -> tuple[str, ...]:
        """What to remember, each line once."""
        return tuple(dict.fromkeys(finding.remedy for finding in self.findings))


def explain(library: Library, item: Item, reply: Reply, grade: Grade, language: Language) -> Explanation:
    """Return the verdict in one language."""
    writer = Writer(library, item, language)
    parts = _parts(writer, reply, grade)
    key = _shown(writer, item.key) if not parts else ""
    yours = _shown(writer, reply.value) if not parts else ""
    findings = tuple(_finding(writer, name, reply) for name in grade.misconceptions)
    missed = _missed(writer, reply)
    positions = {option.value: i for i, option in enumerate(item.options)} if item.form in OPTION_FORMS else {}
    return Explanation(
        correct=grade.correct,
        headline=_headline(item, grade, key, yours, language),
        key=key,
        yours=yours,
        findings=findings,
        unmatched=not grade.correct and not findings and not missed,
        working=working(writer),
        model_notes=_model_notes(writer, reply),
        rows=_rows(writer, reply),
        parts=parts,
        figures=tuple(draw_figure(call, language) for call in _verdict_calls(item, reply, grade)),
        sources=tuple(typeset(each) for each in writer.family.sources),
        key_position=positions.get(item.key) if positions else None,  # the key of a sort cannot be looked up
        your_position=positions.get(reply.value) if positions else None,
        missed=missed,
    )


def explain_unanswered(library: Library, item: Item, language: Language) -> Explanation:
    """Return what was right, and its working, of an item that nobody answered."""
    right = Reply(item.key)
    told = explain(library, item, right, grade_reply(library, item, right), language)
    return replace(
        told,
        correct=False,
        headline=_headline_unanswered(item, told.key, language),
        yours="",
        your_position=None,
        parts=tuple(replace(part, yours="", correct=False) for part in told.parts),
        rows=tuple(row for row in told.rows if row[0] != phrase("row-yours", language)),
    )


def reply_in_words(library: Library, item: Item, reply: Reply, language: Language) -> str:
    """Return a reply as the verdict shows it; one of several parts is a list of them."""
    writer = Writer(library, item, language)
    parts = _parts(writer, reply, grade_reply(library, item, reply))
    return _listed([(part.label, part.yours or "–") for part in parts], language) or _shown(writer, reply.value)


def key_in_words(library: Library, item: Item, reply: Reply, language: Language) -> str:
    """Return what was right as the verdict shows it; of several parts, of those that the reply missed."""
    writer = Writer(library, item, language)
    parts = _parts(writer, reply, grade_reply(library, item, reply))
    missed = [(part.label, part.key) for part in parts if not part.correct]
    return _listed(missed, language) or _shown(writer, item.key)


def _listed(parts: Sequence[tuple[str, str]], language: Language) -> str:
    colon = f"{NBSP}:" if language == "fr" else ":"
    return "; ".join(f"{label}{colon} {text}" for label, text in parts)


def working(writer: Writer) -> tuple[WorkingStep, ...]:
    """Return the numbered lines of the working with the item's numbers."""
    return tuple(WorkingStep(*writer.working(step)) for step in writer.item.solution.steps)


def _shown(writer: Writer, value: Any) -> str:
    return writer.value(value)


def _headline(item: Item, grade: Grade, key: str, yours: str, language: Language) -> str:
    if grade.parts and not grade.correct:
        right = sum(part.correct for part in grade.parts)
        return phrase("partly", language, right=right, count=len(grade.parts))
    if item.solution.by_rule and key:
        return phrase("rule-right" if grade.correct else "rule", language, key=key, yours=yours)
    code = "right" if grade.correct else "wrong"
    if not key or _is_long(item, key, yours):
        code += "-long"
    return phrase(code, language, key=key.removesuffix("."), yours=yours)


def _headline_unanswered(item: Item, key: str, language: Language) -> str:
    if not key:
        return phrase("open-parts", language)
    if item.solution.by_rule:
        return phrase("open-rule", language, key=key)
    return phrase("open-long" if _is_long(item, key) else "open", language, key=key.removesuffix("."))


def _is_long(item: Item, *texts: str) -> bool:
    return item.value.kind == "code" or max(map(len, texts)) > LONG_TEXT


def _finding(writer: Writer, name: str, reply: Reply) -> Finding:
    spec = writer.family.misconception(name)
    wrong = dict(writer.item.wrong_values()).get(name)
    more: dict[str, Any] = dict(wrong.more) if wrong else {}
    if wrong and not isinstance(wrong.value, dict):
        more["value"] = _shown(writer, reply.value)
    return Finding(name, writer.write(spec.name, more), writer.write(spec.did, more), writer.write(spec.remedy, more))


def _missed(writer: Writer, reply: Reply) -> tuple[str, ...]:
    item = writer.item
    if item.form != "several":
        return ()
    left_out = [code for code in item.key if code not in reply.value]
    return tuple(writer.word(code) for code in left_out if (str(code), "left-out") not in item.solution.slips)


def _model_notes(writer: Writer, reply: Reply) -> tuple[str, ...]:
    item = writer.item
    notes = [writer.write(writer.family.model[note]) for note in item.solution.model_notes]
    model = item.solution.model_value
    if model is not None:
        if distance(model, reply.value, item.value) < distance(model, item.key, item.value):
            notes.append(phrase("model-nearer", writer.language))
        notes.append(phrase("model-caution", writer.language))
    return tuple(notes)


def _rows(writer: Writer, reply: Reply) -> tuple[tuple[str, str], ...]:
    item, language = writer.item, writer.language
    if not item.solution.by_rule or item.solution.model_value is None:
        return ()
    return (
        (phrase("row-rule", language), _shown(writer, item.key)),
        (phrase("row-yours", language), _shown(writer, reply.value)),
        (phrase("row-model", language, place=_set_at(item)), _shown(writer, item.solution.model_value)),
    )


def _set_at(item: Item) -> str:
    """Return where the question is set: at home, unless the solver says that it is at an invented field."""
    return item.scenery["field"] if item.parameters.get("at_home") is False else item.conventions.place


def _parts(writer: Writer, reply: Reply, grade: Grade) -> tuple[PartResult, ...]:
    item, language = writer.item, writer.language
    results = []
    for part in grade.parts:
        if item.form == "boxes":
            spec = next(each for each in writer.ask.parts if each.id == part.id)
            label = writer.write(spec.label)
            yours, key = (
                show_value(values[part.id], spec, writer.ask, writer.family, writer.library, language)
                for values in (reply.value, item.key)
            )
        elif item.form == "several":
            label, yours, key = writer.word(part.id), _tick(part.id in reply.value), _tick(part.id in item.key)
        else:
            label, yours, key = writer.word(part.id), writer.word(reply.value[part.id]), writer.word(item.key[part.id])
        results.append(PartResult(part.id, label, yours, key, part.correct, part.followed))
    return tuple(results)


def _tick(chosen: bool) -> str:  # noqa: FBT001 - one truth in, one mark out
    return "×" if chosen else "–"


def _verdict_calls(item: Item, reply: Reply, grade: Grade) -> tuple[FigureCall, ...]:
    """Return the verdict's figures: with the path of the misconception, or the student's value where one is wanted."""
    found = [wrong for name, wrong in item.wrong_values() if name in grade.misconceptions]
    calls = []
    for call in item.solution.verdict_figures:
        wanted = {k: v for k, v in call.parameters.items() if k != "yours_deg" or v is not None}
        if "yours_deg" in call.parameters and not grade.correct and isinstance(reply.value, int | float):
            wanted["yours_deg"] = reply.value
        path = found[0].figure if found else {}
        calls.append(
            FigureCall(call.name, wanted | {k: v for k, v in path.items() if k in figure_parameters(call.name)})
        )
    return tuple(calls)
