"""A browser for tests: follows what pages say, keeps cookies, and checks every page it gets."""

import re
from collections.abc import Mapping
from itertools import count
from typing import Any

from flask import Flask
from werkzeug.test import TestResponse

from tests.pages import Page

Fields = Mapping[str, Any]


_addresses = count(1)


class Browser:
    """One visitor's browser, on a machine of its own."""

    def __init__(self, app: Flask, language: str = "en", address: str | None = None) -> None:
        self.client = app.test_client()
        self.client.environ_base["REMOTE_ADDR"] = address or f"2001:db8::{next(_addresses):x}"
        self.headers = {"Accept-Language": {"en": "en-CA,en", "fr": "fr-CA,fr;q=0.9"}[language]}
        self.status = 0
        self.address = ""

    def get(self, address: str, **options: Any) -> TestResponse:
        options["headers"] = self.headers | options.get("headers", {})
        return self.client.get(address.partition("#")[0], **options)

    def get_page(self, address: str, status: int = 200) -> Page:
        """Fetch a page, after redirects; it must have this status and hold what every page holds."""
        return self._page(self.get(address, follow_redirects=True), status)

    def post(self, address: str, fields: Fields, **options: Any) -> TestResponse:
        return self.client.post(address, data=fields, headers=self.headers, **options)

    def send(self, address: str, fields: Fields, status: int = 200) -> Page:
        """Post fields as they are and return the page that comes, after redirects."""
        return self._page(self.post(address, fields, follow_redirects=True), status)

    def submit(self, page: Page, fields: Fields, form: str = "//form[@id='answer']", status: int = 200) -> Page:
        """Fill in a form of a page, send it, and return the page that comes."""
        action = page.find(f"{form}/@action")[0]
        return self.send(action, page.fields(form) | dict(fields), status)

    def start_drill(self, *families: str, length: int = 10) -> Page:
        """Start a drill of families and return its first question."""
        page = self.get_page("/topics")
        return self.send("/drills", {"csrf_token": page.token, "family": list(families), "length": str(length)})

    def _page(self, response: TestResponse, status: int) -> Page:
        self.status, self.address = response.status_code, response.request.path
        assert response.status_code == status, (response.status_code, self.address, _heading(response))
        return Page(response.get_data(as_text=True))


def _heading(response: TestResponse) -> str:
    found = re.search(r"<h1>(.*?)</h1>.*?<p>(.*?)</p>", response.get_data(as_text=True), re.DOTALL)
    return ": ".join(found.groups()) if found else ""
