"""Rules over one drawn item."""

import json
import re
from collections.abc import Callable, Iterable, Iterator

from app.figures import check_figure
from app.figures.model import WrongFigure
from app.packs.library import Library
from app.packs.spec import LANGUAGES, Ask, Family, Language
from app.packs.templates import read_template
from app.questions.checks.findings import Findings
from app.questions.checks.french import places
from app.questions.model import OPTION_FORMS, Item, Option
from app.questions.numbers import heading
from app.questions.present import present_item
from app.questions.sums import misses_by
from app.questions.values import is_apart, is_numeric, sort_key
from app.questions.vocabulary import is_named
from app.questions.wording import WordedItem, Writer, word_item

UNSHOWN = frozenset({"ask", "at_home", "hemisphere"})
LONGEST_TEXT_RATIO = 1.5
SHORT_TEXT = 24


def check_item(library: Library, item: Item, again: Callable[[], Item], findings: Findings) -> None:
    """Check one item in both languages; `again` draws it anew."""
    family = library.family(item.family)
    ask = family.ask(item.ask)
    _check_values(item, ask, findings)
    _check_tolerance(item, ask, findings)
    _check_given(item, ask, family, findings)
    _check_figures(item, family, findings)
    for language in LANGUAGES:
        try:
            worded = word_item(library, item, language)
            _check_wording(item, worded, findings)
            _check_sums(Writer(library, item, language), findings)
            written = list(_everything(library, item, language))
            if language == "fr":
                _check_french([worded.stem, *(option.text for option in worded.options), *written], findings)
            first = json.dumps(present_item(library, item, language), sort_keys=True)
            if first != json.dumps(present_item(library, again(), language), sort_keys=True):
                findings.error(
                    "not-repeatable", "the same seed gave different bytes", "Draw through the parameters alone."
                )
        except (KeyError, WrongFigure, TypeError) as error:
            what = f"ask {item.ask!r} cannot be written in {language}: {type(error).__name__}: {error}"
            findings.error("cannot-write", what, "Give the text what it names, or name what there is.")


def _check_named_options(options: Iterable[Option], ask: Ask, findings: Findings) -> None:
    for option in options:
        if not option.correct and not option.misconceptions:
            findings.error(
                "option-unnamed", f"ask {ask.id!r}: nothing is behind {option.value!r}", "Give it its misconception."
            )


def _check_tolerance(item: Item, ask: Ask, findings: Findings) -> None:
    if item.solution.tolerance is not None and not ask.rounding:
        what = f"ask {ask.id!r} does not say how near counts"
        findings.error("tolerance-unsaid", what, "Give it a rounding: reckoned from the key, no box may say it.")


def _check_values(item: Item, ask: Ask, findings: Findings) -> None:
    options = item.options if item.form in OPTION_FORMS else ()
    if options and sum(option.correct for option in options) != 1:
        findings.error("one-key", f"ask {ask.id!r} has not exactly one right option")
    _check_named_options(options, ask, findings)
    if options and not 2 <= len(options) <= 5:
        findings.error("option-count", f"ask {ask.id!r} offers {len(options)} options", "Offer three to five.")
    for i, left in enumerate(options):
        for right in options[i + 1 :]:
            if not is_apart(left.value, right.value, ask, item.value):
                findings.error("options-collide", f"ask {ask.id!r}: {left.value!r} and {right.value!r} are too near")
    if options and is_numeric(item.value, item.key) and not ask.ordered:
        order = [sort_key(option.value, item.value) for option in options]
        if order != sorted(order):
            findings.error("option-order", f"ask {ask.id!r}: numbers are not in order")
    for value in [item.key, *(option.value for option in options)]:
        if not _is_legal(value, item.value.kind):
            findings.error(
                "illegal-value", f"ask {ask.id!r}: {value!r} is no {item.value.kind}", "Show 1..360, runway 1..36."
            )


def _is_legal(value: object, kind: str) -> bool:
    if kind == "heading":
        return isinstance(value, int | float) and 0 < value <= 360
    if kind == "runway":
        return isinstance(value, int) and 1 <= value <= 36
    return True


def _check_given(item: Item, ask: Ask, family: Family, findings: Findings) -> None:
    """Check that every number given is shown, under a name of the vocabulary."""
    names = _names_used(item, ask, family)
    for call in item.solution.figures:
        names |= set(call.parameters)
    for name in item.parameters:
        if not is_named(name):
            findings.error("vocabulary", f"given {name!r} is not in the vocabulary", "Use its name there, or add it.")
        if name not in names | UNSHOWN:
            findings.error("given-not-shown", f"ask {ask.id!r} gives {name!r} but neither stem nor figure shows it")
    _check_named(item, family, findings)


def _check_named(item: Item, family: Family, findings: Findings) -> None:
    known = {each.id for each in family.misconceptions}
    for name in {*item.solution.wrong, *item.solution.slips.values()} - known:
        findings.error("unknown-misconception", f"the solver names {name!r}, the family does not", "Write its texts.")
    for name in set(item.solution.features) - set(family.features):
        findings.error("unknown-feature", f"the solver names the feature {name!r}", "List it in features.")


def _names_used(item: Item, ask: Ask, family: Family) -> set[str]:
    texts = [ask.question, family.scenes[item.scene].text, *([ask.rounding] if ask.rounding else [])]
    texts += [family.texts[str(o.value)] for o in item.options if str(o.value) in family.texts]
    return {name for text in texts for name in read_template(text.en)[0]}


def _check_figures(item: Item, family: Family, findings: Findings) -> None:
    for call in (*item.solution.figures, *item.solution.verdict_figures):
        if call.name not in family.figures:
            findings.error("figure-listed", f"the solver draws {call.name!r}", "List it in figures.")
        shown = {k: v for k, v in call.parameters.items() if not (k == "yours_deg" and v is None)}
        for problem in check_figure(type(call)(call.name, shown)):
            findings.error("figure-parameters", f"{call.name}: {problem}")


def _check_wording(item: Item, worded: WordedItem, findings: Findings) -> None:
    stem = worded.stem
    if item.value.kind == "heading" and isinstance(item.key, int | float):
        given = {heading(v) for v in item.parameters.values() if isinstance(v, int | float)}
        if re.search(rf"\b{heading(item.key)}\b", stem) and heading(item.key) not in given:
            findings.error("key-in-stem", f"the stem tells the key {heading(item.key)}: {stem[:80]}")
        if item.form != "choice" and any(heading(item.key) in figure.description for figure in worded.figures):
            findings.error("key-in-description", f"the figure's text alternative tells the key {heading(item.key)}")
    if "  " in stem or re.search(r"[{}]", stem):
        findings.error("ragged-stem", f"the stem has a gap or a brace: {stem[:80]}")
    texts = [option.text for option in worded.options]
    if len(set(texts)) != len(texts):
        findings.error("options-collide", f"two options read alike: {texts}")
    if item.form == "choice" and item.value.kind == "code":
        _check_lengths(item, texts, findings)


def _check_lengths(item: Item, texts: list[str], findings: Findings) -> None:
    key = next(text for text, option in zip(texts, item.options, strict=True) if option.correct)
    others = [len(text) for text in texts if text != key]
    average = sum(others) / len(others)
    if max(len(key), average) > SHORT_TEXT and not 1 / LONGEST_TEXT_RATIO <= len(key) / average <= LONGEST_TEXT_RATIO:
        findings.warn(
            "option-length", f"the key has {len(key)} letters, the others {average:.0f}: {key[:50]}", "Even them out."
        )


def _check_sums(writer: Writer, findings: Findings) -> None:
    for step in writer.item.solution.steps:
        _, arithmetic = writer.working(step)
        if misses_by(arithmetic):
            findings.error("sum-off", f"does not add up as written: {arithmetic}", "Show the numbers that were used.")


def _check_french(texts: Iterable[str], findings: Findings) -> None:
    for found, text in places(texts):
        findings.error(
            "elision", f"{found!r} in: {text[:60]}", "Write d', l', qu', du or au; where a field decides, reword."
        )


def _everything(library: Library, item: Item, language: Language) -> Iterator[str]:
    """Write every text a verdict may need, so that a missing name shows here and not to a student."""
    writer = Writer(library, item, language)
    for name, wrong in item.wrong_values():
        spec = writer.family.misconception(name)
        shown = {} if isinstance(wrong.value, dict) else {"value": writer.value(wrong.value)}
        yield from (writer.write(text, {**wrong.more, **shown}) for text in (spec.name, spec.did, spec.remedy))
    for name in set(item.solution.slips.values()):
        spec = writer.family.misconception(name)
        yield from (writer.write(text) for text in (spec.name, spec.did, spec.remedy))
    for step in item.solution.steps:
        yield from writer.working(step)
    for note in item.solution.model_notes:
        yield writer.write(writer.family.model[note])
