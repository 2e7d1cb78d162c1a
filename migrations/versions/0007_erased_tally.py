"""Counts of the answers of people who were erased."""

import sqlalchemy as sa
from alembic import op

revision = "0007_erased_tally"
down_revision = "0006_adaptive_drills"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "erased_tally",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("family", sa.String(), nullable=False),
        sa.Column("week", sa.Date(), nullable=False),
        *(sa.Column(name, sa.Integer(), nullable=False) for name in ("answers", "correct", "timed", "took_ms")),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_erased_tally_school"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("school_id", "family", "week", name=op.f("pk_erased_tally")),
    )


def downgrade() -> None:
    op.drop_table("erased_tally")
