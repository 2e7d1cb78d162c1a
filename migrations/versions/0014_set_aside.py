"""Answers can be set aside: their mark is kept and counts no more; what was done to a mark is named."""

import sqlalchemy as sa
from alembic import op

revision = "0014_set_aside"
down_revision = "0013_rechecks"
branch_labels = None
depends_on = None

DEEDS = "deed IN ('marked', 'set-aside', 'counted')"


def upgrade() -> None:
    with op.batch_alter_table(
        "attempt", recreate="always" if op.get_bind().dialect.name == "sqlite" else "auto"
    ) as attempt:
        attempt.add_column(sa.Column("set_aside_at", sa.DateTime(timezone=True), nullable=True))
    op.add_column("regraded_attempt", sa.Column("deed", sa.String(), nullable=True))
    op.execute("UPDATE regraded_attempt SET deed = 'marked'")
    with op.batch_alter_table("regraded_attempt") as regraded:
        regraded.alter_column("deed", existing_type=sa.String(), nullable=False)
        regraded.create_check_constraint(op.f("ck_regraded_attempt_deed"), DEEDS)


def downgrade() -> None:
    with op.batch_alter_table("regraded_attempt") as regraded:
        regraded.drop_constraint(op.f("ck_regraded_attempt_deed"), type_="check")
        regraded.drop_column("deed")
    with op.batch_alter_table("attempt") as attempt:
        attempt.drop_column("set_aside_at")
