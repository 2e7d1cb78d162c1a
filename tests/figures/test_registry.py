import pytest

from app.figures import check_figure, draw_figure, figure_names, figure_parameters
from app.figures.faces import card_label, label, size_and_letter, three_digits
from app.figures.model import FigureCall, WrongFigure
from app.figures.samples import SAMPLES
from app.figures.strokes import number
from app.figures.words import in_a_row


@pytest.mark.parametrize("sample", SAMPLES)
def test_samples_fit(sample: tuple[str, dict[str, object]]) -> None:
    assert check_figure(FigureCall(*sample)) == []


def test_an_unknown_figure_is_named_with_those_there_are() -> None:
    call = FigureCall("drums")
    assert check_figure(call) == [f"there is no figure 'drums': there are {', '.join(figure_names())}"]
    with pytest.raises(WrongFigure, match="there is no figure 'drums'"):
        draw_figure(call)
    with pytest.raises(WrongFigure, match="there is no figure 'drums'"):
        figure_parameters("drums")


def test_drawing_says_what_checking_says() -> None:
    with pytest.raises(WrongFigure, match=r"^drum: reading_deg is 400: give a whole heading from 1 to 360$"):
        draw_figure(FigureCall("drum", {"reading_deg": 400}))


def test_an_unknown_parameter_is_named_with_those_there_are() -> None:
    problems = check_figure(FigureCall("heading-indicator", {"indicator_deg": 5, "face": "drum"}))
    assert problems == ["face is not a parameter here: give indicator_deg, knob, key_deg, yours_deg"]


def test_none_is_the_same_as_not_given() -> None:
    call = FigureCall("drum", {"reading_deg": 307})
    assert draw_figure(call) == draw_figure(call.with_parameters(yours_deg=None))


def test_parameters_are_listed_in_words() -> None:
    assert figure_parameters("heading-indicator") == {
        "indicator_deg": "a whole heading from 1 to 360",
        "knob": "true or false (may be left out)",
        "key_deg": "a number of degrees (may be left out)",
        "yours_deg": "a number of degrees (may be left out)",
    }


def test_faces_and_words() -> None:
    assert [label(heading, "fr") for heading in (0, 90, 180, 270, 330, 30)] == ["N", "E", "S", "O", "33", "3"]
    assert [card_label(heading, "en") for heading in (360, 30)] == ["N", "030"]
    assert [three_digits(heading) for heading in (0, 7.4, 359.6)] == ["360", "007", "360"]
    assert [size_and_letter(value, "fr") for value in (-2.5, 0, 13)] == ["2,5\u00a0O", "0", "13\u00a0E"]
    assert [in_a_row(texts, "en") for texts in ([], ["a"], ["a", "b", "c"])] == ["", "a", "a, b and c"]
    assert [number(value) for value in (-0.001, 1.50, 3.14159, 20)] == ["0", "1.5", "3.14", "20"]
