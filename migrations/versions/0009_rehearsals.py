"""Exam profiles of schools; rehearsals, and the answers kept while they run."""

import sqlalchemy as sa
from alembic import op

revision = "0009_rehearsals"
down_revision = "0008_quality"
branch_labels = None
depends_on = None


def upgrade() -> None:
    create_exam_profile()
    create_rehearsal()
    create_rehearsal_draft()


def create_exam_profile() -> None:
    op.create_table(
        "exam_profile",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("profile", sa.JSON(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_exam_profile_school"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_exam_profile")),
    )


def create_rehearsal() -> None:
    op.create_table(
        "rehearsal",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("drill_id", sa.Uuid(), nullable=False),
        sa.Column("profile", sa.JSON(), nullable=False),
        sa.Column("counts", sa.JSON(), nullable=False),
        sa.Column("strict", sa.Boolean(), nullable=False),
        sa.Column("started_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("ends_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("paused_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("submitted_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(
            ["school_id", "drill_id"],
            ["drill.school_id", "drill.id"],
            name=op.f("fk_rehearsal_drill"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_rehearsal")),
        sa.UniqueConstraint("school_id", "drill_id", name=op.f("uq_rehearsal_school_id_drill_id")),
    )


def create_rehearsal_draft() -> None:
    op.create_table(
        "rehearsal_draft",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("drill_item_id", sa.Uuid(), nullable=False),
        sa.Column("fields", sa.JSON(), nullable=False),
        sa.Column("flagged", sa.Boolean(), nullable=False),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "drill_item_id"],
            ["drill_item.school_id", "drill_item.id"],
            name=op.f("fk_rehearsal_draft_drill_item"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "drill_item_id", name=op.f("pk_rehearsal_draft")),
    )


def downgrade() -> None:
    for table in ("rehearsal_draft", "rehearsal", "exam_profile"):
        op.drop_table(table)
