"""The floor: the least that an answer can cost on this machine with this framework and this database.

One POST that writes two rows with the bare driver in one commit and returns a rendered page of 14 KB: no session, no
token, no grading. Every goal is a multiple of it, measured in the same run, so that the machine's speed drops out.
"""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from io import BytesIO, StringIO
from os import getpid
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import get_ident
from typing import Any

from flask import Flask, request

from app.cli.measures import Reading, cpu_ms

ROUNDS = 100
BUSY_TIMEOUT_S = 5
PAGE = """<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{{ title }}</title></head><body>
<main><h1>{{ title }}</h1><svg viewBox="0 0 400 400" role="img"><title>{{ title }}</title>
{% for x, y, label in ticks %}<line class="tick" x1="200" y1="200" x2="{{ x }}" y2="{{ y }}" stroke-width="1"/>
<text class="mark" x="{{ x }}" y="{{ y }}" text-anchor="middle">{{ label }}</text>
{% endfor %}</svg>
<form method="post">{% for option in options %}<label><input type="radio" name="option" value="{{ loop.index }}">
{{ option }}</label>{% endfor %}<button>Answer</button></form></main></body></html>"""


def measure() -> Iterator[Reading]:
    """Yield the floor and the share of it that is the page alone."""
    with TemporaryDirectory() as folder, floor_application(Path(folder) / "floor.sqlite3") as application:
        yield Reading("floor: one answer", cpu_ms(poster(application, "/answer"), ROUNDS), "ms")
        yield Reading("floor: its page alone", cpu_ms(poster(application, "/page"), ROUNDS), "ms")


@contextmanager
def floor_application(database: Path) -> Iterator[Flask]:
    """Yield the bare application on a fresh database with the product's own settings for SQLite."""
    opened: list[sqlite3.Connection] = []

    @cache
    def connected(thread: tuple[int, int]) -> sqlite3.Connection:
        del thread
        connection = sqlite3.connect(database, isolation_level=None, timeout=BUSY_TIMEOUT_S)
        opened.append(connection)
        connection.executescript("PRAGMA journal_mode=WAL; PRAGMA synchronous=NORMAL; PRAGMA cache_size=-16000;")
        return connection

    connected((getpid(), get_ident())).executescript(
        """CREATE TABLE attempt (id INTEGER PRIMARY KEY, student INTEGER, family TEXT, correct INTEGER);
        CREATE TABLE mastery (student INTEGER PRIMARY KEY, n INTEGER, k INTEGER);
        INSERT INTO mastery VALUES (1, 0, 0);"""
    )
    application = Flask("floor")
    template = application.jinja_env.from_string(PAGE)
    ticks = [(100 + i, 300 - i, f"{i * 4:03d}") for i in range(92)]

    @application.post("/page")
    def page() -> str:
        options = [f"{int(request.form['option']) + i} degrees" for i in range(4)]
        return template.render(title="Floor", ticks=ticks, options=options)

    @application.post("/answer")
    def answer() -> str:
        connection = connected((getpid(), get_ident()))
        connection.execute("BEGIN IMMEDIATE")
        connection.execute("INSERT INTO attempt (student, family, correct) VALUES (1, 'floor', 1)")
        connection.execute("UPDATE mastery SET n = n + 1, k = k + 1 WHERE student = 1")
        connection.execute("COMMIT")
        return page()

    yield application
    for connection in opened:
        connection.close()


def poster(application: Flask, path: str) -> Callable[[], bytes]:
    """Return an act that posts one small form straight into the application, without a client or a server."""

    def post() -> bytes:
        body = b"option=2"
        environ: dict[str, Any] = {
            "REQUEST_METHOD": "POST",
            "PATH_INFO": path,
            "SERVER_NAME": "localhost",
            "SERVER_PORT": "80",
            "SERVER_PROTOCOL": "HTTP/1.1",
            "CONTENT_TYPE": "application/x-www-form-urlencoded",
            "CONTENT_LENGTH": str(len(body)),
            "wsgi.url_scheme": "http",
            "wsgi.input": BytesIO(body),
            "wsgi.errors": StringIO(),
        }
        return b"".join(application.wsgi_app(environ, lambda _status, _headers, _error=None: lambda _data: None))

    return post
