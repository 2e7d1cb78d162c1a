"""What the real server bears: many visitors answering at once, and whether any answer was lost, torn or kept twice."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass, field
from http.client import HTTPConnection, HTTPException
from http.cookies import SimpleCookie
from pathlib import Path
from statistics import quantiles
from tempfile import TemporaryDirectory
from threading import Thread
from time import monotonic, sleep
from urllib.parse import urlencode, urlsplit
from uuid import UUID

from app.cli.measures import Reading
from app.cli.measures.serving import Served, serving, serving_floor
from app.cli.measures.visitor import fill_form
from app.web.question_page import AT_ONCE
from app.web.settings import DATABASE_FILE

SECONDS = 20
GOALS = {16: 8.0, 64: 4.0}  # connections, and how many times the median the slowest of a hundred answers may take
MOST_MB = 70.0
MOST_FLOORS = 1 / 0.35  # answers a second of the floor under the same server, for one of these
WAIT_S = 60
SETTLING_S = 1  # an address is told when the first worker listens, and a connection stays with the worker that took it
SENT_TWICE = 10  # every tenth answer is sent again: it may count once only
SERVER_FAILED = 500
TORN = """SELECT count(*) FROM (SELECT visit_id, count(*) AS n FROM attempt GROUP BY visit_id) LEFT JOIN
(SELECT visit_id, sum(answers) AS counted FROM week_tally GROUP BY visit_id) USING (visit_id) WHERE n IS NOT counted"""
TWICE = "SELECT count(*) - count(DISTINCT drill_item_id) FROM attempt"

Over = Callable[["Seen"], bool]
Drill = Callable[["_Browser", Over, "Seen"], None]


@dataclass
class Seen:
    """What the visitors of one run saw; threads only ever append."""

    answer_ms: list[float] = field(default_factory=list)
    accepted: list[UUID] = field(default_factory=list)
    failed: list[str] = field(default_factory=list)


def measure() -> Iterator[Reading]:
    """Yield, for each number of connections, answers a second, how even they are, and what went wrong."""
    for connections, goal in GOALS.items():
        with TemporaryDirectory() as folder:
            with serving(Path(folder)) as served:
                sleep(SETTLING_S)
                seen = practise_together(served, connections, _after(SECONDS))
                memory_mb = served.worker_mb()
            with serving_floor(Path(folder)) as served:
                sleep(SETTLING_S)
                floor = practise_together(served, connections, _after(SECONDS), _post_to_floor)
            yield from _readings(f"load: {connections} connections", seen, floor, goal)
            yield from wrong(f"load: {connections} connections", seen, Path(folder) / DATABASE_FILE)
        if memory_mb is not None:
            yield Reading(f"load: {connections} connections, largest worker", memory_mb, "MB", MOST_MB)


def practise_together(served: Served, connections: int, over: Over, drill: "Drill | None" = None) -> Seen:
    """Have so many browsers practise at once until it is over, each drill after drill."""
    seen = Seen()
    threads = [Thread(target=_practise, args=(served.address, over, seen, drill or _drill)) for _ in range(connections)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return seen


def _after(seconds: float) -> Over:
    until = monotonic() + seconds
    return lambda _: monotonic() >= until


def _practise(address: str, over: Over, seen: Seen, drill: "Drill") -> None:
    """Go through drills as one browser, until it is over or the server fails."""
    browser = _Browser(HTTPConnection(urlsplit(address).netloc, timeout=WAIT_S))
    with closing(browser.connection):
        try:
            while not over(seen):
                drill(browser, over, seen)
        except (OSError, HTTPException, KeyError) as error:
            seen.failed.append(repr(error))


def _drill(browser: "_Browser", over: Over, seen: Seen) -> None:
    started = browser.send("POST", "/drills", fill_form(browser.send("GET", "/topics").page, "/drills"))
    path, _, position = started.location.rpartition("/")
    place = int(position)
    while not over(seen) and (question := browser.send("GET", f"{path}/{place}")).status == 200:
        fields = fill_form(question.page, f"{path}/{place}") | {AT_ONCE: "1"}
        begun = monotonic()
        answered = browser.send("POST", f"{path}/{place}", fields)
        seen.answer_ms.append((monotonic() - begun) * 1000)
        if answered.status >= SERVER_FAILED:
            seen.failed.append(str(answered.status))
        elif 'id="verdict"' in answered.page:
            seen.accepted.append(UUID(fields["item"]))
            if len(seen.accepted) % SENT_TWICE == 0:
                browser.send("POST", f"{path}/{place}", fields)
        place += 1


def _post_to_floor(browser: "_Browser", _over: Over, seen: Seen) -> None:
    """Read a page and answer, as a drill does for each question, but without looking for a form in the page."""
    browser.send("POST", "/page", {"option": "1"})
    begun = monotonic()
    browser.send("POST", "/answer", {"option": "1"})
    seen.answer_ms.append((monotonic() - begun) * 1000)


@dataclass(frozen=True)
class _Came:
    status: int
    location: str
    page: str


@dataclass
class _Browser:
    connection: HTTPConnection
    cookie: str = ""

    def send(self, method: str, path: str, fields: dict[str, str] | None = None) -> _Came:
        """Send a request and keep the cookie that comes back."""
        headers = {"Cookie": self.cookie, "Content-Type": "application/x-www-form-urlencoded"}
        self.connection.request(method, path, urlencode(fields or {}), headers)
        came = self.connection.getresponse()
        for name, morsel in SimpleCookie(came.headers.get("Set-Cookie", "")).items():
            self.cookie = f"{name}={morsel.value}"
        return _Came(came.status, came.headers.get("Location", ""), came.read().decode())


def _readings(name: str, seen: Seen, floor: Seen, goal: float) -> Iterator[Reading]:
    cuts = quantiles(seen.answer_ms, n=100)
    yield Reading(f"{name}, answers a second", len(seen.answer_ms) / SECONDS, "1/s")
    yield Reading(f"{name}, the floor's / these", len(floor.answer_ms) / len(seen.answer_ms), "x", MOST_FLOORS)
    yield Reading(f"{name}, median answer", cuts[49], "ms")
    yield Reading(f"{name}, slowest of a hundred / median", cuts[98] / cuts[49], "x", goal)


def wrong(name: str, seen: Seen, database: Path) -> Iterator[Reading]:
    """Yield what went wrong, each as a count that should be nothing."""
    with closing(sqlite3.connect(database)) as connection:
        kept = {UUID(item) for (item,) in connection.execute("SELECT drill_item_id FROM attempt")}
        torn, twice = (connection.execute(query).fetchone()[0] for query in (TORN, TWICE))
    yield Reading(f"{name}, answers accepted", len(seen.accepted), "")
    yield Reading(f"{name}, of them lost", len(set(seen.accepted) - kept), "", 0)
    yield Reading(f"{name}, visits with other counts than answers", torn, "", 0)
    yield Reading(f"{name}, kept twice", twice, "", 0)
    yield Reading(f"{name}, failures of the server", len(seen.failed), "", 0)
