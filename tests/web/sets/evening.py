"""Ingrid's class at her school with Alice and Bob, each in a browser, and what they do with topic sets."""

from dataclasses import dataclass

from app.services.actor import Role
from tests.pages import Page
from tests.web.browsing import Browser
from tests.web.members import OneSchool

SET_FORM = "//form[@action='/topic-sets']"
ASSIGN_FORM = "//form[contains(@action, '/assignments')]"
DEFAULTS = {
    "count": "10",
    "reveal": "at-end",
    "numbers": "same",
    "pass_percent": "70",
    "attempts_allowed": "1",
}


@dataclass
class Evening:
    school: OneSchool
    ingrid: Browser
    alice: Browser
    bob: Browser
    class_id: str
    alice_id: str

    def make(self, **fields: object) -> Page:
        """Make a set through the form; returns the page that comes."""
        page = self.ingrid.get_page("/topic-sets/new")
        return self.ingrid.submit(page, DEFAULTS | {"topics": ["datum"]} | fields, SET_FORM)

    def make_conversions(self, **fields: object) -> str:
        """Make a set of four conversions; returns its address."""
        fixed = "true-to-compass compass-to-true true-to-compass compass-to-true"
        self.make(fixed=fixed, topics=[], title="Conversions", **fields)
        return self.ingrid.address

    def assign(self, address: str, status: int = 200, **fields: object) -> Page:
        page = self.ingrid.get_page(f"{address}/assign")
        known = {"class": self.class_id, "due_day": "2026-09-04", "due_time": "17:00", "time_zone": "America/Toronto"}
        return self.ingrid.submit(page, known | fields, ASSIGN_FORM, status)


def evening_of(school: OneSchool) -> Evening:
    ingrid = school.add(Role.INSTRUCTOR, "Ingrid")
    alice, bob = school.add(Role.STUDENT, "Alice"), school.add(Role.STUDENT, "Bob")
    class_id = school.add_class("Evening", ingrid, alice, bob)
    teaching, first, second = (school.browser_of(each) for each in (ingrid, alice, bob))
    return Evening(school, teaching, first, second, str(class_id), str(alice.id))
