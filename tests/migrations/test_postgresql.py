"""The same migrations on PostgreSQL."""

from app.storage.engine import create_engine_for
from app.storage.migrate import current, differences, downgrade, head, upgrade
from tests.migrations.rows import count_rows, fill
from tests.postgresql import needs_postgresql, new_database


@needs_postgresql
def test_head_equals_the_models() -> None:
    with new_database() as url:
        upgrade(url)
        assert current(url) == head()
        assert differences(url) == []


@needs_postgresql
def test_up_down_and_up_again() -> None:
    with new_database() as url:
        upgrade(url)
        downgrade(url, "base")
        engine = create_engine_for(url)
        assert count_rows(engine) == {}
        upgrade(url)
        fill(engine, "0001_drills")
        assert count_rows(engine)["attempt"] == 2
        engine.dispose()
