"""Whether an own question can be kept, and what the checks of all questions have against it."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from pydantic import ValidationError

from app.packs import own_reckoned, own_worded
from app.packs.formulas import FUNCTIONS, LONGEST
from app.packs.issues import Issue
from app.packs.library import Library
from app.packs.own import OwnBody, ReckonedBody, own_body
from app.packs.own_body import MOST_STEPS
from app.packs.own_reckoned import KEY, MOST_NUMBERS
from app.packs.spec import Language
from app.questions.checks.run import FamilyReport, check_family
from app.questions.sums import misses_by
from app.questions.trials import Trial, alike
from app.services.actor import Actor
from app.services.messages import MESSAGES, say
from app.services.own_example import Example

CHECKED_DRAWS = 80
MOST_AT_ONE_PLACE = 2 / 3  # of the draws: a few mistakes seldom let the key stand everywhere, as those of packs do
MOST_LOST = 0.5
TOLD_LOST = 0.03  # of the draws: what is lost less often is no matter
CODES = {
    "string_too_long": "own-long",
    "string_pattern_mismatch": "own-braces",
    "missing": "own-empty",
    "string_too_short": "own-empty",
    "float_parsing": "own-size",
    "float_type": "own-size",
    "finite_number": "own-size",
    "greater_than_equal": "own-size",
    "less_than_equal": "own-size",
}


class Unreadable(Exception):
    """A question that cannot be kept; `problems` maps each field ("en.wrong.0.did") to what is wrong with it."""

    def __init__(self, problems: Mapping[str, str]) -> None:
        super().__init__(", ".join(problems))
        self.problems = problems


class Finding(NamedTuple):
    """What the checks have against a question; one that is `serious` keeps it from being asked."""

    serious: bool
    text: str


class Drawn(NamedTuple):
    """Draws of a question: an example (None where none is fair), and what was tried of its numbers."""

    example: Example | None
    trials: Sequence[Trial]


def read_body(data: Mapping[str, Any], library: Library, language: Language) -> OwnBody:
    """Return a question as it was written; Unreadable says, field by field, what cannot be kept."""
    try:
        body = own_body(data)
    except ValidationError as error:
        raise Unreadable(dict(_problem(each, language, data) for each in reversed(_deepest(error)))) from error
    problems = {each.field: say(each.code, language, **each.named) for each in reversed([*body.faults()])}
    if body.topic not in library.packs:
        accepted = ", ".join(pack.title.of(language) for pack in library.packs.values())
        problems["topic"] = say("own-topic", language, value=body.topic, accepted=accepted)
    if isinstance(body, ReckonedBody) and body.answer.unit and f"unit-{body.answer.unit}" not in library.shared.words:
        problems["answer.unit"] = say("own-value", language, value=body.answer.unit)
    if problems:
        raise Unreadable(problems)
    return body


def find_problems(tried: Library, actor: Actor, body: OwnBody, family_id: str, drawn: Drawn) -> tuple[Finding, ...]:
    """Return what the checks of all questions have against this one, the serious first."""
    report = check_family(tried, family_id, [actor.conventions], CHECKED_DRAWS)
    said: dict[str, bool] = {}
    for issue in report.issues:
        if issue.rule == "elision" and "fr" not in body.languages:
            continue
        code, values = _told(issue, report, isinstance(body, ReckonedBody))
        said.setdefault(say(code, actor.language, **values), _is_serious(issue, report, body))
    for serious, each in body.doubts():
        said.setdefault(say(each.code, actor.language, **each.named), serious)
    for finding in (*_of_trials(drawn.trials, actor.language), *_of_working(drawn.example, actor.language)):
        said.setdefault(finding.text, finding.serious)
    return tuple(sorted((Finding(serious, text) for text, serious in said.items()), key=lambda each: not each.serious))


def where_in_words(where: str, language: Language) -> str:
    """Return what a refusal names: the right answer, a wrong one by its number, or a number by its name."""
    if where == KEY:
        return say("own-piece-key", language)
    _, dash, number = where.partition("-")
    return say("own-piece-wrong", language, number=number) if dash else where


def refusal_in_words(trial: Trial, language: Language) -> str:
    """Return why a draw is not asked, in a few words; empty for one that is."""
    if trial.refusal is None:
        return ""
    return _refusal(trial.refusal.code, trial.refusal.where, language)


def _refusal(code: str, where: Sequence[str], language: Language) -> str:
    words = [where_in_words(each, language) for each in where]
    return say(f"own-piece-{code}", language, first=words[0], second=words[-1])


def _of_trials(trials: Sequence[Trial], language: Language) -> Iterator[Finding]:
    """Yield which draws are never asked, and wrong answers that are always alike."""
    lost = Counter((each.refusal.code, each.refusal.where) for each in trials if each.refusal is not None)
    if lost.total() > MOST_LOST * len(trials):
        share = round(100 * lost.total() / len(trials))
        yield Finding(serious=True, text=say("own-lost-most", language, share=share))
    for (code, where), times in lost.most_common():
        if times >= TOLD_LOST * len(trials):
            why = _refusal(code, where, language)
            text = say("own-lost", language, share=round(100 * times / len(trials)), why=why)
            yield Finding(serious=False, text=text)
    for first, second in alike(trials):
        words = {"first": where_in_words(first, language), "second": where_in_words(second, language)}
        yield Finding(serious=True, text=say("own-alike", language, **words))


def _of_working(example: Example | None, language: Language) -> Iterator[Finding]:
    """Yield the sums of an example's working that do not add up."""
    for step in example.keyed.working if example else ():
        written = step.text.rpartition(": ")[2].removesuffix(".")
        if misses_by(written):
            yield Finding(serious=False, text=say("own-sum-off", language, what=written))


def _told(issue: Issue, report: FamilyReport, reckoned: bool) -> tuple[str, dict[str, object]]:  # noqa: FBT001 - one truth
    """Return the code that says a finding, and what its words name."""
    figures = report.figures
    values: dict[str, object] = {"what": issue.what}
    if figures:
        values |= {"places": " · ".join(map(str, figures.key_places)), "share": round(100 * figures.distinct_share)}
    of_numbers, of_all = f"own-number-rule-{issue.rule}", f"own-rule-{issue.rule}"
    if reckoned and of_numbers in MESSAGES:
        return of_numbers, values
    return (of_all if of_all in MESSAGES else "own-rule"), values


def _is_serious(issue: Issue, report: FamilyReport, body: OwnBody) -> bool:
    if issue.rule in {"key-place", "test-wise"} and isinstance(body, ReckonedBody) and report.figures:
        places = report.figures.key_places
        return max(places) > MOST_AT_ONE_PLACE * sum(places)
    return issue.severity == "error"


def _deepest(error: ValidationError) -> list[Any]:
    """Return what was found, without the length of a list where something in the list is wrong."""
    found = error.errors()
    places = [each["loc"] for each in found]
    return [
        each
        for each in found
        if not any(len(place) > len(each["loc"]) and place[: len(each["loc"])] == each["loc"] for place in places)
    ]


def _problem(detail: Any, language: Language, data: Mapping[str, Any]) -> tuple[str, str]:
    """Return a field and what is wrong with it, in words."""
    field = ".".join(str(each) for each in detail["loc"])
    context, value = detail.get("ctx", {}), detail["input"]
    code, named = CODES.get(detail["type"], "own-value"), {"value": value}
    match detail["type"]:
        case "string_too_long":
            named = {"value": len(value), "most": context["max_length"]}
        case "too_short" | "too_long":
            code, named = _counted(field, len(value), data)
        case "value_error":
            field, code = "en", f"own-{context['error']}"
        case custom if custom in MESSAGES:
            named = {"value": context.get("at", value), "most": LONGEST, "functions": ", ".join(FUNCTIONS)}
            code = custom
    return field, say(code, language, **named)


def _counted(field: str, count: int, data: Mapping[str, Any]) -> tuple[str, dict[str, Any]]:
    """Return the code that says of a list how many stand in it, and what its words name."""
    if field.endswith("why"):
        return "own-steps", {"value": count, "most": MOST_STEPS}
    if field == "numbers":
        return "own-numbers", {"value": count, "most": MOST_NUMBERS}
    kind = own_reckoned if "answer" in data else own_worded
    return "own-wrong", {"value": count, "least": kind.LEAST_WRONG, "most": kind.MOST_WRONG}
