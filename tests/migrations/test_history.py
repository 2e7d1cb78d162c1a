"""The migrations as a whole, on SQLite: one line of numbered files, real in both directions, ending at the models."""

import ast
import re
from pathlib import Path

import pytest
from alembic.script import ScriptDirectory
from sqlalchemy import Engine

import app.storage.models  # noqa: F401 - completes the metadata
from app.storage.base import Base
from app.storage.engine import create_engine_for
from app.storage.migrate import MIGRATIONS, current, differences, downgrade, head, revisions, upgrade
from tests.migrations.rows import count_rows, fill


def scripts() -> ScriptDirectory:
    return ScriptDirectory(MIGRATIONS.as_posix())


def tables_of(engine: Engine) -> dict[str, list[str]]:
    """Return every table, index and trigger as SQLite keeps it: the lines of its definition, in no order.

    A table that was rebuilt has its name in quotes from then on.
    """
    listing = "SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'alembic%'"
    with engine.connect() as connection:
        return {
            name: sorted(re.sub(r"\s+", " ", line).replace('"', "").strip(" ,") for line in sql.splitlines())
            for name, sql in connection.exec_driver_sql(listing)
        }


def test_there_is_one_head_and_we_know_it_without_alembic() -> None:
    assert scripts().get_heads() == [head()]


def test_names_agree() -> None:
    before = None
    for number, revision in enumerate(revisions(), start=1):
        script = scripts().get_revision(revision)
        assert re.fullmatch(rf"{number:04d}_[a-z0-9_]+", revision)
        assert Path(script.path).stem == script.revision == revision
        assert script.down_revision == before
        assert script.doc
        before = revision


def test_migrations_never_import_the_application() -> None:
    """A released migration stays as it is, whatever becomes of the models."""
    for file in (MIGRATIONS / "versions").glob("*.py"):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            modules = [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            modules += [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            assert not [module for module in modules if module.split(".")[0] == "app"], file.name


def test_head_equals_the_models(database: Path) -> None:
    assert differences(database) == []


def test_head_is_defined_as_the_models_are(engine: Engine, tmp_path: Path) -> None:
    """Alembic does not compare checks and cascades; the definitions hold them."""
    from_models = create_engine_for(tmp_path / "models.sqlite3")
    Base.metadata.create_all(from_models)
    assert tables_of(engine) == tables_of(from_models)
    from_models.dispose()


def test_a_difference_is_found(database: Path, engine: Engine) -> None:
    with engine.begin() as connection:
        connection.exec_driver_sql("ALTER TABLE drill ADD COLUMN mood VARCHAR")
    assert ["mood" in each and "remove_column" in each for each in differences(database)] == [True]


@pytest.mark.parametrize(("before", "revision"), list(zip([None, *revisions()], revisions(), strict=False)))
def test_every_step_down_undoes_its_step_up(tmp_path: Path, before: str | None, revision: str) -> None:
    file = tmp_path / "steps.sqlite3"
    engine = create_engine_for(file)
    if before:
        upgrade(file, before)
    earlier = tables_of(engine)
    upgrade(file, revision)
    later = tables_of(engine)
    downgrade(file, before or "base")
    assert tables_of(engine) == earlier
    upgrade(file, revision)
    assert tables_of(engine) == later
    assert current(file) == revision
    engine.dispose()


def test_filled_database_keeps_its_rows_at_every_revision(tmp_path: Path) -> None:
    file = tmp_path / "filled.sqlite3"
    engine = create_engine_for(file)
    for revision in revisions():
        counts = count_rows(engine)
        upgrade(file, revision)
        after = count_rows(engine)
        assert {table: after[table] for table in counts} == counts
        fill(engine, revision)
    assert min(count_rows(engine).values()) > 1
    engine.dispose()
