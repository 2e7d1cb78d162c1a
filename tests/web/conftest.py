"""An application for the tests of pages: real packs, a migrated database, a clock and seeds that stand still."""

import shutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from flask import Flask

from app.web.factory import running
from app.web.settings import Settings
from tests.fakes import Clock, PlainHasher, Seeds
from tests.web.browsing import Browser
from tests.web.members import OneSchool, new_school

KEY = b"only for tests, never for a server"


@pytest.fixture(scope="session")
def clock() -> Clock:
    return Clock()


@pytest.fixture(scope="session")
def seeds() -> Seeds:
    return Seeds()


@pytest.fixture(scope="session")
def settings(migrated: Path, tmp_path_factory: pytest.TempPathFactory) -> Settings:
    instance = tmp_path_factory.mktemp("instance")
    database = Path(shutil.copy(migrated, instance / "lubberline.sqlite3"))
    return Settings(instance=instance, database=database, secret_key=KEY)


@pytest.fixture(scope="session")
def hasher() -> PlainHasher:
    return PlainHasher()


@pytest.fixture(scope="session")
def whole_app(settings: Settings, clock: Clock, seeds: Seeds, hasher: PlainHasher) -> Iterator[Flask]:
    with running(settings, clock, seeds, hasher) as app:
        yield app


@pytest.fixture
def run() -> Iterator[Callable[..., Flask]]:
    """Makes a further application, as `create_app` does, for this test alone."""
    with ExitStack() as stack:
        yield lambda *parts, **named: stack.enter_context(running(*parts, **named))


@pytest.fixture
def app(whole_app: Flask, clock: Clock, seeds: Seeds) -> Iterator[Flask]:
    """The application of the session; visitors share its database, never their drills."""
    yield whole_app
    clock.reset()
    seeds.reset()


@pytest.fixture
def alice(app: Flask) -> Browser:
    return Browser(app)


@pytest.fixture
def bob(app: Flask) -> Browser:
    return Browser(app)


@pytest.fixture
def amelie(app: Flask) -> Browser:
    """Somebody who reads French."""
    return Browser(app, "fr")


@pytest.fixture
def school(app: Flask) -> OneSchool:
    """A school of this test alone; `add` people to it and take their browsers."""
    return new_school(app)


@pytest.fixture
def other_school(app: Flask) -> OneSchool:
    """Another school, whose people are strangers to the first."""
    return new_school(app)
