"""Attempts that were marked again keep both marks."""

import sqlalchemy as sa
from alembic import op

revision = "0012_regraded"
down_revision = "0011_withdrawals"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "regraded_attempt",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("attempt_id", sa.Uuid(), nullable=False),
        sa.Column("visit_id", sa.Uuid(), nullable=False),
        sa.Column("family", sa.String(), nullable=False),
        sa.Column("old_correct", sa.Boolean(), nullable=False),
        sa.Column("old_share", sa.Double(), nullable=False),
        sa.Column("old_misconceptions", sa.JSON(), nullable=False),
        sa.Column("new_correct", sa.Boolean(), nullable=False),
        sa.Column("new_share", sa.Double(), nullable=False),
        sa.Column("new_misconceptions", sa.JSON(), nullable=False),
        sa.Column("regraded_by", sa.String(), nullable=False),
        sa.Column("regraded_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("told_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(
            ["school_id", "visit_id"],
            ["visit.school_id", "visit.id"],
            name=op.f("fk_regraded_attempt_visit"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_regraded_attempt")),
    )
    op.create_index(op.f("ix_regraded_attempt_school_id_visit_id"), "regraded_attempt", ["school_id", "visit_id"])


def downgrade() -> None:
    op.drop_table("regraded_attempt")
