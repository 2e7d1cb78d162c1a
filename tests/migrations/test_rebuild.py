"""The trap of batch mode: rebuilding a parent table drops it, and its children must not go along."""

import shutil
from pathlib import Path

import pytest
from alembic import command
from alembic.config import Config
from sqlalchemy import Engine

from app.storage.migrate import MIGRATIONS, head
from tests.migrations.rows import count_rows, fill

REBUILD = """
import sqlalchemy as sa
from alembic import op

revision = "9000_rebuild"
down_revision = "{head}"


def upgrade():
    with op.batch_alter_table("drill", recreate="always") as drill:
        drill.add_column(sa.Column("note", sa.String(), nullable=True))
    op.execute("{then}")
"""


@pytest.fixture
def filled(engine: Engine) -> Engine:
    fill(engine, "0001_drills")
    return engine


def run(engine: Engine, folder: Path, then: str) -> None:
    """Upgrade with one more migration, under the project's own env.py."""
    shutil.copytree(MIGRATIONS, folder)
    (folder / "versions" / "9000_rebuild.py").write_text(REBUILD.format(head=head(), then=then), "utf-8")
    config = Config(attributes={"engine": engine})
    config.set_main_option("script_location", str(folder))
    config.set_main_option("path_separator", "os")
    command.upgrade(config, "head")


def test_children_survive_the_rebuild_of_their_parent(filled: Engine, tmp_path: Path) -> None:
    before = count_rows(filled)
    run(filled, tmp_path / "migrations", "SELECT 1")
    assert count_rows(filled) == before
    assert before["attempt"] == 2


def test_foreign_keys_are_on_again_afterwards(filled: Engine, tmp_path: Path) -> None:
    run(filled, tmp_path / "migrations", "SELECT 1")
    with filled.connect() as connection:
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1


def test_broken_references_undo_the_whole_migration(filled: Engine, tmp_path: Path) -> None:
    before = count_rows(filled)
    with pytest.raises(RuntimeError, match="rows of drill_item refer to rows that are not there"):
        run(filled, tmp_path / "migrations", "DELETE FROM drill")
    assert count_rows(filled) == before
    with filled.connect() as connection:
        assert connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar() == head()
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
