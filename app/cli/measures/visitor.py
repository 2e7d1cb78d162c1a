"""A visitor without a browser or a server: sends requests straight into an application and fills in its forms."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from html.parser import HTMLParser
from http.cookies import SimpleCookie
from io import BytesIO, StringIO
from time import process_time
from urllib.parse import urlencode

from flask import Flask

TYPED = "90"


@dataclass(frozen=True)
class Answered:
    """What came back, and the processor time that the application took for it."""

    status: int
    location: str
    page: str
    cpu_ms: float


@dataclass
class Visitor:
    """Keeps cookies between requests, as a browser does."""

    application: Flask
    cookies: dict[str, str] = field(default_factory=dict)

    def get(self, path: str) -> Answered:
        """Read a page."""
        return self._send("GET", path, b"")

    def post(self, path: str, fields: Mapping[str, str]) -> Answered:
        """Send a form."""
        return self._send("POST", path, urlencode(fields).encode())

    def _send(self, method: str, path: str, body: bytes) -> Answered:
        path, _, query = path.partition("#")[0].partition("?")
        environ = {
            "REQUEST_METHOD": method,
            "PATH_INFO": path,
            "QUERY_STRING": query,
            "SERVER_NAME": "localhost",
            "SERVER_PORT": "80",
            "SERVER_PROTOCOL": "HTTP/1.1",
            "HTTP_HOST": "localhost",
            "HTTP_COOKIE": "; ".join(f"{name}={value}" for name, value in self.cookies.items()),
            "CONTENT_TYPE": "application/x-www-form-urlencoded",
            "CONTENT_LENGTH": str(len(body)),
            "wsgi.url_scheme": "http",
            "wsgi.input": BytesIO(body),
            "wsgi.errors": StringIO(),
        }
        status: list[str] = []
        headers: list[tuple[str, str]] = []

        def start_response(
            line: str, sent: list[tuple[str, str]], _error: object = None, /
        ) -> Callable[[bytes], object]:
            status.append(line)
            headers.extend(sent)
            return lambda _data: None

        started = process_time()
        page = b"".join(self.application.wsgi_app(environ, start_response))
        cpu_ms = (process_time() - started) * 1000
        for name, value in headers:
            if name == "Set-Cookie":
                self.cookies |= {key: morsel.value for key, morsel in SimpleCookie(value).items()}
        return Answered(int(status[0].split()[0]), dict(headers).get("Location", ""), page.decode(), cpu_ms)


class FormReader(HTMLParser):
    """Reads the form that posts to one address, and fills it in: first choices, and one number in every box."""

    def __init__(self, action: str) -> None:
        super().__init__()
        self.action, self.inside, self.select = action, False, ""
        self.fields: dict[str, str] = {}

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take up the form's fields as they come."""
        given = {name: value or "" for name, value in attrs}
        if tag == "form":
            self.inside = given.get("action") == self.action and given.get("method") == "post"
        elif self.inside and tag == "select":
            self.select = given["name"]
        elif self.inside and tag == "option" and given.get("value"):
            self.fields.setdefault(self.select, given["value"])
        elif self.inside and tag == "input":
            self.fields.setdefault(given["name"], TYPED if given.get("type") == "text" else given.get("value", ""))

    def handle_endtag(self, tag: str) -> None:
        """Leave the form."""
        self.inside = self.inside and tag != "form"


def fill_form(page: str, action: str) -> dict[str, str]:
    """Return the fields of the form that posts to `action`, filled in; empty where the page has none."""
    reader = FormReader(action)
    reader.feed(page)
    return reader.fields
