import pytest

from app.exchange.roster import Newcomer, read_names, read_roster
from app.exchange.tables import UnreadableTable, csv_text, read_table


def test_what_is_written_is_read_again() -> None:
    rows = [['Zoé, «the» "first"', "a\nb"], ["Ł", ""]]
    text = csv_text(["name", "more"], rows)
    assert [cells for _, cells in read_table(text.encode("utf-8"))] == [["name", "more"], *rows]


@pytest.mark.parametrize(
    "content",
    [
        "name,email\r\nZoé,zoe@school.example\r\n".encode(),
        "\ufeffNom;Courriel\nZoé;zoe@school.example\n".encode(),
        "nom\tcourriel\nZoé\tzoe@school.example".encode("cp1252"),
        "number,e-mail,Full name\n7,zoe@school.example,  Zoé \n\n,,\n".encode(),
        b"Zo\xe9;zoe@school.example",
    ],
)
def test_rosters_are_read_however_a_spreadsheet_wrote_them(content: bytes) -> None:
    (found,) = read_roster(content)
    assert (found.name, found.email) == ("Zoé", "zoe@school.example")


@pytest.mark.parametrize("content", [b"\x00\x01PK", b'"open, never closed\nAlice', b"email\na@b.example", b"\x81\x8d"])
def test_what_is_no_table_is_refused(content: bytes) -> None:
    with pytest.raises(UnreadableTable):
        read_roster(content)


def test_pasted_names_keep_their_lines() -> None:
    assert read_names("\n Alice   Roy \r\n\n\tBob\n") == (Newcomer(2, "Alice Roy"), Newcomer(4, "Bob"))
    assert read_roster(b"") == read_names(" \n") == ()
