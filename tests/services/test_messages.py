from string import Formatter

import pytest

from app.services.messages import MESSAGES, say, say_number

PIECE = "-piece-"  # in the code of what stands within another message


def names(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name}


@pytest.mark.parametrize("code", MESSAGES)
def test_both_languages_say_the_same_values(code: str) -> None:
    english, french = MESSAGES[code]
    assert names(english) == names(french)
    assert english != french
    if PIECE not in code:
        assert english.endswith(".")
        assert french.endswith(".")


def test_long_values_are_cut_and_french_keeps_its_spaces() -> None:
    text = say("unknown-rule", "fr", value="x" * 500, accepted="a, b")
    assert "« " + "x" * 40 + "… »" in text.replace("\u00a0", " ")
    assert " :" not in text


def test_numbers_are_written_as_the_language_does() -> None:
    assert (say_number(95.5, "en"), say_number(95.5, "fr"), say_number(95.0, "fr")) == ("95.5", "95,5", "95")
