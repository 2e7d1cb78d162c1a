"""A throwaway database on a PostgreSQL server, for whoever has one: LUBBERLINE_TEST_POSTGRESQL holds its URL."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from uuid import uuid4

import pytest
from sqlalchemy import create_engine, make_url

VARIABLE = "LUBBERLINE_TEST_POSTGRESQL"

needs_postgresql = pytest.mark.skipif(
    VARIABLE not in os.environ or find_spec("psycopg") is None,
    reason=f"{VARIABLE} holds no URL of a PostgreSQL server, or psycopg is not installed",
)


@contextmanager
def new_database() -> Iterator[str]:
    """Make a database of its own and drop it afterwards; yields its URL."""
    server = make_url(os.environ[VARIABLE])
    name = f"lubberline_{uuid4().hex}"
    admin = create_engine(server, isolation_level="AUTOCOMMIT")
    with admin.connect() as connection:
        connection.exec_driver_sql(f"CREATE DATABASE {name}")
    try:
        yield server.set(database=name).render_as_string(hide_password=False)
    finally:
        with admin.connect() as connection:
            connection.exec_driver_sql(f"DROP DATABASE {name} WITH (FORCE)")
        admin.dispose()
