"""What holds for every table."""

import pytest
from sqlalchemy import CheckConstraint, Table, UniqueConstraint

from app.storage.base import Base
from app.storage.models import School
from app.storage.types import UtcDateTime

GROWING = [table for name, table in Base.metadata.tables.items() if name != School.__tablename__]


@pytest.mark.parametrize("table", GROWING, ids=lambda table: table.name)
def test_school_leads_every_key(table: Table) -> None:
    keys = [table.primary_key.columns, *(index.columns for index in table.indexes)]
    keys += [each.columns for each in table.constraints if isinstance(each, UniqueConstraint)]
    assert {next(iter(columns)).name for columns in keys} == {"school_id"}
    for foreign_key in table.foreign_key_constraints:
        assert foreign_key.columns[0].name == "school_id"
        assert foreign_key.ondelete == "CASCADE"


@pytest.mark.parametrize("table", list(Base.metadata.tables.values()), ids=lambda table: table.name)
def test_every_constraint_has_its_name(table: Table) -> None:
    prefixes = {"PrimaryKeyConstraint": "pk", "ForeignKeyConstraint": "fk", "UniqueConstraint": "uq"}
    for constraint in table.constraints:
        prefix = "ck" if isinstance(constraint, CheckConstraint) else prefixes[type(constraint).__name__]
        assert str(constraint.name).startswith(f"{prefix}_{table.name}")


@pytest.mark.parametrize("table", list(Base.metadata.tables.values()), ids=lambda table: table.name)
def test_every_moment_has_a_zone(table: Table) -> None:
    moments = [column for column in table.columns if column.name.endswith(("_at", "_until"))]
    assert moments or table.name in {"drill_item", "recheck_person"}
    assert all(isinstance(column.type, UtcDateTime) for column in moments)
