"""A drill may have an aim and go on item by item; attempts are found by visit and time."""

import sqlalchemy as sa
from alembic import op

revision = "0006_adaptive_drills"
down_revision = "0005_learners"
branch_labels = None
depends_on = None

COLUMNS = {"aim": sa.JSON(), "planned": sa.Integer(), "ends_at": sa.DateTime(timezone=True)}


def upgrade() -> None:
    with op.batch_alter_table("drill") as drill:
        for name, kind in COLUMNS.items():
            drill.add_column(sa.Column(name, kind, nullable=True))
        drill.create_check_constraint(op.f("ck_drill_planned"), "planned >= 1")
    op.create_index(
        op.f("ix_attempt_school_id_visit_id_answered_at"), "attempt", ["school_id", "visit_id", "answered_at"]
    )


def downgrade() -> None:
    op.drop_index(op.f("ix_attempt_school_id_visit_id_answered_at"), "attempt")
    with op.batch_alter_table("drill") as drill:
        drill.drop_constraint(op.f("ck_drill_planned"), type_="check")
        for name in COLUMNS:
            drill.drop_column(name)
