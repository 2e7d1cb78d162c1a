"""Schools with people who can sign in, for tests of pages."""

from dataclasses import dataclass
from itertools import count
from uuid import UUID

from flask import Flask

from app.services.accounts import NewPerson, add_account
from app.services.actor import Role
from app.storage.ids import new_id
from app.storage.models import Person, School, SchoolClass
from app.storage.queries import classes, schools
from app.web.current import NAME, Backend
from tests.fakes import START
from tests.web.browsing import Browser

PASSWORD = "seven quiet compasses"  # noqa: S105 - for tests
_numbers = count(1)


@dataclass(frozen=True)
class OneSchool:
    """A school of one test; every test makes its own in the session's one database."""

    app: Flask
    id: UUID
    code: str

    @property
    def backend(self) -> Backend:
        backend = self.app.extensions[NAME]
        assert isinstance(backend, Backend)
        return backend

    def add(self, role: Role, name: str, language: str = "en") -> Person:
        """Add a person with the tests' password."""
        hashed = f"plain {PASSWORD}"
        new = NewPerson(role, name, name.lower(), language, hashed)  # type: ignore[arg-type] # one of the languages
        with self.backend.uow.writer() as connection:
            return add_account(connection, self.id, new, START)

    def browser_of(self, person: Person, language: str = "en") -> Browser:
        """Sign a person in, through the page, in a browser of their own."""
        browser = Browser(self.app, language)
        page = browser.get_page("/sign-in")
        fields = {"school": self.code, "login": person.login, "password": PASSWORD}
        browser.submit(page, fields, "//form[@action='/sign-in']")
        return browser

    def add_class(self, name: str, teacher: Person, *students: Person) -> UUID:
        """Add a class with its instructor and students."""
        class_id = new_id(START)
        with self.backend.uow.writer() as connection:
            classes.add_class(connection, SchoolClass(self.id, class_id, name, START))
            classes.add_instructor(connection, self.id, class_id, teacher.id, START)
            for student in students:
                classes.add_student(connection, self.id, class_id, student.id, START)
        return class_id


def new_school(app: Flask) -> OneSchool:
    """Add a school to the application's database."""
    number = next(_numbers)
    school = OneSchool(app, new_id(START), f"school-{number}")
    row = School(school.id, school.code, f"School {number}", "en", "America/Toronto", START)
    with school.backend.uow.writer() as connection:
        schools.add_school(connection, row)
    return school
