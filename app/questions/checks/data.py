"""Rules over a family's data alone, before anything is drawn."""

import re
from collections import Counter
from collections.abc import Collection, Iterable

from app.figures import figure_names
from app.packs.fixed import SOLVER as FIXED
from app.packs.own_reckoned import SOLVER as RECKONED
from app.packs.spec import Family, Text
from app.packs.syllabus import Syllabuses
from app.questions.checks.findings import Findings
from app.questions.solvers import solver_names
from app.questions.vocabulary import VOCABULARY, is_named

LEAST_SCENES = 3
ONE_SCENE = frozenset({FIXED, RECKONED})  # what one person writes tells one story
LONGEST_SENTENCE_WORDS = 40
PLACEHOLDER = re.compile(r"\{\{.*?\}\}")
CATCH_ALL = re.compile(
    r"\b(all|none|both|neither) of (the )?(above|these)\b|\btoutes ces réponses\b|\baucune de ces\b", re.IGNORECASE
)
NEGATIVE = re.compile(r"\b(not|except|never|sauf)\b|\bn[e'] \w+ pas\b")


def check_data(family: Family, syllabuses: Syllabuses, findings: Findings) -> None:
    """Check names, listings, syllabus lines and texts."""
    for what, name, known in _names(family):
        if name not in known:
            findings.error(
                f"unknown-{what}", f"{what} {name!r} does not exist", f"There are {', '.join(sorted(known))}."
            )
    for what, ids in _listings(family):
        for each, times in Counter(ids).items():
            if times > 1:
                findings.error("duplicate-id", f"{what} {each!r} stands {times} times", "Give each its own id.")
    for rule, what in syllabuses.problems(family.syllabus):
        findings.error(rule, what, "Use the words of syllabus.toml, or add the line there.")
    _check_scenes(family, findings)
    _check_texts(family, findings)


def _names(family: Family) -> Iterable[tuple[str, str, Collection[str]]]:
    """Return everything the family names: what it is, the name, and what there is."""
    yield "solver", family.solver, solver_names()
    yield from (("parameter", name, VOCABULARY) for name in family.parameters if not is_named(name))
    yield from (("figure", name, figure_names()) for name in family.figures)


def _listings(family: Family) -> Iterable[tuple[str, list[str]]]:
    yield "ask", [ask.id for ask in family.asks]
    yield "misconception", [each.id for each in family.misconceptions]


def _check_scenes(family: Family, findings: Findings) -> None:
    asked = {ask.id for ask in family.asks}
    for scene in family.scenes:
        for missing in set(scene.asks) - asked:
            findings.error(
                "scene-ask", f"a scene names the ask {missing!r}, which does not exist", f"There are {sorted(asked)}."
            )
    for ask in family.asks:
        count = sum(1 for scene in family.scenes if not scene.tag and (not scene.asks or ask.id in scene.asks))
        tagged = Counter(scene.tag for scene in family.scenes if scene.tag and (not scene.asks or ask.id in scene.asks))
        if family.solver not in ONE_SCENE and count + sum(tagged.values()) < LEAST_SCENES:
            findings.error(
                "few-scenes", f"ask {ask.id!r} has {count + sum(tagged.values())} scenes", "Write at least three."
            )


def _check_texts(family: Family, findings: Findings) -> None:
    for ask in family.asks:
        for question in (ask.question.en, ask.question.fr):
            if NEGATIVE.search(question):
                findings.error(
                    "negative-stem", f"ask {ask.id!r} asks in the negative: {question!r}", "Ask what is, or write NOT."
                )
    for code, text in family.texts.items():
        for each in (text.en, text.fr):
            if CATCH_ALL.search(each):
                findings.error("catch-all-option", f"text {code!r} is a catch-all: {each!r}", "Offer a real answer.")
    for written in _all_texts(family):
        for each in (written.en, written.fr):
            plain = PLACEHOLDER.sub("x", each)
            if any(len(sentence.split()) > LONGEST_SENTENCE_WORDS for sentence in re.split(r"[.?!:;]\s", plain)):
                findings.warn("long-sentence", f"over {LONGEST_SENTENCE_WORDS} words: {each[:60]}…", "Split it.")


def _all_texts(family: Family) -> Iterable[Text]:
    yield from (ask.question for ask in family.asks)
    yield from (scene.text for scene in family.scenes)
    for each in family.misconceptions:
        yield from (each.name, each.did, each.remedy)
    yield from family.model.values()
