"""How good the questions are, counted once a night."""

import sqlalchemy as sa
from alembic import op

revision = "0008_quality"
down_revision = "0007_erased_tally"
branch_labels = None
depends_on = None


def upgrade() -> None:
    create_family_quality()
    create_quality_run()
    create_set_quality()


def create_family_quality() -> None:
    op.create_table(
        "family_quality",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("family", sa.String(), nullable=False),
        sa.Column("answers", sa.Integer(), nullable=False),
        sa.Column("correct", sa.Integer(), nullable=False),
        sa.Column("timed", sa.Integer(), nullable=False),
        sa.Column("took_ms", sa.BigInteger(), nullable=False),
        sa.Column("rest_answers", sa.Integer(), nullable=False),
        sa.Column("rest_correct", sa.Integer(), nullable=False),
        sa.Column("rest_sum", sa.Double(), nullable=False),
        sa.Column("rest_squares", sa.Double(), nullable=False),
        sa.Column("rest_products", sa.Double(), nullable=False),
        sa.Column("times", sa.JSON(), nullable=False),
        sa.Column("offered", sa.JSON(), nullable=False),
        sa.Column("chosen", sa.JSON(), nullable=False),
        sa.Column("unmatched", sa.JSON(), nullable=False),
        sa.Column("counted_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id"], ["school.id"], name=op.f("fk_family_quality_school"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("school_id", "family", name=op.f("pk_family_quality")),
    )


def create_quality_run() -> None:
    op.create_table(
        "quality_run",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("last_attempt_id", sa.Uuid(), nullable=False),
        sa.Column("ran_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_quality_run_school"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("school_id", name=op.f("pk_quality_run")),
    )


def create_set_quality() -> None:
    op.create_table(
        "set_quality",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("topic_set_id", sa.Uuid(), nullable=False),
        sa.Column("students", sa.Integer(), nullable=False),
        sa.Column("reliability", sa.Double(), nullable=True),
        sa.Column("low", sa.Double(), nullable=True),
        sa.Column("high", sa.Double(), nullable=True),
        sa.Column("model", sa.String(), nullable=False),
        sa.Column("items", sa.JSON(), nullable=False),
        sa.Column("counted_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "topic_set_id"],
            ["topic_set.school_id", "topic_set.id"],
            name=op.f("fk_set_quality_topic_set"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "topic_set_id", name=op.f("pk_set_quality")),
    )


def downgrade() -> None:
    for table in ("set_quality", "quality_run", "family_quality"):
        op.drop_table(table)
