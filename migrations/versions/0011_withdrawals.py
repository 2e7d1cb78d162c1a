"""A school may withdraw a kind of question, and settle the reports of problems."""

import sqlalchemy as sa
from alembic import op

revision = "0011_withdrawals"
down_revision = "0010_training"
branch_labels = None
depends_on = None

COLUMNS = {"settled_at": sa.DateTime(timezone=True), "settled_by": sa.String(), "answer": sa.String()}


def upgrade() -> None:
    op.create_table(
        "withdrawal",
        sa.Column("school_id", sa.Uuid(), nullable=False),
        sa.Column("family", sa.String(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("withdrawn_by", sa.String(), nullable=False),
        sa.Column("withdrawn_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_withdrawal_school"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("school_id", "family", name=op.f("pk_withdrawal")),
    )
    with op.batch_alter_table("report") as report:
        for name, kind in COLUMNS.items():
            report.add_column(sa.Column(name, kind, nullable=True))
        report.create_check_constraint(op.f("ck_report_settled"), "(settled_at IS NULL) = (answer IS NULL)")


def downgrade() -> None:
    with op.batch_alter_table("report") as report:
        report.drop_constraint(op.f("ck_report_settled"), type_="check")
        for name in COLUMNS:
            report.drop_column(name)
    op.drop_table("withdrawal")
