"""Measured difficulties of a school's kinds of questions."""

import sqlalchemy as sa
from alembic import op

revision = "0015_measured"
down_revision = "0014_set_aside"
branch_labels = None
depends_on = None


def upgrade() -> None:
    create_measured_difficulty()


def create_measured_difficulty() -> None:
    op.create_table(
        "measured_difficulty",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("family", sa.String(), nullable=False),
        sa.Column("difficulty", sa.JSON(), nullable=False),
        sa.Column("error", sa.Double(), nullable=False),
        sa.Column("answers", sa.Integer(), nullable=False),
        sa.Column("learners", sa.Integer(), nullable=False),
        sa.Column("measured_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id"], ["school.id"], name=op.f("fk_measured_difficulty_school"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("school_id", "family", name=op.f("pk_measured_difficulty")),
    )


def downgrade() -> None:
    op.drop_table("measured_difficulty")
