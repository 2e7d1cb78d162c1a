"""The compass correction card: an HTML table on pages, a drawn placard on paper. Any card shown is a sample.

An entry holds `for_deg` (the magnetic heading wanted), `steer_deg` (what the compass should show) and, on a card for
two states of the radios, `steer_off_deg`; then `steer_deg` is for radios on.
"""

from collections.abc import Iterator, Mapping, Sequence
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
STEER, STEER_OFF = "steer_deg", "steer_off_deg"
# Paper: columns and lines, in units of the drawing.
COLUMNS, LINE, NOTE, MARGIN = 190.0, 21.0, 38.0, 26.0  # first column to last, line, note, top
LABELS_ONE, LABELS_TWO = 99.0, 167.0  # x of the first column, with plain labels and with a state under them

Entry = Mapping[str, Any]
Words = tuple[str, str]


def draw(values: Values, language: Language, medium: Medium) -> Drawing:
    """Draw the card as a table for a page or as a placard for paper."""
    card: list[Entry] = sorted(values["card"], key=lambda entry: wrap360(entry["for_deg"]))
    two, blocks = STEER_OFF in card[0], _blocks(card)
    rows = _row_labels(language, two=two)
    title = pick(language, "Correction card, magnetic to compass", "Fiche de correction, du magnétique au compas")
    description = _describe(card, rows, language, medium)
    if medium == "page":
        return Drawing("correction-card", _table(blocks, rows, title, language), title, description)
    return Drawing("correction-card", _placard(blocks, rows, (title, description), language), title, description, title)


def _blocks(card: Sequence[Entry]) -> list[Sequence[Entry]]:
    """Cut the card into lines of six entries, or of four where that comes out even."""
    width = 4 if len(card) % 6 and len(card) % 4 == 0 else 6
    return [card[start : start + width] for start in range(0, len(card), width)]


def _row_labels(language: Language, *, two: bool) -> dict[str, Words]:
    """Return the STEER rows by their key in an entry: the label, and the state it holds for."""
    steer = pick(language, "STEER", "SUIVRE")
    if not two:
        return {STEER: (steer, "")}
    return {
        STEER: (steer, pick(language, "radios on", "radios en marche")),
        STEER_OFF: (steer, pick(language, "radios off", "radios à l'arrêt")),
    }


def _note(language: Language) -> str:
    return pick(language, "Sample card: not your aircraft.", "Exemple\u00a0: ce n'est pas votre avion.")


def _table(blocks: list[Sequence[Entry]], rows: Mapping[str, Words], title: str, language: Language) -> str:
    bodies = "".join(f"<tbody>{''.join(_table_rows(block, rows, language))}</tbody>" for block in blocks)
    states = " placard-states" if len(rows) > 1 else ""
    return (
        f'<div class="placard{states}"><table><caption>{escape(title)}</caption>{bodies}</table>'
        f"<p>{escape(_note(language))}</p></div>"
    )


def _table_rows(block: Sequence[Entry], rows: Mapping[str, Words], language: Language) -> Iterator[str]:
    heads = (f'<th scope="col">{card_label(entry["for_deg"], language)}</th>' for entry in block)
    yield f'<tr><th scope="row">{pick(language, "FOR", "POUR")}</th>{"".join(heads)}</tr>'
    for key, (label, state) in rows.items():
        cells = "".join(f"<td>{three_digits(entry[key])}</td>" for entry in block)
        small = f" <small>{escape(state)}</small>" if state else ""
        yield f'<tr><th scope="row">{label}{small}</th>{cells}</tr>'


def _placard(blocks: list[Sequence[Entry]], rows: Mapping[str, Words], said: Words, language: Language) -> str:
    first = LABELS_TWO if len(rows) > 1 else LABELS_ONE
    width = first + COLUMNS + 31
    steer_height = 2 * LINE - 4 if len(rows) > 1 else LINE
    block_height = 47 + steer_height * len(rows)
    height = MARGIN + block_height * len(blocks) + NOTE - 6
    parts = [stroke(rounded((2, 2), (width - 4, height - 4), 4), FRAME, "card")]
    for at, block in enumerate(blocks):
        parts += _placard_block(block, rows, language, (first, MARGIN + block_height * at))
    parts.append(words((width / 2, height - 17), _note(language), Lettering(ink="soft")))
    corners = ((x, y) for x in (12, width - 12) for y in (12, height - 12))
    parts += [screw(corner, 3.5, (SLOT, SLOT)) for corner in corners]
    return sheet("correction-card", (width, height), parts, *said)


def _placard_block(
    block: Sequence[Entry], rows: Mapping[str, Words], language: Language, corner: tuple[float, float]
) -> Iterator[str]:
    first, top = corner
    label = Lettering(anchor="start")
    columns = [first + COLUMNS * at / max(3, len(block) - 1) for at in range(len(block))]
    yield words((22, top + 24), pick(language, "FOR", "POUR"), label)
    for x, entry in zip(columns, block, strict=True):
        style = Lettering(15 if not is_cardinal(entry["for_deg"]) else 16, bold=True)
        yield words((x, top + 24), card_label(entry["for_deg"], language), style)
    yield stroke(segment((22, top + 32), (first + COLUMNS + 18, top + 32)), Pen("line", 1))
    baseline = top + 32 + LINE
    for key, (name, state) in rows.items():
        yield words((22, baseline), name, label)
        if state:
            yield words((22, baseline + 16), state, Lettering(anchor="start", ink="soft"))
        for x, entry in zip(columns, block, strict=True):
            yield words((x, baseline), three_digits(entry[key]), Lettering(15))
        baseline += 2 * LINE - 4


def _describe(card: Sequence[Entry], rows: Mapping[str, Words], language: Language, medium: Medium) -> str:
    states = [state for _, state in rows.values() if state]
    said = pick(
        language,
        "A table: under each magnetic heading wanted, FOR, stands what the compass should show, STEER.",
        "Un tableau\u00a0: sous chaque cap magnétique voulu, POUR, figure ce que le compas doit indiquer, SUIVRE.",
    )
    if states:
        said += pick(language, f" There is a row for {states[0]} and one for {states[1]}.",
                     f" Une ligne vaut pour {states[0]}, une autre pour {states[1]}.")  # fmt: skip
    if medium == "page":
        return said
    entries = [
        f"{card_label(entry['for_deg'], language)}\u00a0{'/'.join(three_digits(entry[key]) for key in rows)}"
        for entry in card
    ]
    return f"{said} {', '.join(entries)}."


def _is_card(value: Any) -> bool:
    return (
        isinstance(value, list | tuple)
        and LEAST_ENTRIES <= len(value) <= MOST_ENTRIES
        and all(_is_entry(entry) for entry in value)
    )


def _is_entry(entry: Any) -> bool:
    if not isinstance(entry, Mapping) or not {"for_deg", STEER} <= set(entry) <= {"for_deg", STEER, STEER_OFF}:
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


CARD = Parameter(
    f"a list of {LEAST_ENTRIES} to {MOST_ENTRIES} entries with for_deg, steer_deg and perhaps steer_off_deg, "
    "whole headings",
    _is_card,
)
CORRECTION_CARD = Figure("correction-card", {"card": need(CARD)}, draw, _conflicts)
