"""Topic sets, what they are assigned to, and the sittings; a drill says what it is for."""

import sqlalchemy as sa
from alembic import op

revision = "0003_topic_sets"
down_revision = "0002_people"
branch_labels = None
depends_on = None


def upgrade() -> None:
    add_purpose()
    create_topic_set()
    create_topic_set_item()
    create_pass_mark()
    create_assignment()
    create_assigned_person()
    create_extension()
    create_sitting()
    op.create_index(op.f("ix_sitting_school_id_person_id"), "sitting", ["school_id", "person_id"], unique=False)


def add_purpose() -> None:
    """Say what each drill is for; those there are were practice."""
    with op.batch_alter_table("drill") as drill:
        drill.add_column(sa.Column("purpose", sa.String(), nullable=True))
    op.execute("UPDATE drill SET purpose = 'practice'")
    with op.batch_alter_table("drill") as drill:
        drill.alter_column("purpose", existing_type=sa.String(), nullable=False)
        drill.create_check_constraint(op.f("ck_drill_purpose"), "purpose IN ('practice', 'set', 'rehearsal')")


def create_topic_set() -> None:
    op.create_table(
        "topic_set",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("title", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("made_by", sa.Uuid(), nullable=False),
        sa.Column("wish", sa.JSON(), nullable=False),
        sa.Column("conventions", sa.JSON(), nullable=False),
        sa.Column("language", sa.String(), nullable=True),
        sa.Column("seed", sa.BigInteger(), nullable=False),
        sa.Column("numbers", sa.String(), nullable=False),
        sa.Column("reveal", sa.String(), nullable=False),
        sa.Column("minutes", sa.Integer(), nullable=True),
        sa.Column("pass_percent", sa.Integer(), nullable=True),
        sa.Column("attempts_allowed", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("locked_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("archived_at", sa.DateTime(timezone=True), nullable=True),
        sa.CheckConstraint("numbers IN ('same', 'own')", name=op.f("ck_topic_set_numbers")),
        sa.CheckConstraint("reveal IN ('at-once', 'at-end', 'after-due')", name=op.f("ck_topic_set_reveal")),
        sa.CheckConstraint("attempts_allowed >= 1", name=op.f("ck_topic_set_attempts_allowed")),
        sa.CheckConstraint("minutes >= 1", name=op.f("ck_topic_set_minutes")),
        sa.CheckConstraint("pass_percent >= 0 AND pass_percent <= 100", name=op.f("ck_topic_set_pass_percent")),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_topic_set_school"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_topic_set")),
    )


def create_assignment() -> None:
    op.create_table(
        "assignment",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("topic_set_id", sa.Uuid(), nullable=False),
        sa.Column("class_id", sa.Uuid(), nullable=True),
        sa.Column("due_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("time_zone", sa.String(), nullable=False),
        sa.Column("assigned_by", sa.Uuid(), nullable=False),
        sa.Column("assigned_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("withdrawn_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(
            ["school_id", "class_id"],
            ["school_class.school_id", "school_class.id"],
            name=op.f("fk_assignment_school_class"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "topic_set_id"],
            ["topic_set.school_id", "topic_set.id"],
            name=op.f("fk_assignment_topic_set"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_assignment")),
    )
    op.create_index(op.f("ix_assignment_school_id_class_id"), "assignment", ["school_id", "class_id"], unique=False)
    op.create_index(
        op.f("ix_assignment_school_id_topic_set_id"), "assignment", ["school_id", "topic_set_id"], unique=False
    )


def create_pass_mark() -> None:
    op.create_table(
        "pass_mark",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("topic_set_id", sa.Uuid(), nullable=False),
        sa.Column("percent", sa.Integer(), nullable=True),
        sa.Column("set_by", sa.Uuid(), nullable=False),
        sa.Column("set_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "topic_set_id"],
            ["topic_set.school_id", "topic_set.id"],
            name=op.f("fk_pass_mark_topic_set"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_pass_mark")),
    )
    op.create_index(
        op.f("ix_pass_mark_school_id_topic_set_id_set_at"),
        "pass_mark",
        ["school_id", "topic_set_id", "set_at"],
        unique=False,
    )


def create_topic_set_item() -> None:
    op.create_table(
        "topic_set_item",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("topic_set_id", sa.Uuid(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("family", sa.String(), nullable=False),
        sa.Column("family_version", sa.Integer(), nullable=False),
        sa.Column("pack", sa.String(), nullable=False),
        sa.Column("pack_version", sa.Integer(), nullable=False),
        sa.Column("seed", sa.BigInteger(), nullable=False),
        sa.Column("form", sa.String(), nullable=False),
        sa.Column("chosen_at", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint("position >= 1", name=op.f("ck_topic_set_item_position")),
        sa.ForeignKeyConstraint(
            ["school_id", "topic_set_id"],
            ["topic_set.school_id", "topic_set.id"],
            name=op.f("fk_topic_set_item_topic_set"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_topic_set_item")),
        sa.UniqueConstraint(
            "school_id", "topic_set_id", "position", name=op.f("uq_topic_set_item_school_id_topic_set_id_position")
        ),
    )


def create_assigned_person() -> None:
    op.create_table(
        "assigned_person",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("assignment_id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("assigned_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "assignment_id"],
            ["assignment.school_id", "assignment.id"],
            name=op.f("fk_assigned_person_assignment"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_assigned_person_person"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "assignment_id", "person_id", name=op.f("pk_assigned_person")),
    )
    op.create_index(
        op.f("ix_assigned_person_school_id_person_id"), "assigned_person", ["school_id", "person_id"], unique=False
    )


def create_extension() -> None:
    op.create_table(
        "extension",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("assignment_id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("due_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("granted_by", sa.Uuid(), nullable=False),
        sa.Column("granted_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "assignment_id"],
            ["assignment.school_id", "assignment.id"],
            name=op.f("fk_extension_assignment"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_extension_person"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "assignment_id", "person_id", name=op.f("pk_extension")),
    )


def create_sitting() -> None:
    op.create_table(
        "sitting",
        *(sa.Column(name, sa.Uuid(), nullable=False) for name in ("school_id", "id", "assignment_id", "person_id")),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("drill_id", sa.Uuid(), nullable=False),
        sa.Column("started_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("ends_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("finished_at", sa.DateTime(timezone=True), nullable=True),
        sa.CheckConstraint("number >= 1", name=op.f("ck_sitting_number")),
        sa.ForeignKeyConstraint(
            ["school_id", "assignment_id"],
            ["assignment.school_id", "assignment.id"],
            name=op.f("fk_sitting_assignment"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "drill_id"],
            ["drill.school_id", "drill.id"],
            name=op.f("fk_sitting_drill"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_sitting_person"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_sitting")),
        sa.UniqueConstraint(
            "school_id",
            "assignment_id",
            "person_id",
            "number",
            name=op.f("uq_sitting_school_id_assignment_id_person_id_number"),
        ),
        sa.UniqueConstraint("school_id", "drill_id", name=op.f("uq_sitting_school_id_drill_id")),
    )


def downgrade() -> None:
    for table in ("sitting", "extension", "assigned_person", "assignment", "pass_mark", "topic_set_item", "topic_set"):
        op.drop_table(table)
    with op.batch_alter_table("drill") as drill:
        drill.drop_constraint(op.f("ck_drill_purpose"), type_="check")
        drill.drop_column("purpose")
