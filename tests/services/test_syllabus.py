import pytest

from app.packs.spec import typeset
from app.services.errors import NotFound
from app.services.syllabus import get_syllabus, list_syllabuses
from tests.questions.engine import library


@pytest.mark.parametrize("syllabus_id", [each.id for each in library().syllabuses.syllabuses])
def test_each_line_names_the_families_that_serve_it(syllabus_id: str) -> None:
    view = get_syllabus(library(), syllabus_id, "en")
    tag = {"ca-rpp": "ca-ppl"}.get(syllabus_id, syllabus_id)  # the permit's own guide was not seen
    serving = {(line.name, family.id) for line in view.lines for family in line.families}
    stated = {line.name for line in view.lines}
    wanted = {
        (printed, family.id)
        for family in library().families.values()
        for printed in map(typeset, family.syllabus.get(tag, ()))
        if printed in stated
    }
    assert serving == wanted
    assert {line.name for line in view.unserved} == {line.name for line in view.lines} - {name for name, _ in wanted}


def test_seven_syllabuses_in_either_language() -> None:
    assert len(list_syllabuses(library(), "en")) == 7
    assert get_syllabus(library(), "ca-ppl", "fr").title == "Canada, pilote privé"


def test_unknown_syllabus_is_not_found() -> None:
    with pytest.raises(NotFound):
        get_syllabus(library(), "ca-atpl", "en")
