"""Nobody reaches what is another's: by no address, with no id in a form, and not even to learn whether it exists."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any
from uuid import UUID, uuid4

import pytest
from flask import Flask
from sqlalchemy import select
from werkzeug.routing import Rule

from app.services.actor import Role
from app.services.own_library import family_id
from app.storage.base import Base, table_of
from app.storage.models import DrillItem, SignIn
from app.web.access import roles_by_endpoint
from tests.pages import Page
from tests.web.browsing import Browser
from tests.web.members import OneSchool
from tests.web.own.written import WRITTEN
from tests.web.sets.evening import ASSIGN_FORM, DEFAULTS, SET_FORM, Evening, evening_of

# Parts of an address that are no id of one school's own.
COMMON = {"position": 1, "family_id": "true-to-compass"}
# The log is one's own whatever entry it is asked to end before; tokens and names have tests of their own.
LEFT_OUT = {"before", "topic_id", "syllabus_id", "token", "version", "name"}


@dataclass
class Belongings:
    """What a school has, one of each kind, by the name it has in addresses."""

    evening: Evening
    ids: dict[str, str]

    @property
    def fields(self) -> dict[str, Any]:
        """What some form or other would accept, with the ids of this school."""
        said = {"name": "Mine", "text": "Mine", "reason": "Mine", "answer": "Mine", "title": "Mine", "remark": "Mine"}
        chosen = {
            "role": "instructor",
            "kind": "taught",
            "day": "2026-09-01",
            "minutes": "5",
            "days": "7",
            "count": "6",
        }
        due = {"due_day": "2026-09-09", "due_time": "17:00", "time_zone": "America/Toronto"}
        those = {"person": self.ids["person_id"], "class": self.ids["class_id"], "names": "Mallory", "login": "alice"}
        return WRITTEN | said | chosen | due | those | {"version": "1", "family": "true-to-compass", "deed": "marked"}

    def rows(self) -> list[Any]:
        """Return all that is stored of the school."""
        uow, found = self.evening.school.backend.uow, []
        with uow.reader() as connection:
            for table in Base.metadata.sorted_tables:
                if "school_id" in table.c:
                    of_school = select(table).where(table.c.school_id == self.evening.school.id)
                    found.append((table.name, sorted(map(repr, connection.execute(of_school)))))
        return found


@pytest.fixture
def theirs(school: OneSchool) -> Belongings:
    """A school with a class, a set that was assigned and begun, a report, an own exam profile, an invitation."""
    evening = evening_of(school)
    selma = school.browser_of(school.add(Role.SCHOOL, "Selma"))
    set_address = evening.make_conversions()
    evening.assign(set_address)
    assignment = evening.ingrid.address
    evening.alice.submit(evening.alice.get_page("/sets"), {}, "//form[contains(@action, '/sittings')]")
    drill = evening.alice.address.partition("/questions")[0]
    uow = school.backend.uow
    with uow.reader() as connection:
        of_school = table_of(DrillItem).c.school_id == school.id
        item_id = connection.execute(select(table_of(DrillItem).c.id).where(of_school)).scalars().first()
        signed_in = table_of(SignIn).c
        mine = select(signed_in.id).where(signed_in.person_id == UUID(evening.alice_id))
        sign_in_id = connection.execute(mine).scalars().first()
    report = evening.alice.get_page(f"/items/{item_id}/report")
    evening.alice.submit(report, {"text": "Wrong."}, "//main//form")
    evening.alice.submit(evening.alice.get_page("/rehearsals"), {}, "//form[@action='/rehearsals']")
    rehearsal = evening.alice.address
    selma.submit(selma.get_page("/school/exam-profiles"), {}, "//form[@action='/school/exam-profiles']")
    profile = selma.address
    invited = {"remark": "Otto", "role": "instructor"}
    page = selma.submit(selma.get_page("/school/invitations"), invited, "//form[@action='/school/invitations']")
    evening.ingrid.submit(evening.ingrid.get_page("/own-questions/new"), WRITTEN, "//form[@action='/own-questions']")
    addresses = {
        "question_id": evening.ingrid.address,
        "set_id": set_address,
        "assignment_id": assignment,
        "drill_id": drill,
        "rehearsal_id": rehearsal.partition("/questions")[0],
        "profile_id": profile,
        "invitation_id": page.find("//tbody//form/@action")[0].removesuffix("/take-back"),
        "report_id": selma.get_page("/school/reports").find("//tbody//a/@href")[0],
    }
    ids = {name: address.rpartition("/")[2] for name, address in addresses.items()}
    ids |= {"class_id": evening.class_id, "person_id": evening.alice_id}
    return Belongings(evening, ids | {"item_id": str(item_id), "sign_in_id": str(sign_in_id)})


def asked(app: Flask, role: Role, ids: dict[str, Any]) -> Iterator[tuple[str, str]]:
    """Yield method and address of everything open to a role whose address names something of a school."""
    open_to, adapter = roles_by_endpoint(app), app.url_map.bind("localhost")
    for rule in app.url_map.iter_rules():
        if named(rule) and role in open_to[rule.endpoint]:
            parts = {name: (ids | COMMON)[name] for name in rule.arguments}
            for method in (rule.methods or set()) & {"GET", "POST"}:
                yield method, adapter.build(rule.endpoint, parts, method)


def named(rule: Rule) -> bool:
    """Return whether an address names something that belongs to one school."""
    return bool(rule.arguments - COMMON.keys()) and not rule.arguments & LEFT_OUT


def answer_to(browser: Browser, method: str, address: str, fields: dict[str, Any]) -> tuple[int, str]:
    """Return the status and the words of what comes, or where one is sent to."""
    family = {} if "?" in address else {"query_string": {"family": "true-to-compass"}}
    sent = browser.get(address, **family) if method == "GET" else browser.post(address, fields)
    if sent.location:
        return sent.status_code, sent.location
    text = sent.get_data(as_text=True)
    return sent.status_code, Page(text).words("//main") if sent.mimetype == "text/html" else text


STRANGERS = [*((role, "elsewhere") for role in (Role.SCHOOL, Role.INSTRUCTOR, Role.STUDENT)), (Role.STUDENT, "here")]


@pytest.mark.parametrize(("role", "place"), STRANGERS)
def test_to_strangers_it_is_as_if_it_did_not_exist(
    app: Flask, theirs: Belongings, other_school: OneSchool, role: Role, place: str
) -> None:
    at = theirs.evening.school if place == "here" else other_school
    dora = at.browser_of(at.add(role, "Dora"))
    fields = theirs.fields | {"csrf_token": dora.get_page("/").token}
    before = theirs.rows()
    nothing = dict.fromkeys(theirs.ids, uuid4())
    reached = list(zip(asked(app, role, theirs.ids), asked(app, role, nothing), strict=True))
    assert len(reached) > 10
    for (method, address), (_, nowhere) in reached:
        status, said = answer_to(dora, method, address, fields)
        assert (method, address, status) == (method, address, 404)
        assert (404, said) == answer_to(dora, method, nowhere, fields), address
    assert theirs.rows() == before


@pytest.mark.parametrize("name", ["class_id", "person_id", "assignment_id"])
def test_a_colleague_who_does_not_teach_the_class_is_refused(app: Flask, theirs: Belongings, name: str) -> None:
    school = theirs.evening.school
    otto = school.browser_of(school.add(Role.INSTRUCTOR, "Otto"))
    fields = theirs.fields | {"csrf_token": otto.get_page("/classes").token}
    before = theirs.rows()
    reached = [each for each in asked(app, Role.INSTRUCTOR, theirs.ids) if theirs.ids[name] in each[1]]
    assert len(reached) > 3
    for method, address in reached:
        assert (method, address, answer_to(otto, method, address, fields)[0]) == (method, address, 403)
    assert theirs.rows() == before


def test_ids_of_another_school_in_forms_of_the_own_are_as_unknown_ones(
    theirs: Belongings, other_school: OneSchool
) -> None:
    dora, carol = other_school.add(Role.SCHOOL, "Dora"), other_school.add(Role.STUDENT, "Carol")
    klass = f"/classes/{other_school.add_class('Day', other_school.add(Role.INSTRUCTOR, 'Olga'), carol)}"
    browser = other_school.browser_of(dora)
    person, topic_set, assignment = f"/people/{carol.id}", *given(browser, klass)
    ids = theirs.ids
    asks: list[tuple[str, str, dict[str, Any]]] = [
        ("POST", f"{klass}/teachers", {"person": ids["person_id"]}),
        ("POST", f"{klass}/teachers/{ids['person_id']}/remove", {}),
        ("POST", f"{klass}/students/{ids['person_id']}/remove", {}),
        ("POST", f"{klass}/students/{carol.id}/move", {"class": ids["class_id"]}),
        ("POST", f"{klass}/rechecks", {"set": ids["set_id"], "family": "true-to-compass", "title": "X", "count": "3"}),
        ("GET", f"{klass}/weak-spots?set={ids['set_id']}", {}),
        ("GET", f"{klass}/rechecks/new?family=true-to-compass&set={ids['set_id']}", {}),
        ("POST", f"{person}/leave", {"successor": ids["person_id"]}),
        ("POST", f"{topic_set}/assignments", {"class": ids["class_id"], "due_day": "", "due_time": ""}),
        ("POST", f"{topic_set}/assignments", {"person": ids["person_id"], "due_day": "", "due_time": ""}),
        ("POST", f"{assignment}/extensions", {"person": ids["person_id"], "due_day": "2026-09-30"}),
        ("GET", f"/topic-sets/new?like={ids['set_id']}", {}),
        ("GET", f"/school/cohorts?class={ids['class_id']}&class={klass.rpartition('/')[2]}", {}),
        ("POST", "/school/cohorts/table", {"class": [ids["class_id"], klass.rpartition("/")[2]]}),
        ("POST", "/school/exam-profiles", {"profile": ids["profile_id"]}),
        ("GET", f"/readiness?profile={ids['profile_id']}", {}),
        ("POST", "/rehearsals", {"profile": ids["profile_id"]}),
        ("GET", f"/school/quality/{family_id(UUID(ids['question_id']))}", {}),
        ("GET", f"{klass}/weak-spots/{family_id(UUID(ids['question_id']))}", {}),
        ("POST", "/drills", {"family": family_id(UUID(ids["question_id"])), "length": "1"}),
    ]
    token, before = {"csrf_token": browser.get_page("/classes").token}, theirs.rows()
    for method, address, fields in asks:
        unknown = {each: str(uuid4()) for each in ids.values()}
        unknown |= {UUID(each).hex: UUID(other).hex for each, other in unknown.items()}
        nowhere, nobody = renamed(address, unknown), {name: renamed(value, unknown) for name, value in fields.items()}
        found = answer_to(browser, method, address, token | fields)
        none = answer_to(browser, method, nowhere, token | nobody)
        assert (address, found[0], renamed(found[1], unknown)) == (address, *none)
    assert theirs.rows() == before


def given(browser: Browser, klass: str) -> tuple[str, str]:
    """Make a set and assign it to a class; return the addresses of both."""
    page = browser.get_page("/topic-sets/new")
    browser.submit(page, DEFAULTS | {"topics": ["datum"], "count": "2"}, SET_FORM)
    topic_set = browser.address
    due = {"class": klass.rpartition("/")[2], "due_day": "2026-09-04", "due_time": "17:00"}
    browser.submit(browser.get_page(f"{topic_set}/assign"), due, ASSIGN_FORM)
    return topic_set, browser.address


def renamed(value: Any, names: dict[str, str]) -> Any:
    """Return a value, or each of a list, with other names in it."""
    if isinstance(value, list):
        return [renamed(each, names) for each in value]
    for old, new in names.items():
        value = value.replace(old, new)
    return value
