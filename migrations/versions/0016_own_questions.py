"""Questions that a school's own instructors write."""

import sqlalchemy as sa
from alembic import op

revision = "0016_own_questions"
down_revision = "0015_measured"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("school") as school:
        school.add_column(sa.Column("own_revision", sa.Integer(), nullable=False, server_default="0"))
    with op.batch_alter_table("school") as school:
        school.alter_column("own_revision", server_default=None)
    create_own_question()
    create_own_version()


def create_own_question() -> None:
    op.create_table(
        "own_question",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("made_by", sa.Uuid(), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("retired_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_own_question_school"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_own_question")),
    )


def create_own_version() -> None:
    op.create_table(
        "own_version",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("question_id", sa.Uuid(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("edits", sa.Integer(), nullable=False),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.Column("written_by", sa.Uuid(), nullable=False),
        sa.Column("written_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("released_by", sa.Uuid(), nullable=True),
        sa.Column("released_at", sa.DateTime(timezone=True), nullable=True),
        sa.CheckConstraint("version >= 1", name=op.f("ck_own_version_version")),
        sa.ForeignKeyConstraint(
            ["school_id", "question_id"],
            ["own_question.school_id", "own_question.id"],
            name=op.f("fk_own_version_own_question"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "question_id", "version", name=op.f("pk_own_version")),
    )


def downgrade() -> None:
    op.drop_table("own_version")
    op.drop_table("own_question")
    with op.batch_alter_table("school") as school:
        school.drop_column("own_revision")
