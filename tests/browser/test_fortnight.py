"""A fortnight of practice in a browser, by a clock that moves only when told."""

import shutil
import threading
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from uuid import UUID

import pytest
from flask import Flask
from playwright.sync_api import Browser, Page, expect
from werkzeug.serving import make_server

from app.web.factory import running
from app.web.settings import Settings
from tests.browser.practising import assert_fits, follow
from tests.fakes import Clock, PlainHasher, Seeds
from tests.questions.replies import right_answer, wrong_answer
from tests.web.student.answers import item_by_id

DAYS_OF_PRACTICE = (0, 1, 2, 4, 7, 10, 13)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def timed(migrated: Path, tmp_path: Path, clock: Clock) -> Iterator[Flask]:
    database = Path(shutil.copy(migrated, tmp_path / "lubberline.sqlite3"))
    with running(Settings(tmp_path, database, b"k" * 32), clock, Seeds(), PlainHasher()) as app:
        yield app


@pytest.fixture
def page(timed: Flask, chromium: Browser) -> Iterator[Page]:
    """A phone in the dark, before an application whose clock stands still."""
    server = make_server("127.0.0.1", 0, timed, threaded=True)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    context = chromium.new_context(
        base_url=f"http://127.0.0.1:{server.port}",
        viewport={"width": 320, "height": 800},
        locale="en-CA",
        color_scheme="dark",
        reduced_motion="reduce",
    )
    yield context.new_page()
    context.close()
    server.shutdown()
    thread.join()
    server.server_close()


def fill(page: Page, name: str, value: str) -> None:
    """Set the field of a name to a value, whatever kind of field it is; none where the question has no such field."""
    fields = page.locator(f"#answer [name='{name}']")
    if not fields.count():
        return
    kind = fields.first.evaluate("each => each.type")
    if kind in {"radio", "checkbox"}:
        page.locator(f"#answer [name='{name}'][value='{value}']").check()
    elif kind == "select-one":
        fields.select_option(value)
    else:
        fields.fill(value)


def drill_today(page: Page, app: Flask, clock: Clock, *, rightly: bool) -> int:
    """Do today's drill of five to its summary; return how many questions it had."""
    page.goto("/today")
    assert_fits(page)
    page.locator("input[name=size][value='items 5']").first.check()
    follow(page, "main form:not(.rows form) button.button")
    for number in range(1, 20):
        clock.forward(timedelta(minutes=1))
        item = item_by_id(app, UUID(page.locator("input[name=item]").get_attribute("value")))
        fields = (right_answer if rightly else wrong_answer)(item)
        for name, value in fields.items():
            for each in value if isinstance(value, list) else [value]:
                fill(page, name, str(each))
        follow(page, "#answer button.button")
        expect(page.locator("#verdict")).to_be_visible()
        follow(page, "a.next")
        if page.url.endswith("/summary"):
            return number
    return 0


def test_fortnight(page: Page, timed: Flask, clock: Clock) -> None:
    """Two days of misses, then right answers: the plan brings what is due, the record clears."""
    mistakes, days = [], DAYS_OF_PRACTICE
    for day, next_day in zip(days, (*days[1:], days[-1] + 1), strict=True):
        assert drill_today(page, timed, clock, rightly=day > 1) == 5
        page.goto("/record")
        assert_fits(page)
        mistakes.append(page.locator("ol.rows a").count())
        clock.forward(timedelta(days=next_day - day))
        page.goto("/today")
        assert page.locator("ul.rows.two li").count() > 0, day
    assert mistakes[1] == 10 > mistakes[-1]
    page.goto("/record")
    expect(page.locator("main > p").first).to_contain_text(f"{5 * (len(days) - 2)} of {5 * len(days)} right")
    assert page.locator("tbody svg.likely").count() == page.locator("tbody tr").count() > 0
