"""What goes with what, and what goes: drills and answers with their visit, reports only with their school."""

from sqlalchemy import Engine, text

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
    counts = count_rows(engine)
    assert counts == {"attempt": 1, "drill": 1, "drill_item": 2, "report": 1, "school": 2, "visit": 1}
