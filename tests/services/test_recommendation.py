"""One weak section blocks; nothing else makes up for it."""

import pytest

from app.services.recommendation import Checklist, Line, WeakSection


def checklist(**changes: object) -> Checklist:
    good = {
        "rehearsals_wanted": 2,
        "rehearsals": 2,
        "section_percent": 80,
        "weak": (),
        "open_misconceptions": 0,
        "reviewed": False,
    }
    return Checklist(**(good | changes))  # type: ignore[arg-type] # a table


@pytest.mark.parametrize(
    ("changes", "lacking"),
    [
        ({}, ()),
        ({"weak": (WeakSection("Navigation", 79),)}, ("sections",)),
        ({"rehearsals": 1}, ("rehearsals",)),
        ({"rehearsals": 0}, ("rehearsals", "sections")),
        ({"open_misconceptions": 1}, ("misconceptions",)),
        ({"open_misconceptions": 1, "reviewed": True}, ()),
    ],
)
def test_every_line_must_hold(changes: dict[str, object], lacking: tuple[Line, ...]) -> None:
    assert checklist(**changes).lacking == lacking
