"""The training record of each student."""

import sqlalchemy as sa
from alembic import op

revision = "0010_training"
down_revision = "0009_rehearsals"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "training_entry",
        *(sa.Column(name, sa.Uuid(), nullable=False) for name in ("school_id", "id", "person_id")),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("text", sa.String(), nullable=False),
        sa.Column("minutes", sa.Integer(), nullable=True),
        sa.Column("details", sa.JSON(), nullable=False),
        sa.Column("made_by", sa.Uuid(), nullable=False),
        *(sa.Column(name, sa.String(), nullable=False) for name in ("made_by_name", "initials")),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("corrects", sa.Uuid(), nullable=True),
        sa.CheckConstraint(
            "kind IN ('taught', 'reviewed', 'note', 'recommended')", name=op.f("ck_training_entry_kind")
        ),
        sa.CheckConstraint("minutes >= 1", name=op.f("ck_training_entry_minutes")),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_training_entry_person"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_training_entry")),
    )
    op.create_index(
        op.f("ix_training_entry_school_id_person_id_made_at"),
        "training_entry",
        ["school_id", "person_id", "made_at"],
        unique=False,
    )


def downgrade() -> None:
    op.drop_table("training_entry")
