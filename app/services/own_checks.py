"""Whether an own question can be kept, and what the checks of all questions have against it."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from pydantic import ValidationError

from app.packs.library import Library
from app.packs.own import LEAST_WRONG, MOST_STEPS, MOST_WRONG, OwnBody
from app.packs.spec import Language
from app.questions.checks.run import check_family
from app.services.actor import Actor
from app.services.messages import MESSAGES, say

CHECKED_DRAWS = 80


class Unreadable(Exception):
    """A question that cannot be kept; `problems` maps each field ("en.wrong.0.did") to what is wrong with it."""

    def __init__(self, problems: Mapping[str, str]) -> None:
        super().__init__(", ".join(problems))
        self.problems = problems


class Finding(NamedTuple):
    """What the checks have against a question; one that is `serious` keeps it from being asked."""

    serious: bool
    text: str


def read_body(data: Mapping[str, Any], library: Library, language: Language) -> OwnBody:
    """Return a question as it was written; Unreadable says, field by field, what cannot be kept."""
    try:
        body = OwnBody.model_validate(data)
    except ValidationError as error:
        raise Unreadable(dict(_problem(detail, language) for detail in reversed(error.errors()))) from error
    if body.topic not in library.packs:
        accepted = ", ".join(pack.title.of(language) for pack in library.packs.values())
        raise Unreadable({"topic": say("own-topic", language, value=body.topic, accepted=accepted)})
    return body


def find_problems(tried: Library, actor: Actor, of_family: str, body: OwnBody) -> tuple[Finding, ...]:
    """Return what the checks of all questions have against this one, the serious first."""
    report = check_family(tried, of_family, [actor.conventions], CHECKED_DRAWS)
    said: dict[str, bool] = {}
    for issue in sorted(report.issues, key=lambda issue: issue.severity != "error"):
        if issue.rule == "elision" and "fr" not in body.languages:
            continue
        code = f"own-rule-{issue.rule}"
        text = say(code if code in MESSAGES else "own-rule", actor.language, what=issue.what)
        said.setdefault(text, issue.severity == "error")
    return tuple(Finding(serious, text) for text, serious in said.items())


def _problem(detail: Any, language: Language) -> tuple[str, str]:
    """Return a field and what is wrong with it, in words."""
    field = ".".join(str(each) for each in detail["loc"])
    context, value = detail.get("ctx", {}), detail["input"]
    most = context.get("max_length")
    match detail["type"]:
        case "string_too_long":
            return field, say("own-long", language, value=len(value), most=most)
        case "string_pattern_mismatch":
            return field, say("own-braces", language)
        case "missing" | "string_too_short":
            return field, say("own-empty", language)
        case "too_short" | "too_long":
            code, most_of = ("own-steps", MOST_STEPS) if field.endswith("why") else ("own-wrong", MOST_WRONG)
            return field, say(code, language, value=len(value), least=LEAST_WRONG, most=most_of)
        case "value_error":
            return "en", say(f"own-{context['error']}", language)
        case _:
            return field, say("own-value", language, value=value)
