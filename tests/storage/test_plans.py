"""How SQLite goes about the questions of a class's pages: by its students, never through all rows of the school."""

from uuid import UUID

import pytest
from sqlalchemy import Connection, Select

from app.storage.queries import class_figures
from app.storage.unit_of_work import UnitOfWork

SCHOOL = UUID(int=1)
QUERIES = ("COUNTS", "COUNTS_OF_SET", "WEEKS", "LEVELS", "KNOWN", "MISSED")
LARGE = ("week_tally", "learner_skill", "learner", "attempt")


def plan(connection: Connection, query: Select) -> list[str]:  # type: ignore[type-arg] # whatever its columns are
    compiled = query.compile(connection)
    text = f"EXPLAIN QUERY PLAN {compiled}"
    values = tuple("0" for _ in compiled.positiontup or ())
    return [row[3] for row in connection.exec_driver_sql(text, values)]


@pytest.mark.parametrize("name", QUERIES)
def test_class_pages_search_by_student(uow: UnitOfWork, name: str) -> None:
    with uow.reader() as connection:
        steps = plan(connection, getattr(class_figures, name))
    searches = [step for step in steps if step.startswith(tuple(f"SEARCH {table} " for table in LARGE))]
    assert searches
    assert all("visit_id=?" in step for step in searches), steps
    assert not [step for step in steps if step.startswith("SCAN")], steps
