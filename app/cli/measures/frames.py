"""How the bench plays and how soon its picture stands, in a browser whose processor is slowed four times.

The slowed browser (and a slowed network for the picture) stands in for a phone; it is not one. Needs Chromium.
"""

import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory
from urllib.request import urlopen

import click
from playwright.sync_api import Browser, CDPSession, Page, sync_playwright

from app.cli.measures import Reading
from app.environment import ROOT

FLIGHT = "/bench?place_id=otterlea&when=2026-09-01&start_deg=270&target_deg=90"
NAMES = ("chromium", "chromium-browser", "google-chrome")
SLOWER = 4
WIDTHS, HEIGHT = (320, 412), 800
PLAYED_S = 10
LATE_MS = 20
FRAME_MS = 1000 / 60
VISITS = 5
NETWORK = {"offline": False, "latency": 150, "downloadThroughput": 1_600_000 / 8, "uploadThroughput": 750_000 / 8}
PICTURE_GOAL_S = 1.0
INTERVALS = """seconds => new Promise(done => {
  const gaps = [], first = performance.now();
  let before = null;
  const tick = stamp => {
    if (before !== null) gaps.push(stamp - before);
    before = stamp;
    if (performance.now() - first < 1000 * seconds) requestAnimationFrame(tick); else done(gaps);
  };
  requestAnimationFrame(tick);
})"""
PAINTED = """() => new Promise(done => new PerformanceObserver(list => done({
  answered: performance.getEntriesByType('navigation')[0].responseStart / 1000,
  painted: performance.getEntriesByName('first-contentful-paint')[0].startTime / 1000,
  largest: list.getEntries().at(-1).startTime / 1000,
  fetched: performance.getEntriesByType('resource').find(each => each.name.includes('track.json')).responseEnd / 1000,
  ready: performance.now() / 1000,
})).observe({type: 'largest-contentful-paint', buffered: true}))"""


def measure() -> Iterator[Reading]:
    """Yield the frames while it plays, as it is and slowed, then the picture with and without a slowed network."""
    with TemporaryDirectory() as folder, _served(Path(folder)) as address, _chromium() as browser:
        for width in WIDTHS:
            for slower in (1, SLOWER):
                yield from _frames(browser, f"{address}{FLIGHT}", width, slower)
        for network in (None, NETWORK):
            yield from _picture(browser, f"{address}{FLIGHT}", network)


@contextmanager
def _served(instance: Path) -> Iterator[str]:
    command = [sys.executable, "-m", "app", "serve", "--port", "0", "--instance", str(instance)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as server:
        try:
            assert server.stdout is not None  # noqa: S101 - asked for above
            address = next(word for line in server.stdout for word in line.split() if word.startswith("http://"))
            with urlopen(f"{address.rstrip('/')}{FLIGHT}") as page:  # noqa: S310 - our own server, warm before it counts
                page.read()
            yield address.rstrip("/")
        finally:
            server.terminate()


@contextmanager
def _chromium() -> Iterator[Browser]:
    found = next((path for name in NAMES if (path := shutil.which(name))), None)
    if found is None:
        raise click.ClickException("Chromium is not installed; on Debian: apt-get install chromium")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=found, args=["--no-sandbox"])
        yield browser
        browser.close()


@contextmanager
def _phone(browser: Browser, width: int, slower: int) -> Iterator[tuple[Page, CDPSession]]:
    context = browser.new_context(
        viewport={"width": width, "height": HEIGHT},
        device_scale_factor=2,
        is_mobile=True,
        has_touch=True,
        reduced_motion="no-preference",
    )
    page = context.new_page()
    wire = context.new_cdp_session(page)
    wire.send("Emulation.setCPUThrottlingRate", {"rate": slower})
    yield page, wire
    context.close()


def _frames(browser: Browser, address: str, width: int, slower: int) -> Iterator[Reading]:
    with _phone(browser, width, slower) as (page, wire):
        page.goto(address)
        page.wait_for_selector("#player[data-ready]")
        page.click("[data-do=play]")
        wire.send("Performance.enable")
        before = _busy_s(wire)
        gaps = page.evaluate(INTERVALS, PLAYED_S)
        busy_ms = (_busy_s(wire) - before) * 1000 / len(gaps)
    name = f"bench plays, {width} px, {slower} times slower"
    yield Reading(f"{name}: median frame", median(gaps), "ms", round(FRAME_MS + 0.5, 1))
    yield Reading(f"{name}: 19 of 20 frames within", quantiles(gaps, n=20)[-1], "ms")
    yield Reading(f"{name}: frames over {LATE_MS} ms", 100 * sum(gap > LATE_MS for gap in gaps) / len(gaps), "%")
    yield Reading(f"{name}: page busy a frame", busy_ms, "ms")


def _busy_s(wire: CDPSession) -> float:
    metrics = {each["name"]: each["value"] for each in wire.send("Performance.getMetrics")["metrics"]}
    return float(metrics["TaskDuration"])


def _picture(browser: Browser, address: str, network: dict[str, float] | None) -> Iterator[Reading]:
    """Open the page with nothing kept from before, several times; the server's still is in what is painted first."""
    seen = []
    for _ in range(VISITS):
        with _phone(browser, WIDTHS[0], SLOWER) as (page, wire):
            wire.send("Network.enable")
            if network:
                wire.send("Network.emulateNetworkConditions", network)
            page.goto(address)
            page.wait_for_selector("#player[data-ready]")
            seen.append(page.evaluate(PAINTED))
    name = f"bench, {SLOWER} times slower{', slow network' if network else ''}"
    for key, words, goal in (
        ("answered", "first byte", None),
        ("painted", "first picture", PICTURE_GOAL_S),
        ("largest", "largest piece painted", None),
        ("fetched", "track fetched", None),
        ("ready", "player ready", None),
    ):
        yield Reading(f"{name}: {words}", median(each[key] for each in seen), "s", goal)
