"""A real browser against a real server; without Chromium or axe-core the tests are left out, saying how to get it."""

import shutil
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask import Flask
from playwright.sync_api import Browser, Page, sync_playwright
from werkzeug.serving import make_server

from app.web.factory import running
from app.web.settings import Settings
from tests.browser.windows import Opener, View, Windows
from tests.fakes import PlainHasher
from tests.web.members import OneSchool, new_school

ROOT = Path(__file__).parents[2]
AXE = ROOT / "node_modules" / "axe-core" / "axe.min.js"
NAMES = ("chromium", "chromium-browser", "google-chrome")
ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    found = next((path for name in NAMES if (path := shutil.which(name))), None)
    if found is None:
        pytest.skip("Chromium is not installed; on Debian: apt-get install chromium")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=found, args=ARGUMENTS)
        yield browser
        browser.close()


class Axe:
    """The accessibility rules of axe-core."""

    def __init__(self, source: str) -> None:
        self._source = source

    def faults(self, page: Page) -> list[str]:
        """Return what the rules have against a page: where, which rule, what it says."""
        page.evaluate(self._source)
        found = page.evaluate("axe.run(document, {resultTypes: ['violations']}).then((report) => report.violations)")
        return [f"{page.url} {each['id']}: {each['help']}: {n['target']}" for each in found for n in each["nodes"]]


@pytest.fixture(scope="session")
def axe() -> Axe:
    if not AXE.is_file():
        pytest.skip("axe-core is not installed; with npm: npm ci")
    return Axe(AXE.read_text("utf-8"))


@pytest.fixture(scope="session")
def served(migrated: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Flask]:
    """The application of the session."""
    folder = tmp_path_factory.mktemp("browser")
    database = Path(shutil.copy(migrated, folder / "lubberline.sqlite3"))
    with running(Settings(folder, database, b"k" * 32), hasher=PlainHasher()) as app:
        yield app


@pytest.fixture
def school(served: Flask) -> OneSchool:
    """A school of this test alone."""
    return new_school(served)


@pytest.fixture(scope="session")
def address(served: Flask) -> Iterator[str]:
    """The address of an application that answers until the session ends."""
    server = make_server("127.0.0.1", 0, served, threaded=True)
    server.daemon_threads = True  # type: ignore[attr-defined] # of its threading mixin
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield f"http://127.0.0.1:{server.port}"
    server.shutdown()
    thread.join()
    server.server_close()


@pytest.fixture(scope="session")
def windows(chromium: Browser, address: str) -> Windows:
    return Windows(chromium, address)


@pytest.fixture
def open_page(windows: Windows) -> Iterator[Opener]:
    """Open pages of a fresh visitor each; what the console complains about fails the test."""
    windows.complaints.clear()
    lent: list[tuple[View, Page]] = []

    def opened(view: View) -> Page:
        lent.append((view, windows.lend(view)))
        return lent[-1][1]

    yield opened
    for view, page in lent:
        windows.take_back(view, page)
    assert not windows.complaints
