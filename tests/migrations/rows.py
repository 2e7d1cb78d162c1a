"""Rows for a database at a revision, written without the models: these change, a released revision does not."""

from uuid import uuid4

from sqlalchemy import Engine, inspect, text

MOMENT = "2026-09-01 14:30:00.000000"
SCHOOLS = ("One", "Two")


def drawn(seed: int) -> dict[str, object]:
    return {
        "family": "true-to-compass",
        "family_version": 1,
        "pack": "datum",
        "pack_version": 1,
        "seed": seed,
        "form": "typed",
    }


def school_rows(name: str) -> list[tuple[str, dict[str, object]]]:
    """A school with a visit, a drill, two items, an answer and a report."""
    school, visit, drill, item, other = (uuid4().hex for _ in range(5))
    of = {"school_id": school}
    json = dict.fromkeys(("parameters", "conventions", "shown", "answer"), "{}")
    marks = {"correct": False, "share": 0.0, "misconceptions": '["added-east"]', "first_misconception": "added-east"}
    times = dict.fromkeys(("created_at", "seen_at", "idle_until", "ends_at"), MOMENT)
    return [
        ("school", {"id": school, "name": name, "created_at": MOMENT}),
        ("visit", of | times | {"id": visit, "token_hash": visit, "language": "en", "conventions": "{}"}),
        ("drill", of | {"id": drill, "visit_id": visit, "seed": 1, "conventions": "{}", "started_at": MOMENT}),
        ("drill_item", of | drawn(1) | {"id": item, "drill_id": drill, "position": 1}),
        ("drill_item", of | drawn(2) | {"id": other, "drill_id": drill, "position": 2}),
        (
            "attempt",
            of | drawn(1) | json | marks
            | {"id": uuid4().hex, "drill_item_id": item, "visit_id": visit, "ask": "compass", "answered_at": MOMENT},
        ),
        (
            "report",
            of | {"id": uuid4().hex, "drill_item_id": item, "visit_id": visit, "family": "true-to-compass"}
            | {"item": "{}", "text": "The card is upside down.", "language": "en", "created_at": MOMENT},
        ),
    ]  # fmt: skip


ROWS = {"0001_drills": school_rows}


def fill(engine: Engine, revision: str) -> None:
    """Add rows to the tables that came with a revision."""
    if revision not in ROWS:
        return
    with engine.begin() as connection:
        for school in SCHOOLS:
            for table, row in ROWS[revision](school):
                names, places = ", ".join(row), ", ".join(f":{name}" for name in row)
                connection.execute(text(f"INSERT INTO {table} ({names}) VALUES ({places})"), row)  # noqa: S608 - ours


def count_rows(engine: Engine) -> dict[str, int]:
    """Return how many rows every table has."""
    with engine.connect() as connection:
        names = [name for name in inspect(connection).get_table_names() if name != "alembic_version"]
        return {name: connection.scalar(text(f"SELECT count(*) FROM {name}")) for name in names}  # noqa: S608 - ours
