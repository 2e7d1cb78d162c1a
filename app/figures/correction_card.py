"""The compass correction card and the readings of a swing: an HTML table on pages, a drawn placard on paper.

Any card or swing shown is a sample.

An entry holds `for_deg` (the magnetic heading wanted), `steer_deg` (what the compass should show) and, on a card for
two states of the radios, `steer_off_deg`; then `steer_deg` is for radios on.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from typing import Any

from app.figures.faces import card_label, is_cardinal, three_digits
from app.figures.figure import Figure, Values
from app.figures.instrument import SLOT, screw
from app.figures.model import Drawing, Language, Medium
from app.figures.parameters import Parameter, is_whole_heading, need
from app.figures.strokes import FRAME, Lettering, Pen, rounded, segment, sheet, stroke, words
from app.figures.words import pick
from app.physics.angles import difference, shown, wrap360

LEAST_ENTRIES, MOST_ENTRIES = 4, 36
LARGEST_DEG = 30  # a card that corrects more is a slip, not a card
FOR, STEER, STEER_OFF = "for_deg", "steer_deg", "steer_off_deg"
# Paper: columns and lines, in units of the drawing.
COLUMNS, LINE, NOTE, MARGIN = 190.0, 21.0, 38.0, 26.0  # first column to last, line, note, top
LABELS_ONE, LABELS_TWO = 99.0, 167.0  # x of the first column, with plain labels and with a state under them

Entry = Mapping[str, Any]
Words = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Table:
    """A table of two or three rows over headings: what it is called, its row labels, and what is said of it.

    `rows` gives, by the key in an entry, each label with the state it holds for; `wide` makes room for long labels.
    """

    name: str
    title: str
    head: str
    rows: Mapping[str, Words]
    note: str
    said: str
    wide: bool

    @property
    def first_column(self) -> float:
        """Where the first column stands on paper."""
        return LABELS_TWO if self.wide else LABELS_ONE


def draw(values: Values, language: Language, medium: Medium) -> Drawing:
    """Draw the card as a table for a page or as a placard for paper."""
    return _draw(_card_table(language, two=STEER_OFF in values["card"][0]), values["card"], language, medium)


def draw_swing(values: Values, language: Language, medium: Medium) -> Drawing:
    """Draw the readings of a swing: the magnetic heading the aircraft stands on, and what its compass shows there."""
    card = [{FOR: entry["magnetic_deg"], STEER: entry["compass_deg"]} for entry in values["swing"]]
    return _draw(_swing_table(language), card, language, medium)


def _draw(table: Table, entries: Sequence[Entry], language: Language, medium: Medium) -> Drawing:
    card: list[Entry] = sorted(entries, key=lambda entry: wrap360(entry[FOR]))
    blocks = _blocks(card)
    description = table.said if medium == "page" else f"{table.said} {_read_out(card, table, language)}."
    if medium == "page":
        return Drawing(table.name, _table(blocks, table, language), table.title, description)
    return Drawing(table.name, _placard(blocks, table, description, language), table.title, description, table.title)


def _blocks(card: Sequence[Entry]) -> list[Sequence[Entry]]:
    """Cut the card into lines of six entries, or of four where that comes out even."""
    width = 4 if len(card) % 6 and len(card) % 4 == 0 else 6
    return [card[start : start + width] for start in range(0, len(card), width)]


def _card_table(language: Language, *, two: bool) -> Table:
    steer = pick(language, "STEER", "SUIVRE")
    rows = {STEER: (steer, "")}
    said = pick(
        language,
        "A table: under each magnetic heading wanted, FOR, stands what the compass should show, STEER.",
        "Un tableau\u00a0: sous chaque cap magnétique voulu, POUR, figure ce que le compas doit indiquer, SUIVRE.",
    )
    if two:
        on, off = pick(language, "radios on", "radios en marche"), pick(language, "radios off", "radios à l’arrêt")
        rows = {STEER: (steer, on), STEER_OFF: (steer, off)}
        said += pick(
            language,
            f" There is a row for {on} and one for {off}.",
            f" Une ligne vaut pour {on}, une autre pour {off}.",
        )
    title = pick(language, "Correction card, magnetic to compass", "Fiche de correction, du magnétique au compas")
    note = pick(language, "Sample card: not your aircraft.", "Exemple\u00a0: ce n’est pas votre avion.")
    return Table("correction-card", title, pick(language, "FOR", "POUR"), rows, note, said, wide=two)


def _swing_table(language: Language) -> Table:
    said = pick(
        language,
        "A table: under each magnetic heading the aircraft stands on is what its compass shows.",
        "Un tableau\u00a0: sous chaque cap magnétique où se trouve l’avion figure ce que son compas indique.",
    )
    return Table(
        name="swing-table",
        title=pick(language, "Readings of a swing", "Lectures d’une régulation"),
        head=pick(language, "Magnetic", "Magnétique"),
        rows={STEER: (pick(language, "Compass", "Compas"), "")},
        note=pick(language, "Sample swing: not your aircraft.", "Exemple\u00a0: ce n’est pas votre avion."),
        said=said,
        wide=True,
    )


def _table(blocks: list[Sequence[Entry]], table: Table, language: Language) -> str:
    bodies = "".join(f"<tbody>{''.join(_table_rows(block, table, language))}</tbody>" for block in blocks)
    states = " placard-states" if table.wide else ""
    return (
        f'<div class="placard{states}"><table><caption>{escape(table.title)}</caption>{bodies}</table>'
        f"<p>{escape(table.note)}</p></div>"
    )


def _table_rows(block: Sequence[Entry], table: Table, language: Language) -> Iterator[str]:
    heads = (f'<th scope="col">{card_label(entry[FOR], language)}</th>' for entry in block)
    yield f'<tr><th scope="row">{table.head}</th>{"".join(heads)}</tr>'
    for key, (label, state) in table.rows.items():
        cells = "".join(f"<td>{three_digits(entry[key])}</td>" for entry in block)
        small = f" <small>{escape(state)}</small>" if state else ""
        yield f'<tr><th scope="row">{label}{small}</th>{cells}</tr>'


def _placard(blocks: list[Sequence[Entry]], table: Table, description: str, language: Language) -> str:
    width = table.first_column + COLUMNS + 31
    steer_height = 2 * LINE - 4 if len(table.rows) > 1 else LINE
    block_height = 47 + steer_height * len(table.rows)
    height = MARGIN + block_height * len(blocks) + NOTE - 6
    parts = [stroke(rounded((2, 2), (width - 4, height - 4), 4), FRAME, "card")]
    for at, block in enumerate(blocks):
        parts += _placard_block(block, table, language, MARGIN + block_height * at)
    parts.append(words((width / 2, height - 17), table.note, Lettering(ink="soft")))
    corners = ((x, y) for x in (12, width - 12) for y in (12, height - 12))
    parts += [screw(corner, 3.5, (SLOT, SLOT)) for corner in corners]
    return sheet(table.name, (width, height), parts, table.title, description)


def _placard_block(block: Sequence[Entry], table: Table, language: Language, top: float) -> Iterator[str]:
    first, label = table.first_column, Lettering(anchor="start")
    columns = [first + COLUMNS * at / max(3, len(block) - 1) for at in range(len(block))]
    yield words((22, top + 24), table.head, label)
    for x, entry in zip(columns, block, strict=True):
        style = Lettering(15 if not is_cardinal(entry[FOR]) else 16, bold=True)
        yield words((x, top + 24), card_label(entry[FOR], language), style)
    yield stroke(segment((22, top + 32), (first + COLUMNS + 18, top + 32)), Pen("line", 1))
    baseline = top + 32 + LINE
    for key, (name, state) in table.rows.items():
        yield words((22, baseline), name, label)
        if state:
            yield words((22, baseline + 16), state, Lettering(anchor="start", ink="soft"))
        for x, entry in zip(columns, block, strict=True):
            yield words((x, baseline), three_digits(entry[key]), Lettering(15))
        baseline += 2 * LINE - 4


def _read_out(card: Sequence[Entry], table: Table, language: Language) -> str:
    return ", ".join(
        f"{card_label(entry[FOR], language)}\u00a0{'/'.join(three_digits(entry[key]) for key in table.rows)}"
        for entry in card
    )


def _is_card(value: Any) -> bool:
    return (
        isinstance(value, list | tuple)
        and LEAST_ENTRIES <= len(value) <= MOST_ENTRIES
        and all(_is_entry(entry) for entry in value)
    )


def _is_swing(value: Any) -> bool:
    return (
        isinstance(value, list | tuple)
        and LEAST_ENTRIES <= len(value) <= MOST_ENTRIES
        and all(isinstance(entry, Mapping) and set(entry) == {"magnetic_deg", "compass_deg"} for entry in value)
        and all(is_whole_heading(reading) for entry in value for reading in entry.values())
    )


def _is_entry(entry: Any) -> bool:
    if not isinstance(entry, Mapping) or not {FOR, STEER} <= set(entry) <= {FOR, STEER, STEER_OFF}:
        return False
    return all(is_whole_heading(value) for value in entry.values())


def _conflicts(values: Values) -> list[str]:
    card = values["card"]
    found = [
        f"card: {key} is {entry[key]} for {entry['for_deg']}: give at most {LARGEST_DEG} apart"
        for entry in card
        for key in (STEER, STEER_OFF)
        if abs(difference(entry["for_deg"], entry.get(key, entry["for_deg"]))) > LARGEST_DEG
    ]
    if len({shown(entry["for_deg"]) for entry in card}) < len(card):
        found.append("card has two entries for one heading: give each heading once")
    if len({STEER_OFF in entry for entry in card}) > 1:
        found.append("card has steer_off_deg in some entries: give it in all or in none")
    return found


def _swing_conflicts(values: Values) -> list[str]:
    headings = [shown(entry["magnetic_deg"]) for entry in values["swing"]]
    repeated = len(set(headings)) < len(headings)
    return ["swing has two readings for one heading: give each heading once"] if repeated else []


CARD = Parameter(
    f"a list of {LEAST_ENTRIES} to {MOST_ENTRIES} entries with for_deg, steer_deg and perhaps steer_off_deg, "
    "whole headings",
    _is_card,
)
SWING = Parameter(
    f"a list of {LEAST_ENTRIES} to {MOST_ENTRIES} entries with magnetic_deg and compass_deg, whole headings", _is_swing
)
CORRECTION_CARD = Figure("correction-card", {"card": need(CARD)}, draw, _conflicts)
SWING_TABLE = Figure("swing-table", {"swing": need(SWING)}, draw_swing, _swing_conflicts)
