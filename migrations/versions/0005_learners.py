"""What the learner model knows of each visit; attempts say what evidence they gave."""

import sqlalchemy as sa
from alembic import op

revision = "0005_learners"
down_revision = "0004_tallies"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table(
        "attempt", recreate="always" if op.get_bind().dialect.name == "sqlite" else "auto"
    ) as attempt:
        attempt.add_column(sa.Column("evidence", sa.JSON(), nullable=True))
    create_learner()
    create_learner_skill()


def create_learner() -> None:
    op.create_table(
        "learner",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("visit_id", sa.Uuid(), nullable=False),
        sa.Column("mean", sa.Double(), nullable=False),
        sa.Column("variance", sa.Double(), nullable=False),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "visit_id"],
            ["visit.school_id", "visit.id"],
            name=op.f("fk_learner_visit"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "visit_id", name=op.f("pk_learner")),
    )


def create_learner_skill() -> None:
    op.create_table(
        "learner_skill",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("visit_id", sa.Uuid(), nullable=False),
        sa.Column("family", sa.String(), nullable=False),
        sa.Column("mean", sa.Double(), nullable=False),
        sa.Column("variance", sa.Double(), nullable=False),
        sa.Column("answers", sa.Integer(), nullable=False),
        sa.Column("correct", sa.Integer(), nullable=False),
        sa.Column("last_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("typed_right", sa.Integer(), nullable=False),
        sa.Column("typed_right_days", sa.JSON(), nullable=False),
        sa.Column("misconceptions", sa.JSON(), nullable=False),
        sa.Column("met", sa.JSON(), nullable=False),
        sa.Column("mastered", sa.Boolean(), nullable=False),
        sa.Column("best", sa.Double(), nullable=False),
        sa.Column("since_gain", sa.Integer(), nullable=False),
        sa.Column("due_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("reviewed_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("stability", sa.Double(), nullable=True),
        sa.Column("memory_difficulty", sa.Double(), nullable=True),
        sa.Column("learning_step", sa.Integer(), nullable=True),
        sa.Column("memory_state", sa.Integer(), nullable=True),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "visit_id"],
            ["visit.school_id", "visit.id"],
            name=op.f("fk_learner_skill_visit"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "visit_id", "family", name=op.f("pk_learner_skill")),
    )
    op.create_index(
        op.f("ix_learner_skill_school_id_visit_id_due_at"),
        "learner_skill",
        ["school_id", "visit_id", "due_at"],
        unique=False,
    )


def downgrade() -> None:
    for table in ("learner_skill", "learner"):
        op.drop_table(table)
    with op.batch_alter_table("attempt") as attempt:
        attempt.drop_column("evidence")
