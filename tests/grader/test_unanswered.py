"""A question nobody answered: what was right and why, and not a word about an answer."""

import pytest

from app.grader.explain import explain_unanswered
from app.questions.draw import draw, offered_forms
from tests.questions.engine import home, library


@pytest.mark.parametrize("family", sorted(library().families))
def test_key_and_working_are_told_in_every_form(family: str) -> None:
    for form in offered_forms(library().families[family]):
        item = draw(library(), family, 3, home(), form)
        told = explain_unanswered(library(), item, "en")
        assert told.key or all(part.key for part in told.parts)
        assert told.working
        assert {told.yours, *(part.yours for part in told.parts)} == {""}
        assert (told.correct, told.your_position, told.findings, told.unmatched, told.missed) == (
            False, None, (), False, (),
        )  # fmt: skip
        assert "Your answer" not in dict(told.rows)
        assert ("No answer" in told.headline) or ("You gave no answer" in told.headline)
