"""A school with many answers, made up in bulk: the tables as they would be after as many, without drawing a question.

Each student answers 500 times over 12 weeks, each week in ten kinds of questions, the next week five kinds further on.
The attempts hold what is counted; the tallies are counted from them, and each skill stands as after some practice.
In every eighth kind of question a third of the students carries a misconception.
"""

import json
import sqlite3
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from app.packs.library import Library

ANSWERS_EACH = 500
CLASS_SIZE = 20
APART = 5  # the class's students stand this far apart among all: their rows lie on other pages of the file
KINDS_A_WEEK, STEP, WEEKS = 10, 5, 12
LAST_MONDAY = date(2026, 8, 31)
MOMENT = "2026-09-01 12:00:00.000000"
FILL = """
INSERT INTO visit (school_id, id, token_hash, language, conventions, created_at, seen_at, idle_until, ends_at)
    SELECT :school, visit, visit, 'en', '{}', :moment, :moment, :moment, :moment FROM pupil;
INSERT INTO person (school_id, id, visit_id, role, name, login, created_at)
    SELECT :school, person, visit, 'student', 'Student ' || n, 'student' || n, :moment FROM pupil;
INSERT INTO enrolment (school_id, class_id, person_id, joined_at)
    SELECT :school, :class, person, :moment FROM pupil WHERE n % :apart = 0 AND n / :apart < :size;
INSERT INTO attempt (school_id, id, drill_item_id, visit_id, family, family_version, pack, pack_version, seed, form,
        ask, parameters, conventions, shown, answer, correct, share, misconceptions, took_ms, answered_at)
    SELECT :school, printf('%032x', n * :each + k), printf('%032x', n * :each + k), visit, family.id, 1, 'pack', 1, k,
        'typed', 'ask', '{}', '{}', '{}', '{}', right, right, '[]', 9000 + (n * 31 + k * 17) % 60000,
        datetime(:monday, '-' || (7 * (k % :weeks)) || ' days', '+' || (k % 120) || ' hours') || '.000000'
    FROM (SELECT n, visit, k, (n * 7919 + k * 104729) % 1000 < 550 + (n % 7) * 50 AS right,
                 (:step * (k % :weeks) + (k / :weeks) % :kinds) % (SELECT count(*) FROM family) AS number
          FROM pupil CROSS JOIN go)
    JOIN family USING (number) ORDER BY n, k;
INSERT INTO week_tally (school_id, visit_id, family, week, answers, correct, timed, took_ms, changed_at)
    SELECT :school, visit_id, family, date(answered_at, '-6 days', 'weekday 1') AS week, count(*), sum(correct),
        count(took_ms), sum(took_ms), :moment
    FROM attempt JOIN pupil ON pupil.visit = visit_id WHERE school_id = :school GROUP BY visit_id, family, week;
INSERT INTO learner (school_id, visit_id, mean, variance, changed_at)
    SELECT :school, visit, (n % 11 - 5) / 5.0, 0.3, :moment FROM pupil;
INSERT INTO learner_skill (school_id, visit_id, family, mean, variance, answers, correct, last_at, typed_right,
        typed_right_days, misconceptions, met, mastered, best, since_gain, changed_at)
    SELECT :school, visit_id, family, 0.1, 0.2, sum(answers), sum(correct), :moment, 3, '["2026-08-30", "2026-08-31"]',
        iif(n % 3, clean, held), iif(n % 3, '{}', met), 0, 0.5, 1, :moment
    FROM week_tally JOIN pupil ON pupil.visit = visit_id JOIN family ON family.id = week_tally.family
    WHERE school_id = :school GROUP BY visit_id, family;
"""


def fill(database: Path, library: Library, of: tuple[str, str], students: range) -> None:
    """Add students, numbered, with all their answers to (school id, class id) as the database writes them."""
    connection = sqlite3.connect(database, isolation_level=None)
    connection.executescript("PRAGMA foreign_keys=OFF; PRAGMA synchronous=OFF; PRAGMA cache_size=-400000;")
    connection.executescript(
        "CREATE TEMP TABLE pupil (n INTEGER PRIMARY KEY, visit TEXT UNIQUE, person TEXT);"
        "CREATE TEMP TABLE go (k INTEGER PRIMARY KEY);"
        "CREATE TEMP TABLE family (number INTEGER PRIMARY KEY, id TEXT UNIQUE, clean TEXT, held TEXT, met TEXT);"
    )
    connection.execute("BEGIN")
    connection.executemany("INSERT INTO pupil VALUES (?, ?, ?)", [(n, _id(1, n), _id(2, n)) for n in students])
    connection.executemany("INSERT INTO go VALUES (?)", [(k,) for k in range(ANSWERS_EACH)])
    connection.executemany("INSERT INTO family VALUES (?, ?, ?, ?, ?)", _families(library))
    names = {"school": of[0], "class": of[1], "moment": MOMENT, "monday": LAST_MONDAY.isoformat()}
    numbers = {"apart": APART, "size": CLASS_SIZE, "each": ANSWERS_EACH, "weeks": WEEKS, "step": STEP}
    for statement in FILL.split(";")[:-1]:
        connection.execute(statement, names | numbers | {"kinds": KINDS_A_WEEK})
    connection.execute("COMMIT")
    connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    connection.close()


def _families(library: Library) -> Sequence[tuple[int, str, str, str, str]]:
    rows = []
    for number, family in enumerate(library.families.values()):
        clean = {each.id: 0.02 for each in family.misconceptions}
        carried = () if number % 8 else family.misconceptions[:1]
        held = clean | {each.id: 0.7 for each in carried}
        met = {each.id: {"times": 2, "last": MOMENT, "highest": 0.8} for each in carried}
        rows.append((number, family.id, json.dumps(clean), json.dumps(held), json.dumps(met)))
    return rows


def _id(kind: int, number: int) -> str:
    return f"{kind:08x}{number:024x}"
