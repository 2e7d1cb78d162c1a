"""The correction card: a table one can read by row and column, and a placard with the same numbers."""

from typing import Any

import pytest
from lxml import etree, html

from app.figures import check_figure, draw_figure
from app.figures.model import Drawing, FigureCall, Language, Medium
from app.figures.samples import CARD, EIGHT, TWO_ROWS
from tests.figures.drawings import LANGUAGES, root_of, texts

CARDINALS = {"N": 360, "E": 90, "S": 180, "W": 270, "O": 270}
Rows = list[dict[str, int]]


def draw(card: Rows, language: Language = "en", medium: Medium = "page") -> Drawing:
    return draw_figure(FigureCall("correction-card", {"card": card}), language, medium)


def read_table(markup: str) -> dict[int, list[int]]:
    """Return the STEER numbers under each FOR heading, by the headers a screen reader goes by."""
    table = html.fragment_fromstring(markup).find("table")
    found: dict[int, list[int]] = {}
    for body in table.findall("tbody"):
        head, *rows = body.findall("tr")
        for column, cell in enumerate(head.xpath("th[@scope='col']")):
            wanted = CARDINALS.get(cell.text) or int(cell.text)
            found[wanted] = [int(row.findall("td")[column].text) for row in rows]
    return found


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("card", [CARD, TWO_ROWS, EIGHT], ids=["one-row", "two-rows", "eight"])
def test_table_holds_every_entry_under_its_heading(card: Rows, language: Language) -> None:
    expected = {e["for_deg"]: [e[k] for k in ("steer_deg", "steer_off_deg") if k in e] for e in card}
    assert read_table(draw(card, language).markup) == expected


def test_north_comes_first() -> None:
    assert list(read_table(draw(CARD).markup)) == [360, *range(30, 331, 30)]


def test_table_has_a_caption_row_heads_and_a_warning() -> None:
    table = html.fragment_fromstring(draw(TWO_ROWS).markup)
    heads = [" ".join(head.itertext()) for head in table.xpath(".//tbody[1]//th[@scope='row']")]
    assert table.findtext(".//caption") == "Correction card, magnetic to compass"
    assert [" ".join(head.split()) for head in heads] == ["FOR", "STEER radios on", "STEER radios off"]
    assert table.findtext("p") == "Sample card: not your aircraft."


def test_french_table_uses_the_trade_s_words() -> None:
    table = html.fragment_fromstring(draw(CARD, "fr").markup)
    assert table.xpath(".//tbody[2]//th/text()") == ["POUR", "S", "210", "240", "O", "300", "330", "SUIVRE"]


@pytest.mark.parametrize("card", [CARD, TWO_ROWS, EIGHT], ids=["one-row", "two-rows", "eight"])
def test_placard_sets_each_number_under_its_heading(card: Rows) -> None:
    """Columns line up: each FOR has its STEER straight below it, in the order of the rows."""
    root = etree.fromstring(draw(card, "en", "paper").markup)
    spots = [(float(t.get("x")), float(t.get("y")), t.text) for t in root.iter("{*}text") if t.get("font-size") != "14"]
    names = {**{str(v): k for k, v in CARDINALS.items() if k != "O"}}
    for entry in card:
        name = names.get(str(entry["for_deg"]), f"{entry['for_deg']:03d}")
        at = next((x, y) for x, y, text in spots if text == name and is_head(root, name))
        below = [text for x, y, text in sorted(spots, key=lambda s: s[1]) if x == at[0] and y > at[1]]
        assert below[0] == f"{entry['steer_deg']:03d}"
        assert "steer_off_deg" not in entry or below[1] == f"{entry['steer_off_deg']:03d}"


def is_head(root: etree._Element, name: str) -> bool:
    return any(text.text == name and text.get("font-weight") == "700" for text in root.iter("{*}text"))


def test_placard_warns_that_it_is_a_sample() -> None:
    assert "Sample card: not your aircraft." in texts(root_of("correction-card", {"card": CARD}, "en", "paper"))


def test_words_on_paper_hold_every_number_those_on_a_page_point_to_the_table() -> None:
    paper, page = draw(CARD, "en", "paper").description, draw(CARD).description
    assert all(f"{entry['steer_deg']:03d}" in paper for entry in CARD)
    assert not any(letter.isdigit() for letter in page)


def changed(**entry: Any) -> Rows:
    return [{**CARD[0], **entry}, *CARD[1:]]


@pytest.mark.parametrize(
    ("card", "word"),
    [
        (None, "card is missing"),
        ("N 359", "a list of 4 to 36 entries"),
        (CARD[:3], "a list of 4 to 36 entries"),
        ([*CARD[:3], 5], "a list of 4 to 36 entries"),
        (changed(steer_deg=28.5), "whole headings"),
        (changed(note=3), "whole headings"),
        (changed(for_deg=60), "two entries for one heading"),
        (changed(steer_off_deg=30), "in all or in none"),
        (changed(steer_deg=80), "steer_deg is 80 for 30"),
    ],
)
def test_wrong_cards_are_named(card: object, word: str) -> None:
    assert any(word in problem for problem in check_figure(FigureCall("correction-card", {"card": card})))


@pytest.mark.parametrize(
    ("swing", "word"),
    [
        ([{"magnetic_deg": 90, "compass_deg": 92}], "a list of 4 to 36 entries"),
        ([{"magnetic_deg": 90, "compass_deg": at} for at in (90, 91, 92, 93)], "two readings for one heading"),
        ([{"for_deg": at, "steer_deg": at} for at in (90, 180, 270, 360)], "magnetic_deg and compass_deg"),
    ],
)
def test_wrong_swings_are_named(swing: object, word: str) -> None:
    assert any(word in problem for problem in check_figure(FigureCall("swing-table", {"swing": swing})))


def test_swing_table_holds_each_reading_under_its_heading() -> None:
    swing = [{"magnetic_deg": at, "compass_deg": at - 2} for at in (90, 180, 270, 360)]
    expected = {at: [at - 2] for at in (360, 90, 180, 270)}
    assert read_table(draw_figure(FigureCall("swing-table", {"swing": swing})).markup) == expected
