"""Draws of an own question's numbers in a table: what the formulas make of them, and which of them are not asked."""

from collections.abc import Sequence
from typing import NamedTuple

from app.packs.own import ReckonedBody
from app.packs.own_numbers import FILTERS
from app.packs.spec import Language
from app.questions.numbers import NUMBER_FILTERS
from app.questions.trials import Trial
from app.services.own_checks import refusal_in_words

SHOWN_DRAWS = 20


class PreviewRow(NamedTuple):
    """One draw: its numbers in the question's order, the key, each wrong value, and why it is not asked (empty: it is).

    What has no value is an empty text.
    """

    numbers: tuple[str, ...]
    key: str
    wrong: tuple[str, ...]
    refusal: str


def preview(body: ReckonedBody, trials: Sequence[Trial], language: Language) -> tuple[PreviewRow, ...]:
    """Return the first draws as the question would print them."""
    return tuple(_row(body, trial, language) for trial in trials[:SHOWN_DRAWS])


def _row(body: ReckonedBody, trial: Trial, language: Language) -> PreviewRow:
    write, decimals = NUMBER_FILTERS[body.answer.filter], {each.name: FILTERS[each.shown] for each in body.numbers}
    return PreviewRow(
        tuple(
            NUMBER_FILTERS[decimals[name]](trial.numbers[name], language) if name in trial.numbers else ""
            for name in body.names
        ),
        "" if trial.key is None else write(trial.key, language),
        tuple(write(value, language) for value in trial.wrong.values()) or ("",) * len(body.wrong),
        refusal_in_words(trial, language),
    )
