"""People, their sign-ins, codes and invitations, classes, and the audit log; schools get a code and house rules."""

import sqlalchemy as sa
from alembic import op

revision = "0002_people"
down_revision = "0001_drills"
branch_labels = None
depends_on = None


REASON = "'the audit log is only added to'"
ON_SQLITE = [
    f"CREATE TRIGGER audit_entry_no_{verb.lower()} BEFORE {verb} ON audit_entry "
    f"BEGIN SELECT RAISE(ABORT, {REASON}); END"
    for verb in ("UPDATE", "DELETE")
]
ON_POSTGRESQL = [
    f"""CREATE FUNCTION refuse_audit_change() RETURNS trigger LANGUAGE plpgsql AS
    $$ BEGIN RAISE EXCEPTION {REASON}; END $$""",
    """CREATE TRIGGER audit_entry_only_grows BEFORE UPDATE OR DELETE ON audit_entry
    FOR EACH ROW EXECUTE FUNCTION refuse_audit_change()""",
]
NEW_IN_SCHOOL = {
    "code": sa.String(),
    "language": sa.String(),
    "time_zone": sa.String(),
    "conventions": sa.JSON(),
    "retention": sa.JSON(),
    "bars": sa.JSON(),
    "demonstration": sa.Boolean(),
    "version": sa.Integer(),
}


def upgrade() -> None:
    extend_school()
    create_school_class()
    create_person()
    create_sign_in()
    create_one_time_code()
    create_invitation()
    create_throttle()
    create_class_instructor()
    create_enrolment()
    create_audit_entry()
    for statement in ON_SQLITE if op.get_bind().dialect.name == "sqlite" else ON_POSTGRESQL:
        op.execute(statement)


def extend_school() -> None:
    """Add the columns empty, fill them for the schools there are, then demand them."""
    with op.batch_alter_table("school") as school:
        for name, kind in NEW_IN_SCHOOL.items():
            school.add_column(sa.Column(name, kind, nullable=True))
    table = sa.table("school", sa.column("id", sa.Uuid()), *(sa.column(*each) for each in NEW_IN_SCHOOL.items()))
    first = {"language": "en", "time_zone": "UTC", "demonstration": False, "version": 1}
    rules = {"conventions": {}, "retention": {}, "bars": {}}
    for (school_id,) in op.get_bind().execute(sa.select(table.c.id)).all():
        op.execute(table.update().where(table.c.id == school_id).values(code=school_id.hex, **first, **rules))
    with op.batch_alter_table("school") as school:
        for name, kind in NEW_IN_SCHOOL.items():
            school.alter_column(name, existing_type=kind, nullable=False)
        school.create_unique_constraint(op.f("uq_school_code"), ["code"])
        school.create_check_constraint(op.f("ck_school_language"), "language IN ('en', 'fr')")


def create_audit_entry() -> None:
    op.create_table(
        "audit_entry",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("noted_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("actor_id", sa.Uuid(), nullable=True),
        sa.Column("actor_name", sa.String(), nullable=False),
        sa.Column("action", sa.String(), nullable=False),
        sa.Column("subject", sa.String(), nullable=False),
        sa.Column("details", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_audit_entry")),
    )
    op.create_index(op.f("ix_audit_entry_school_id_noted_at"), "audit_entry", ["school_id", "noted_at"], unique=False)


def create_invitation() -> None:
    op.create_table(
        "invitation",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("token_hash", sa.String(), nullable=False),
        sa.Column("made_by", sa.Uuid(), nullable=True),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("used_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("used_by", sa.Uuid(), nullable=True),
        sa.Column("revoked_at", sa.DateTime(timezone=True), nullable=True),
        sa.CheckConstraint("role IN ('student', 'instructor', 'school')", name=op.f("ck_invitation_role")),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_invitation_school"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_invitation")),
    )
    op.create_index(op.f("ix_invitation_school_id_token_hash"), "invitation", ["school_id", "token_hash"], unique=True)


def create_school_class() -> None:
    op.create_table(
        "school_class",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("join_code", sa.String(), nullable=True),
        sa.Column("joining_ends_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("archived_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_school_class_school"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_school_class")),
        sa.UniqueConstraint("school_id", "join_code", name=op.f("uq_school_class_school_id_join_code")),
    )


def create_throttle() -> None:
    op.create_table(
        "throttle",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("subject", sa.String(), nullable=False),
        sa.Column("failures", sa.Integer(), nullable=False),
        sa.Column("began_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_throttle_school"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("school_id", "kind", "subject", name=op.f("pk_throttle")),
    )


def create_person() -> None:
    op.create_table(
        "person",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("visit_id", sa.Uuid(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("login", sa.String(), nullable=False),
        sa.Column("email", sa.String(), nullable=True),
        sa.Column("password_hash", sa.String(), nullable=True),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("seen_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("left_at", sa.DateTime(timezone=True), nullable=True),
        sa.CheckConstraint("role IN ('student', 'instructor', 'school')", name=op.f("ck_person_role")),
        sa.ForeignKeyConstraint(
            ["school_id", "visit_id"], ["visit.school_id", "visit.id"], name=op.f("fk_person_visit"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_person")),
        sa.UniqueConstraint("school_id", "login", name=op.f("uq_person_school_id_login")),
        sa.UniqueConstraint("school_id", "visit_id", name=op.f("uq_person_school_id_visit_id")),
    )


def create_class_instructor() -> None:
    op.create_table(
        "class_instructor",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("class_id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("added_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "class_id"],
            ["school_class.school_id", "school_class.id"],
            name=op.f("fk_class_instructor_school_class"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_class_instructor_person"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "class_id", "person_id", name=op.f("pk_class_instructor")),
    )
    op.create_index(
        op.f("ix_class_instructor_school_id_person_id"), "class_instructor", ["school_id", "person_id"], unique=False
    )


def create_enrolment() -> None:
    op.create_table(
        "enrolment",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("class_id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("joined_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("left_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(
            ["school_id", "class_id"],
            ["school_class.school_id", "school_class.id"],
            name=op.f("fk_enrolment_school_class"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_enrolment_person"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "class_id", "person_id", name=op.f("pk_enrolment")),
    )
    op.create_index(op.f("ix_enrolment_school_id_person_id"), "enrolment", ["school_id", "person_id"], unique=False)


def create_one_time_code() -> None:
    op.create_table(
        "one_time_code",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("code_hash", sa.String(), nullable=False),
        sa.Column("made_by", sa.Uuid(), nullable=True),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("used_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_one_time_code_person"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_one_time_code")),
    )
    op.create_index(
        op.f("ix_one_time_code_school_id_person_id"), "one_time_code", ["school_id", "person_id"], unique=False
    )


def create_sign_in() -> None:
    op.create_table(
        "sign_in",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("token_hash", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("seen_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("idle_until", sa.DateTime(timezone=True), nullable=False),
        sa.Column("ends_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("revoked_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_sign_in_person"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_sign_in")),
    )
    op.create_index(op.f("ix_sign_in_school_id_person_id"), "sign_in", ["school_id", "person_id"], unique=False)
    op.create_index(op.f("ix_sign_in_school_id_token_hash"), "sign_in", ["school_id", "token_hash"], unique=True)


def downgrade() -> None:
    for table in (
        "audit_entry",
        "enrolment",
        "class_instructor",
        "throttle",
        "invitation",
        "one_time_code",
        "sign_in",
        "person",
        "school_class",
    ):
        op.drop_table(table)
    if op.get_bind().dialect.name == "postgresql":
        op.execute("DROP FUNCTION refuse_audit_change()")
    with op.batch_alter_table("school") as school:
        school.drop_constraint(op.f("ck_school_language"), type_="check")
        school.drop_constraint(op.f("uq_school_code"), type_="unique")
        for name in NEW_IN_SCHOOL:
            school.drop_column(name)
