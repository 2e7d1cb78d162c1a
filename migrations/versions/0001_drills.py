"""Schools, visits, drills, attempts and reports, and the school of people who practise without signing in."""

from datetime import UTC, datetime
from uuid import UUID

import sqlalchemy as sa
from alembic import op

revision = "0001_drills"
down_revision = None
branch_labels = None
depends_on = None

VISITORS = {
    "id": UUID("00000000-0000-4000-8000-000000000001"),
    "name": "visitors",
    "created_at": datetime(2025, 1, 1, tzinfo=UTC),
}


def moment(name: str, *, nullable: bool = False) -> sa.Column:
    return sa.Column(name, sa.DateTime(timezone=True), nullable=nullable)


def key() -> tuple[sa.Column, sa.Column]:
    return sa.Column("school_id", sa.Uuid(), nullable=False), sa.Column("id", sa.Uuid(), nullable=False)


def text(*names: str) -> list[sa.Column]:
    return [sa.Column(name, sa.String(), nullable=False) for name in names]


def number(*names: str) -> list[sa.Column]:
    return [sa.Column(name, sa.Integer(), nullable=False) for name in names]


def parent(table: str, parent_table: str, column: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(
        ["school_id", column],
        [f"{parent_table}.school_id", f"{parent_table}.id"],
        name=f"fk_{table}_{parent_table}",
        ondelete="CASCADE",
    )


def school_of(table: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=f"fk_{table}_school", ondelete="CASCADE")


def upgrade() -> None:
    school = op.create_table(
        "school",
        sa.Column("id", sa.Uuid(), nullable=False),
        *text("name"),
        moment("created_at"),
        sa.PrimaryKeyConstraint("id", name="pk_school"),
    )
    op.bulk_insert(school, [VISITORS])
    create_visit()
    create_drill()
    create_drill_item()
    create_attempt()
    create_report()


def create_visit() -> None:
    op.create_table(
        "visit",
        *key(),
        *text("token_hash", "language"),
        sa.Column("conventions", sa.JSON(), nullable=False),
        moment("created_at"),
        moment("seen_at"),
        moment("idle_until"),
        moment("ends_at"),
        moment("revoked_at", nullable=True),
        sa.CheckConstraint("language IN ('en', 'fr')", name=op.f("ck_visit_language")),
        school_of("visit"),
        sa.PrimaryKeyConstraint("school_id", "id", name="pk_visit"),
    )
    op.create_index("ix_visit_school_id_token_hash", "visit", ["school_id", "token_hash"], unique=True)


def create_drill() -> None:
    op.create_table(
        "drill",
        *key(),
        sa.Column("visit_id", sa.Uuid(), nullable=False),
        sa.Column("topic", sa.String(), nullable=True),
        sa.Column("seed", sa.BigInteger(), nullable=False),
        sa.Column("conventions", sa.JSON(), nullable=False),
        moment("started_at"),
        parent("drill", "visit", "visit_id"),
        sa.PrimaryKeyConstraint("school_id", "id", name="pk_drill"),
    )
    op.create_index("ix_drill_school_id_visit_id_started_at", "drill", ["school_id", "visit_id", "started_at"])


def create_drill_item() -> None:
    op.create_table(
        "drill_item",
        *key(),
        sa.Column("drill_id", sa.Uuid(), nullable=False),
        *number("position"),
        *drawn_from(),
        sa.CheckConstraint("position >= 1", name=op.f("ck_drill_item_position")),
        parent("drill_item", "drill", "drill_id"),
        sa.PrimaryKeyConstraint("school_id", "id", name="pk_drill_item"),
        sa.UniqueConstraint("school_id", "drill_id", "position", name="uq_drill_item_school_id_drill_id_position"),
    )


def drawn_from() -> list[sa.Column]:
    """Columns that say which item it is."""
    return [
        *text("family"),
        *number("family_version"),
        *text("pack"),
        *number("pack_version"),
        sa.Column("seed", sa.BigInteger(), nullable=False),
        *text("form"),
    ]


def create_attempt() -> None:
    op.create_table(
        "attempt",
        *key(),
        sa.Column("drill_item_id", sa.Uuid(), nullable=False),
        sa.Column("visit_id", sa.Uuid(), nullable=False),
        *drawn_from(),
        *text("ask"),
        *[sa.Column(name, sa.JSON(), nullable=False) for name in ("parameters", "conventions", "shown", "answer")],
        sa.Column("correct", sa.Boolean(), nullable=False),
        sa.Column("share", sa.Double(), nullable=False),
        sa.Column("misconceptions", sa.JSON(), nullable=False),
        sa.Column("first_misconception", sa.String(), nullable=True),
        sa.Column("took_ms", sa.Integer(), nullable=True),
        moment("answered_at"),
        sa.CheckConstraint("share >= 0 AND share <= 1", name=op.f("ck_attempt_share")),
        sa.CheckConstraint("took_ms >= 0", name=op.f("ck_attempt_took_ms")),
        parent("attempt", "drill_item", "drill_item_id"),
        sa.PrimaryKeyConstraint("school_id", "id", name="pk_attempt"),
        sa.UniqueConstraint("school_id", "drill_item_id", name="uq_attempt_school_id_drill_item_id"),
    )


def create_report() -> None:
    op.create_table(
        "report",
        *key(),
        sa.Column("drill_item_id", sa.Uuid(), nullable=False),
        sa.Column("visit_id", sa.Uuid(), nullable=False),
        *text("family"),
        sa.Column("item", sa.JSON(), nullable=False),
        *text("text", "language"),
        moment("created_at"),
        school_of("report"),
        sa.PrimaryKeyConstraint("school_id", "id", name="pk_report"),
    )
    op.create_index("ix_report_school_id_drill_item_id", "report", ["school_id", "drill_item_id"])


def downgrade() -> None:
    for table in ("report", "attempt", "drill_item", "drill", "visit", "school"):
        op.drop_table(table)
