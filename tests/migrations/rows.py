"""Rows for a database at a revision, written without the models: these change, a released revision does not."""

from uuid import uuid4

from sqlalchemy import Engine, inspect, text

MOMENT = "2026-09-01 14:30:00.000000"
SCHOOLS = ("One", "Two")
Row = tuple[str, dict[str, object]]


def drawn(seed: int) -> dict[str, object]:
    return {
        "family": "true-to-compass",
        "family_version": 1,
        "pack": "datum",
        "pack_version": 1,
        "seed": seed,
        "form": "typed",
    }


def school_rows(name: str) -> list[Row]:
    """A school with a visit, a drill, two items, an answer and a report."""
    school, visit, drill, item, other = (uuid4().hex for _ in range(5))
    of: dict[str, object] = {"school_id": school}
    json: dict[str, object] = dict.fromkeys(("parameters", "conventions", "shown", "answer"), "{}")
    marks = {"correct": False, "share": 0.0, "misconceptions": '["added-east"]', "first_misconception": "added-east"}
    times = dict.fromkeys(("created_at", "seen_at", "idle_until", "ends_at"), MOMENT)
    rules: dict[str, object] = dict.fromkeys(("conventions", "retention", "bars"), "{}")
    later = {
        "code": name.lower(),
        "language": "en",
        "time_zone": "UTC",
        "demonstration": False,
        "version": 1,
        "own_revision": 0,
    }
    return [
        ("school", rules | later | {"id": school, "name": name, "created_at": MOMENT}),
        ("visit", of | times | {"id": visit, "token_hash": visit, "language": "en", "conventions": "{}"}),
        (
            "drill",
            of | {"id": drill, "visit_id": visit, "purpose": "practice", "seed": 1, "conventions": "{}"}
            | {"started_at": MOMENT},
        ),
        ("drill_item", of | drawn(1) | {"id": item, "drill_id": drill, "position": 1}),
        ("drill_item", of | drawn(2) | {"id": other, "drill_id": drill, "position": 2}),
        (
            "attempt",
            of | drawn(1) | json | marks
            | {"id": uuid4().hex, "drill_item_id": item, "visit_id": visit, "ask": "compass", "answered_at": MOMENT},
        ),
        (
            "report",
            of | {"id": uuid4().hex, "drill_item_id": item, "visit_id": visit, "family": "true-to-compass"}
            | {"item": "{}", "text": "The card is upside down.", "language": "en", "created_at": MOMENT},
        ),
    ]  # fmt: skip


def school_with_visit(name: str, code: str) -> tuple[dict[str, object], str, list[Row]]:
    """A school of its own and a visit in it: what its rows share, the visit, and the two rows."""
    school, visit = uuid4().hex, uuid4().hex
    rules: dict[str, object] = dict.fromkeys(("conventions", "retention", "bars"), "{}")
    first = {
        "code": f"{code}-{name}",
        "language": "en",
        "time_zone": "UTC",
        "demonstration": False,
        "version": 1,
        "own_revision": 0,
    }
    times = dict.fromkeys(("created_at", "seen_at", "idle_until", "ends_at"), MOMENT)
    of: dict[str, object] = {"school_id": school}
    return (
        of,
        visit,
        [
            ("school", rules | first | {"id": school, "name": name, "created_at": MOMENT}),
            ("visit", of | times | {"id": visit, "token_hash": visit, "language": "en", "conventions": "{}"}),
        ],
    )


def people_rows(name: str) -> list[Row]:
    """A school with one of everything that came with people and classes."""
    person, school_class = uuid4().hex, uuid4().hex
    of, visit, first = school_with_visit(name, "people")
    times = dict.fromkeys(("created_at", "seen_at", "idle_until", "ends_at"), MOMENT)
    code = {"created_at": MOMENT, "expires_at": MOMENT}
    in_class = of | {"class_id": school_class, "person_id": person}
    return [
        *first,
        (
            "person",
            of | {"id": person, "visit_id": visit, "role": "student", "name": "Alice", "login": "alice"}
            | {"created_at": MOMENT},
        ),
        ("sign_in", of | times | {"id": uuid4().hex, "person_id": person, "token_hash": person, "device": ""}),
        ("one_time_code", of | code | {"id": uuid4().hex, "person_id": person, "code_hash": "x"}),
        ("invitation", of | code | {"id": uuid4().hex, "role": "instructor", "note": "", "token_hash": person}),
        ("throttle", of | {"kind": "account", "subject": "x", "failures": 1, "began_at": MOMENT}),
        ("school_class", of | {"id": school_class, "name": "Evening", "version": 1, "created_at": MOMENT}),
        ("class_instructor", in_class | {"added_at": MOMENT}),
        ("enrolment", in_class | {"joined_at": MOMENT}),
        (
            "audit_entry",
            of | {"id": uuid4().hex, "noted_at": MOMENT, "actor_name": "Alice", "action": "signed-in"}
            | {"subject": "Alice", "details": "{}"},
        ),
    ]  # fmt: skip


def topic_set_rows(name: str) -> list[Row]:
    """A school whose student sat a topic set."""
    person, drill, topic_set, assignment = (uuid4().hex for _ in range(4))
    of, visit, first = school_with_visit(name, "sets")
    of_set, given = of | {"topic_set_id": topic_set}, of | {"assignment_id": assignment, "person_id": person}
    made = {"title": "Turns", "note": "", "made_by": person, "wish": "{}", "conventions": "{}", "seed": 1}
    how = {"numbers": "same", "reveal": "at-end", "attempts_allowed": 1, "version": 1}
    return [
        *first,
        (
            "person",
            of | {"id": person, "visit_id": visit, "role": "student", "name": "Alice", "login": "alice"}
            | {"created_at": MOMENT},
        ),
        (
            "drill",
            of | {"id": drill, "visit_id": visit, "purpose": "set", "seed": 1, "conventions": "{}"}
            | {"started_at": MOMENT},
        ),
        ("topic_set", of | made | how | {"id": topic_set, "created_at": MOMENT, "changed_at": MOMENT}),
        ("topic_set_item", of_set | drawn(1) | {"id": uuid4().hex, "position": 1, "chosen_at": MOMENT}),
        ("pass_mark", of_set | {"id": uuid4().hex, "percent": 70, "set_by": person, "set_at": MOMENT}),
        (
            "assignment",
            of_set | {"id": assignment, "time_zone": "UTC", "assigned_by": person, "assigned_at": MOMENT},
        ),
        ("assigned_person", given | {"assigned_at": MOMENT}),
        ("extension", given | {"due_at": MOMENT, "granted_by": person, "granted_at": MOMENT}),
        ("sitting", given | {"id": uuid4().hex, "number": 1, "drill_id": drill, "started_at": MOMENT}),
    ]  # fmt: skip


def tally_rows(name: str) -> list[Row]:
    """A visit of a school that answered once."""
    of, visit, first = school_with_visit(name, "tally")
    counts = {"answers": 1, "correct": 1, "timed": 0, "took_ms": 0, "changed_at": MOMENT}
    return [
        *first,
        ("week_tally", of | counts | {"visit_id": visit, "family": "true-to-compass", "week": "2026-08-31"}),
    ]


def erased_rows(name: str) -> list[Row]:
    """Counts left behind in a school."""
    of, _, first = school_with_visit(name, "erased")
    counts = {"answers": 1, "correct": 1, "timed": 0, "took_ms": 0, "changed_at": MOMENT}
    return [*first, ("erased_tally", of | counts | {"family": "true-to-compass", "week": "2026-08-31"})]


def training_rows(name: str) -> list[Row]:
    """A student with an entry in the training record."""
    of, visit, first = school_with_visit(name, "training")
    person = uuid4().hex
    who = {"id": person, "visit_id": visit, "role": "student", "name": "Alice", "login": "alice", "created_at": MOMENT}
    entry = {
        "id": uuid4().hex,
        "person_id": person,
        "kind": "note",
        "day": "2026-09-01",
        "text": "Good.",
        "details": "{}",
    }
    by = {"made_by": person, "made_by_name": "Ingrid", "initials": "I", "made_at": MOMENT}
    return [*first, ("person", of | who), ("training_entry", of | entry | by)]


def learner_rows(name: str) -> list[Row]:
    """A visit of which the learner model knows something."""
    of, visit, first = school_with_visit(name, "learner")
    of_visit = of | {"visit_id": visit, "mean": 0.25, "variance": 0.5, "changed_at": MOMENT}
    counts = {"answers": 1, "correct": 1, "typed_right": 0, "best": 0.2, "since_gain": 0, "mastered": False}
    texts = {"typed_right_days": "[]", "misconceptions": "{}", "met": "{}"}
    return [
        *first,
        ("learner", of_visit),
        ("learner_skill", of_visit | counts | texts | {"family": "true-to-compass", "last_at": MOMENT}),
    ]


def quality_rows(name: str) -> list[Row]:
    """A school whose questions were counted, and a set of it."""
    of, _, first = school_with_visit(name, "quality")
    topic_set = uuid4().hex
    made = {"title": "Turns", "note": "", "made_by": uuid4().hex, "wish": "{}", "conventions": "{}", "seed": 1}
    how = {"numbers": "same", "reveal": "at-end", "attempts_allowed": 1, "version": 1}
    sums = dict.fromkeys(("answers", "correct", "timed", "took_ms", "rest_answers", "rest_correct"), 1)
    rest = dict.fromkeys(("rest_sum", "rest_squares", "rest_products"), 0.5)
    texts = dict.fromkeys(("times", "offered", "chosen", "unmatched"), "{}")
    return [
        *first,
        ("topic_set", of | made | how | {"id": topic_set, "created_at": MOMENT, "changed_at": MOMENT}),
        ("family_quality", of | sums | rest | texts | {"family": "true-to-compass", "counted_at": MOMENT}),
        ("quality_run", of | {"last_attempt_id": uuid4().hex, "ran_at": MOMENT}),
        (
            "set_quality",
            of | {"topic_set_id": topic_set, "students": 5, "model": "", "items": "[]", "counted_at": MOMENT},
        ),
    ]  # fmt: skip


def rehearsal_rows(name: str) -> list[Row]:
    """A school's own exam profile, and a visit that rehearses an exam."""
    of, visit, first = school_with_visit(name, "rehearsal")
    drill, item = uuid4().hex, uuid4().hex
    return [
        *first,
        ("exam_profile", of | {"id": uuid4().hex, "profile": "{}", "version": 1, "created_at": MOMENT}
         | {"changed_at": MOMENT}),
        ("drill", of | {"id": drill, "visit_id": visit, "purpose": "rehearsal", "seed": 1, "conventions": "{}"}
         | {"started_at": MOMENT}),
        ("drill_item", of | drawn(1) | {"id": item, "drill_id": drill, "position": 1}),
        ("rehearsal", of | {"id": uuid4().hex, "drill_id": drill, "profile": "{}", "counts": "{}", "strict": True}
         | {"started_at": MOMENT, "ends_at": MOMENT}),
        ("rehearsal_draft", of | {"drill_item_id": item, "fields": "{}", "flagged": False, "changed_at": MOMENT}),
    ]  # fmt: skip


def withdrawal_rows(name: str) -> list[Row]:
    """A school that withdrew a kind of question."""
    of, _, first = school_with_visit(name, "withdrawal")
    row = {"family": "true-to-compass", "version": 1, "reason": "Wrong key.", "withdrawn_by": "Selma"}
    return [*first, ("withdrawal", of | row | {"withdrawn_at": MOMENT})]


def regraded_rows(name: str) -> list[Row]:
    """A visit with an attempt that was marked again."""
    of, visit, first = school_with_visit(name, "regraded")
    marks = {"old_correct": False, "old_share": 0.0, "old_misconceptions": "[]"}
    marks |= {"new_correct": True, "new_share": 1.0, "new_misconceptions": "[]"}
    ids = {"id": uuid4().hex, "attempt_id": uuid4().hex, "visit_id": visit, "family": "true-to-compass"}
    return [
        *first,
        ("regraded_attempt", of | ids | marks | {"regraded_by": "Selma", "regraded_at": MOMENT, "deed": "marked"}),
    ]


def recheck_rows(name: str) -> list[Row]:
    """A topic set made from a weak spot for one student."""
    person, topic_set, school_class = (uuid4().hex for _ in range(3))
    of, visit, first = school_with_visit(name, "recheck")
    who = {"id": person, "visit_id": visit, "role": "student", "name": "Alice", "login": "alice", "created_at": MOMENT}
    made = {"title": "Signs", "note": "", "made_by": person, "wish": "{}", "conventions": "{}", "seed": 1}
    how = {"numbers": "same", "reveal": "at-end", "attempts_allowed": 1, "version": 1}
    about = {"class_id": school_class, "family": "true-to-compass", "misconception": "v-sign", "students": 7}
    of_set = of | {"topic_set_id": topic_set}
    return [
        *first,
        ("person", of | who),
        ("school_class", of | {"id": school_class, "name": "Evening", "version": 1, "created_at": MOMENT}),
        ("topic_set", of | made | how | {"id": topic_set, "created_at": MOMENT, "changed_at": MOMENT}),
        ("recheck", of_set | about | {"made_at": MOMENT}),
        ("recheck_person", of_set | {"person_id": person, "chance": 0.9, "answers": 4, "correct": 1}),
    ]


def measured_rows(name: str) -> list[Row]:
    """A school with a measured difficulty."""
    of, _, first = school_with_visit(name, "measured")
    row = {"family": "true-to-compass", "difficulty": '{"plain": 0.4, "weights": {}}', "error": 0.2, "answers": 90}
    return [*first, ("measured_difficulty", of | row | {"learners": 12, "measured_at": MOMENT})]


def own_question_rows(name: str) -> list[Row]:
    """A school with a question of its own, released once."""
    of, _, first = school_with_visit(name, "own")
    question, person = uuid4().hex, uuid4().hex
    version = {"question_id": question, "version": 1, "edits": 0, "body": "{}", "note": "", "written_by": person}
    return [
        *first,
        ("own_question", of | {"id": question, "made_by": person, "made_at": MOMENT}),
        ("own_version", of | version | {"written_at": MOMENT, "released_by": person, "released_at": MOMENT}),
    ]


ROWS = {
    "0001_drills": school_rows,
    "0002_people": people_rows,
    "0003_topic_sets": topic_set_rows,
    "0004_tallies": tally_rows,
    "0005_learners": learner_rows,
    "0007_erased_tally": erased_rows,
    "0010_training": training_rows,
    "0008_quality": quality_rows,
    "0009_rehearsals": rehearsal_rows,
    "0011_withdrawals": withdrawal_rows,
    "0012_regraded": regraded_rows,
    "0013_rechecks": recheck_rows,
    "0015_measured": measured_rows,
    "0016_own_questions": own_question_rows,
}


def fill(engine: Engine, revision: str) -> None:
    """Add rows to the tables that came with a revision; columns that came later are filled where they are there."""
    if revision not in ROWS:
        return
    columns = columns_of(engine)
    with engine.begin() as connection:
        for school in SCHOOLS:
            for table, wished in ROWS[revision](school):
                row = {name: value for name, value in wished.items() if name in columns[table]}
                names, places = ", ".join(row), ", ".join(f":{name}" for name in row)
                connection.execute(text(f"INSERT INTO {table} ({names}) VALUES ({places})"), row)  # noqa: S608 - ours


def columns_of(engine: Engine) -> dict[str, set[str]]:
    """Return the names of the columns of every table."""
    found = inspect(engine)
    return {table: {column["name"] for column in found.get_columns(table)} for table in found.get_table_names()}


def count_rows(engine: Engine) -> dict[str, int]:
    """Return how many rows every table has."""
    with engine.connect() as connection:
        names = [name for name in inspect(connection).get_table_names() if name != "alembic_version"]
        return {name: connection.scalar(text(f"SELECT count(*) FROM {name}")) for name in names}  # noqa: S608 - ours
