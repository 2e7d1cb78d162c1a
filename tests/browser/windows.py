"""Browser windows for tests: how a page is looked at, and windows lent to one test after another."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from playwright.sync_api import Browser, ConsoleMessage, Page


@dataclass(frozen=True)
class View:
    """How a page is looked at; `alone` is for tests that change the window itself: its clock, medium or size."""

    width: int = 1280
    language: str = "en"
    scheme: Literal["light", "dark"] = "light"
    script: bool = True
    motion: bool = False
    alone: bool = False


WIDE = View()
NARROW = View(width=320, language="fr", scheme="dark")
NO_SCRIPT = View(width=390, script=False)

Opener = Callable[[View], Page]
WINDOW = """[innerWidth, innerHeight, matchMedia('print').matches, matchMedia('(forced-colors: active)').matches,
    matchMedia('(prefers-color-scheme: dark)').matches, '__pwClock' in globalThis]"""


class Windows:
    """Windows by view, lent to one test after another: making one costs more than most pages shown in it."""

    def __init__(self, chromium: Browser, address: str) -> None:
        self._chromium, self._address = chromium, address
        self._idle: dict[View, list[Page]] = {}
        self.complaints: list[str] = []

    def lend(self, view: View) -> Page:
        """Return a window of a visitor who was never here."""
        idle = self._idle.setdefault(view, [])
        return idle.pop() if idle else self._new(view)

    def take_back(self, view: View, page: Page) -> None:
        """Forget who used a window; one that was changed itself, or has another beside it, must have been `alone`."""
        if view.alone:
            page.context.close()
            return
        if page.url.startswith(self._address):
            page.evaluate("sessionStorage.clear()")
        page.context.clear_cookies()
        page.mouse.move(0, 0)
        page.goto("about:blank")
        assert page.context.pages == [page]
        assert page.evaluate(WINDOW) == [view.width, 800, False, False, view.scheme == "dark", False]
        self._idle[view].append(page)

    def _new(self, view: View) -> Page:
        context = self._chromium.new_context(
            base_url=self._address,
            viewport={"width": view.width, "height": 800},
            locale=f"{view.language}-CA",
            color_scheme=view.scheme,
            java_script_enabled=view.script,
            reduced_motion="no-preference" if view.motion else "reduce",
        )
        page = context.new_page()
        page.set_default_timeout(15_000)
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("console", self._hear)
        return page

    def _hear(self, line: ConsoleMessage) -> None:
        if line.type in {"error", "warning"} and "responded with a status of 4" not in line.text:
            self.complaints.append(line.text)
