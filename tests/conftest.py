"""What every test shares: settings, a fixed time, a migrated database, its unit of work, counted queries."""

import gc
import os
import shutil
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from sqlalchemy import Engine

from app.storage.engine import create_engine_for
from app.storage.migrate import upgrade
from app.storage.unit_of_work import UnitOfWork
from tests.counted import counting

# The packs are many objects that stay: looking through them for garbage less often saves an eighth of the time.
gc.set_threshold(50_000, 20, 100)

# No test is timed: the machine is shared. In CI hypothesis has its own profile: the same examples every time.
settings.register_profile("unhurried", deadline=None, suppress_health_check=[HealthCheck.too_slow])
if "CI" not in os.environ:
    settings.load_profile("unhurried")


@pytest.fixture
def now() -> datetime:
    return datetime(2026, 9, 1, 14, 30, tzinfo=UTC)


@pytest.fixture(scope="session")
def migrated(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An empty database made by the migrations, to be copied."""
    file = tmp_path_factory.mktemp("migrated") / "empty.sqlite3"
    upgrade(file)
    return file


@pytest.fixture
def database(migrated: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(migrated, tmp_path / "lubberline.sqlite3"))


@pytest.fixture
def engine(database: Path) -> Iterator[Engine]:
    engine = create_engine_for(database)
    yield engine
    engine.dispose()


@pytest.fixture
def uow(engine: Engine) -> UnitOfWork:
    return UnitOfWork(engine)


@pytest.fixture
def count_queries(engine: Engine) -> Callable[[], object]:
    """A context manager that counts what the engine is sent inside it."""
    return lambda: counting(engine.pool)
