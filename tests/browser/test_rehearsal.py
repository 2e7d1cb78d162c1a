"""A rehearsal in a browser: flag, change, come back after a lost connection, time out by itself; looked at by axe."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from flask import Flask
from playwright.sync_api import Page, expect

from app.services.actor import Role
from app.web.current import NAME
from tests.browser.conftest import Axe
from tests.browser.practising import assert_fits, fill_in, follow
from tests.browser.windows import NARROW, WIDE, Opener, View
from tests.web.members import PASSWORD, OneSchool

UK = "form:has(input[value=uk-navigation]) button"
VIEWS = {"wide": WIDE, "narrow-dark-french": NARROW}


@pytest.fixture
def forward(served: Flask) -> Iterator[Callable[[timedelta], None]]:
    """Set the server's clock forward, for this test."""
    backend = served.extensions[NAME]

    def set_forward(step: timedelta) -> None:
        served.extensions[NAME] = replace(backend, clock=lambda: datetime.now(UTC) + step)

    yield set_forward
    served.extensions[NAME] = backend


def start(page: Page) -> str:
    """Start the paper of twelve questions and return its address."""
    page.goto("/rehearsals")
    follow(page, UK)
    return page.url


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
def test_walk(open_page: Opener, axe: Axe, view: View) -> None:
    page = open_page(view)
    address = start(page)
    assert not axe.faults(page)
    assert_fits(page)
    follow(page, "main ol li:first-child a")
    assert not axe.faults(page)
    assert_fits(page)
    fill_in(page)
    follow(page, "#answer button[name=flag]")
    expect(page.locator("#answer input:checked")).to_have_count(1)
    follow(page, "#answer button.button:not([name])")
    assert page.url.endswith("/questions/2")
    again = page.context.new_page()  # the connection was lost, the browser is opened anew
    again.goto(address + "/questions/1")
    expect(again.locator("#answer input:checked")).to_have_value("0")
    again.locator("#answer input").nth(1 + again.locator("#answer input[type=hidden]").count()).check()
    follow(again, "#answer button.button:not([name])")
    again.goto(address + "/questions/1")
    expect(again.locator("#answer input:checked")).to_have_value("1")
    again.close()
    page.goto(address)
    expect(page.locator("#end button")).to_be_hidden()  # eleven are open: one click too early does not end it
    page.locator("summary").click()
    assert not axe.faults(page)
    follow(page, "#end button")
    assert page.locator("main table").count() == 1
    assert not axe.faults(page)
    assert_fits(page)


def test_answer_sent_while_the_connection_is_lost_is_there_again(open_page: Opener) -> None:
    page = open_page(View(alone=True))
    asked = start(page) + "/questions/1"
    page.goto(asked)
    page.locator("#answer .options input").nth(2).check()
    page.context.set_offline(True)
    page.locator("#answer button.button:not([name])").click()
    page.wait_for_url("chrome-error://**")
    page.context.set_offline(False)
    page.goto(asked)
    expect(page.locator("#answer .options input").nth(2)).to_be_checked()


def test_time_runs_out_by_itself(open_page: Opener, forward: Callable[[timedelta], None]) -> None:
    page = open_page(WIDE)
    address = start(page)
    page.goto(address + "/questions/1")
    fill_in(page)
    follow(page, "#answer button.button:not([name])")
    expect(page.locator(".time-left")).to_contain_text("44:")
    forward(timedelta(minutes=44, seconds=50))
    page.reload()
    expect(page.locator(".time-left")).to_contain_text("0:0")
    page.locator("#answer .options input").first.check()  # and nothing pressed
    page.wait_for_url(address, timeout=20_000)
    expect(page.locator("main table")).to_be_visible()
    expect(page.locator("main ol a", has_text="no answer")).to_have_count(10)


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
def test_profile_of_a_school(open_page: Opener, axe: Axe, school: OneSchool, view: View) -> None:
    school.add(Role.SCHOOL, "Selma", view.language)
    page = open_page(view)
    page.goto("/sign-in")
    for name, value in (("school", school.code), ("login", "selma"), ("password", PASSWORD)):
        page.locator(f"input[name={name}]").fill(value)
    follow(page, "form[action='/sign-in'] button.button")
    page.goto("/school/exam-profiles")
    assert not axe.faults(page)
    assert_fits(page)
    follow(page, UK)
    assert not axe.faults(page)
    assert_fits(page)
