"""Topic sets made from a weak spot, with the figures of that day."""

import sqlalchemy as sa
from alembic import op

revision = "0013_rechecks"
down_revision = "0012_regraded"
branch_labels = None
depends_on = None


def upgrade() -> None:
    create_recheck()
    create_recheck_person()


def create_recheck() -> None:
    op.create_table(
        "recheck",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("topic_set_id", sa.Uuid(), nullable=False),
        sa.Column("class_id", sa.Uuid(), nullable=False),
        sa.Column("family", sa.String(), nullable=False),
        sa.Column("misconception", sa.String(), nullable=True),
        sa.Column("students", sa.Integer(), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint("students >= 1", name=op.f("ck_recheck_students")),
        sa.ForeignKeyConstraint(
            ["school_id", "class_id"],
            ["school_class.school_id", "school_class.id"],
            name=op.f("fk_recheck_school_class"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "topic_set_id"],
            ["topic_set.school_id", "topic_set.id"],
            name=op.f("fk_recheck_topic_set"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "topic_set_id", name=op.f("pk_recheck")),
    )
    op.create_index(
        op.f("ix_recheck_school_id_class_id_made_at"), "recheck", ["school_id", "class_id", "made_at"], unique=False
    )


def create_recheck_person() -> None:
    op.create_table(
        "recheck_person",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("topic_set_id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("chance", sa.Double(), nullable=True),
        sa.Column("answers", sa.Integer(), nullable=False),
        sa.Column("correct", sa.Integer(), nullable=False),
        sa.CheckConstraint(
            "answers >= 1 AND correct >= 0 AND correct <= answers", name=op.f("ck_recheck_person_answers")
        ),
        sa.CheckConstraint("chance >= 0 AND chance <= 1", name=op.f("ck_recheck_person_chance")),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_recheck_person_person"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "topic_set_id"],
            ["recheck.school_id", "recheck.topic_set_id"],
            name=op.f("fk_recheck_person_recheck"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "topic_set_id", "person_id", name=op.f("pk_recheck_person")),
    )
    op.create_index(
        op.f("ix_recheck_person_school_id_person_id"), "recheck_person", ["school_id", "person_id"], unique=False
    )


def downgrade() -> None:
    for table in ("recheck_person", "recheck"):
        op.drop_table(table)
