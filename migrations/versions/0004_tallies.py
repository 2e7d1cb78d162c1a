"""Answers counted by week, filled from the attempts there are."""

from collections import Counter
from datetime import timedelta

import sqlalchemy as sa
from alembic import op

revision = "0004_tallies"
down_revision = "0003_topic_sets"
branch_labels = None
depends_on = None

COUNTS = ("answers", "correct", "timed", "took_ms")


def upgrade() -> None:
    tally = op.create_table(
        "week_tally",
        *(sa.Column(name, sa.Uuid(), nullable=False) for name in ("school_id", "visit_id")),
        sa.Column("family", sa.String(), nullable=False),
        sa.Column("week", sa.Date(), nullable=False),
        *(sa.Column(name, sa.Integer(), nullable=False) for name in COUNTS),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint("answers >= 1 AND correct >= 0 AND correct <= answers", name=op.f("ck_week_tally_answers")),
        sa.ForeignKeyConstraint(
            ["school_id", "visit_id"],
            ["visit.school_id", "visit.id"],
            name=op.f("fk_week_tally_visit"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "visit_id", "family", "week", name=op.f("pk_week_tally")),
    )
    fill(tally)


def fill(tally: sa.Table) -> None:
    kinds = {"school_id": sa.Uuid(), "visit_id": sa.Uuid(), "family": sa.String(), "correct": sa.Boolean()}
    kinds |= {"took_ms": sa.Integer(), "answered_at": sa.DateTime(timezone=True)}
    attempt = sa.table("attempt", *(sa.column(name, kind) for name, kind in kinds.items()))
    counts: dict[tuple[object, ...], Counter[str]] = {}
    latest: dict[tuple[object, ...], object] = {}
    query = sa.select(*attempt.c).execution_options(yield_per=1000)
    for row in op.get_bind().execute(query):
        week = row.answered_at.date() - timedelta(days=row.answered_at.weekday())
        key = (row.school_id, row.visit_id, row.family, week)
        more = {"answers": 1, "correct": int(row.correct), "timed": int(row.took_ms is not None)}
        counts.setdefault(key, Counter()).update(more | {"took_ms": row.took_ms or 0})
        latest[key] = row.answered_at
    names = ("school_id", "visit_id", "family", "week")
    rows = [
        dict(zip(names, key, strict=True)) | {name: sums[name] for name in COUNTS} | {"changed_at": latest[key]}
        for key, sums in counts.items()
    ]
    if rows:
        op.bulk_insert(tally, rows)


def downgrade() -> None:
    op.drop_table("week_tally")
