"""Who writes own questions, and who releases them."""

import pytest

from app.services.actor import Role
from tests.web.browsing import Browser
from tests.web.members import OneSchool


@pytest.fixture
def selma(school: OneSchool) -> Browser:
    return school.browser_of(school.add(Role.SCHOOL, "Selma"))


@pytest.fixture
def ingrid(school: OneSchool) -> Browser:
    return school.browser_of(school.add(Role.INSTRUCTOR, "Ingrid"))
