"""${message}."""

import sqlalchemy as sa
from alembic import op

# The id is the file's stem: name the file ${up_revision}.py, so that two branches that add a migration collide in git.
revision = ${repr(up_revision)}
down_revision = ${repr(down_revision)}
branch_labels = None
depends_on = None


def upgrade() -> None:
    ${upgrades if upgrades else "pass"}


def downgrade() -> None:
    ${downgrades if downgrades else "pass"}
