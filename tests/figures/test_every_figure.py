"""What holds for every figure: it stays inside its box, prints in black, recolours by class and can be read aloud."""

import re
from pathlib import Path

import pytest
from lxml import etree

from app.figures import draw_figure, figure_names
from app.figures.model import FigureCall, Language
from app.figures.samples import SAMPLES, Sample
from app.figures.strokes import INKS
from tests.figures.drawings import (
    LANGUAGES,
    SVG,
    Point,
    drawn,
    place_of,
    points_of,
    root_of,
    sample_id,
)

STYLES = (Path(__file__).parents[2] / "static" / "css" / "figures.css").read_text("utf-8")
MEAN_LETTER = 0.53  # em; the embedded face's mean
EITHER = pytest.mark.parametrize("language", LANGUAGES)
EVERY = pytest.mark.parametrize("sample", SAMPLES, ids=sample_id)


def paper(sample: Sample, language: Language = "en") -> etree._Element:
    return root_of(*sample, language, "paper")


def test_every_figure_has_a_sample() -> None:
    assert {name for name, _ in SAMPLES} == set(figure_names())


@EITHER
@EVERY
def test_nothing_leaves_the_box(sample: Sample, language: Language) -> None:
    root = paper(sample, language)
    width, height = (float(each) for each in root.get("viewBox").split()[2:])
    for element in drawn(root):
        for x, y in bounds(element):
            assert -0.5 <= x <= width + 0.5, etree.tostring(element)
            assert -0.5 <= y <= height + 0.5, etree.tostring(element)


def bounds(element: etree._Element) -> list[Point]:
    if element.tag == f"{SVG}path":
        return points_of(element.get("d"))
    if element.tag == f"{SVG}circle":
        x, y, r = (float(element.get(name)) for name in ("cx", "cy", "r"))
        return [(x - r, y - r), (x + r, y + r)]
    return [place_of(element)] if "rotate" in element.get("transform", "") else text_bounds(element)


def text_bounds(element: etree._Element) -> list[Point]:
    (x, y), size = place_of(element), float(element.get("font-size"))
    width = MEAN_LETTER * size * len(element.text)
    narrow = re.search(r"scale\((\S+) ", element.get("transform", ""))
    width *= float(narrow[1]) if narrow else 1
    left = x - {"start": 0, "middle": width / 2, "end": width}[element.get("text-anchor")]
    return [(left, y - 0.7 * size), (left + width, y)]


@EVERY
def test_every_stroke_and_fill_prints_and_recolours(sample: Sample) -> None:
    """A class without its attribute prints as a black block, an attribute without its class stays black by night."""
    for element in drawn(paper(sample)):
        classes = set(element.get("class").split())
        for attribute, suffix in (("stroke", ""), ("fill", "-fill")):
            ink = element.get(attribute, "none")
            named = [each for each in classes if each.endswith("-fill") == bool(suffix)]
            assert len(named) == (ink != "none"), etree.tostring(element)
            assert all(INKS[each.removeprefix("fig-").removesuffix("-fill")] == ink for each in named)
        assert element.get("stroke", "none") == "none" or element.get("vector-effect") == "non-scaling-stroke"


def test_the_page_recolours_every_class_and_no_other() -> None:
    used = {each for sample in SAMPLES for element in drawn(paper(sample)) for each in element.get("class").split()}
    styled = set(re.findall(r"\.(fig-[a-z]+(?:-fill)?) \{ (?:stroke|fill): var\(--[a-z]+\); \}", STYLES))
    assert used <= styled
    assert styled == {f"fig-{ink}{suffix}" for ink in INKS for suffix in ("", "-fill")}


@EVERY
def test_words_are_large_enough(sample: Sample) -> None:
    """14 units on a drawing 320 wide; the placard for two states is wider, and so prints a little smaller."""
    for element in drawn(paper(sample)):
        assert element.tag != f"{SVG}text" or float(element.get("font-size")) >= 14


@EVERY
def test_is_an_image_with_title_and_description_and_no_style(sample: Sample) -> None:
    root = paper(sample)
    assert root.get("role") == "img"
    assert [child.tag for child in root[:2]] == [f"{SVG}title", f"{SVG}desc"]
    assert all(child.text for child in root[:2])
    assert not root.xpath("//*[@style or @id]")
    assert not list(root.iter(f"{SVG}style"))


@EITHER
@EVERY
def test_same_call_gives_the_same_drawing(sample: Sample, language: Language) -> None:
    call = FigureCall(*sample)
    assert draw_figure(call, language) == draw_figure(call, language)


@EVERY
def test_french_says_it_in_french(sample: Sample) -> None:
    english, french = (draw_figure(FigureCall(*sample), language) for language in LANGUAGES)
    assert english.description != french.description
    assert not re.search(r"\b(the|and|of|reads|heading)\b", f"{french.title} {french.description} {french.caption}")
    assert not re.search(r"\b(le|la|les|et|une?)\b", f"{english.title} {english.description} {english.caption}")


@EVERY
def test_french_letters_and_spaces(sample: Sample) -> None:
    """West is O; a colon has a no-break space before it, a semicolon none (Canadian usage)."""
    drawing = draw_figure(FigureCall(*sample), "fr", "paper")
    said = f"{drawing.title} {drawing.description} {drawing.caption} {' '.join(paper(sample, 'fr').itertext())}"
    assert not re.search(r"\bW\b", said)
    assert not re.search(r"[^\u00a0]:| ;|\u00a0;", said)


@EVERY
def test_numbers_are_finite_and_short(sample: Sample) -> None:
    markup = draw_figure(FigureCall(*sample), "en", "paper").markup
    assert not re.search(r"nan|inf\b|e-\d|\d\.\d{4}|-0[ \"]", markup)
