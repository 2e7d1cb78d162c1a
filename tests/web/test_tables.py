"""Rows as blocks: what each cell is of, and the roles that a layout of blocks would take away."""

from html5lib import parseFragment
from lxml import etree

from app.web.tables import in_blocks

HEAD = (
    '<thead><tr><td></td><th scope="col">Right, <b>likely</b></th><th scope="col">“Few” "marks" &amp; <i>more</i></th>'
    '<th scope="col" class="no-print"><span class="hidden-words">Change</span></th></tr></thead>'
)


def body(*cells: str) -> etree._Element:
    row = '<tr><th scope="row">Alice</th>' + "".join(cells) + "</tr>"
    found = parseFragment(in_blocks(HEAD + f"<tbody>{row}</tbody>"), "table", "lxml", namespaceHTMLElements=False)
    return etree.ElementTree(found[1]).getroot()


def head() -> etree._Element:
    return parseFragment(in_blocks(HEAD + "<tbody></tbody>"), "table", "lxml", namespaceHTMLElements=False)[0]


def test_each_cell_but_the_first_has_its_heading_in_plain_words() -> None:
    cells = body('<td class="number">7</td>', "<td><b>8</b></td>", "<td><button>Take out</button></td>").xpath(".//td")
    assert [each.get("data-label") for each in cells] == ["Right, likely", '“Few” "marks" & more', None]
    assert cells[0].get("class") == "number"


def test_every_row_begins_anew() -> None:
    rows = body("<td>7</td></tr><tr><th scope='row'>Bob</th><td>9</td>").xpath(".//td/@data-label")
    assert rows == ["Right, likely"] * 2


def test_all_parts_keep_their_roles() -> None:
    found = body("<td>7</td>")
    assert [each.get("role") for each in found.iter()] == ["rowgroup", "row", "rowheader", "cell"]
    roles = [each.get("role") for each in head().xpath("descendant-or-self::*[not(self::b or self::i or self::span)]")]
    assert roles == ["rowgroup", "row", "cell", *["columnheader"] * 3]


def test_a_cell_without_a_value_says_so() -> None:
    nothing = ("<td></td>", '<td class="number">–</td>', '<td>\n<span class="soft">–</span>\n</td>')
    assert body(*nothing).xpath(".//td/@class") == ["says-nothing"] * 3
    assert not body("<td>0</td>", "<td>– 3</td>", "<td><b>–</b></td>").xpath(".//td/@class")
