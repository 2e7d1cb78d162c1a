"""What goes with what, and what goes: drills and answers with their visit, reports only with their school."""

import pytest
from sqlalchemy import Engine, text
from sqlalchemy.exc import IntegrityError

from tests.migrations.rows import count_rows, fill


def test_deleted_visit_takes_its_drills_and_answers_but_leaves_reports(engine: Engine) -> None:
    fill(engine, "0001_drills")
    with engine.begin() as connection:
        connection.execute(text("DELETE FROM visit WHERE school_id IN (SELECT id FROM school WHERE name = 'One')"))
    counts = count_rows(engine)
    assert (counts["visit"], counts["drill"], counts["drill_item"], counts["attempt"]) == (1, 1, 2, 1)
    assert counts["report"] == 2


def test_deleted_school_takes_everything_of_its_own(engine: Engine) -> None:
    fill(engine, "0001_drills")
    with engine.begin() as connection:
        connection.execute(text("DELETE FROM school WHERE name = 'One'"))
    counts = {table: count for table, count in count_rows(engine).items() if count}
    assert counts == {"attempt": 1, "drill": 1, "drill_item": 2, "report": 1, "school": 2, "visit": 1}


def test_erased_person_leaves_nothing_but_the_audit_log(engine: Engine) -> None:
    fill(engine, "0003_topic_sets")
    fill(engine, "0002_people")
    with engine.begin() as connection:
        connection.execute(text("DELETE FROM visit WHERE id IN (SELECT visit_id FROM person)"))
    counts = count_rows(engine)
    own = ("person", "sign_in", "one_time_code", "class_instructor", "enrolment", "assigned_person", "sitting", "drill")
    assert {name: counts[name] for name in own} == dict.fromkeys(own, 0)
    assert counts["audit_entry"] == counts["school_class"] == counts["topic_set"] == 2


@pytest.mark.parametrize("change", ["UPDATE audit_entry SET action = 'nothing'", "DELETE FROM audit_entry"])
def test_audit_log_is_only_added_to(engine: Engine, change: str) -> None:
    fill(engine, "0002_people")
    with pytest.raises(IntegrityError, match="only added to"), engine.begin() as connection:
        connection.execute(text(change))
    assert count_rows(engine)["audit_entry"] == 2
