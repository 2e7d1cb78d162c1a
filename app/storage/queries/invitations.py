"""Invitations: found by the hash of their token, used once, taken back."""

from dataclasses import asdict
from datetime import datetime
from uuid import UUID

from sqlalchemy import Connection, bindparam, insert, select, update

from app.storage.base import table_of
from app.storage.models import Invitation

INVITATION = table_of(Invitation)


FIND = select(INVITATION).where(
    INVITATION.c.school_id == bindparam("school_id"), INVITATION.c.token_hash == bindparam("token_hash")
)
LIST = (
    select(INVITATION)
    .where(INVITATION.c.school_id == bindparam("school_id"))
    .order_by(INVITATION.c.created_at.desc(), INVITATION.c.id.desc())
)
ADD = insert(INVITATION)
_OPEN = (
    INVITATION.c.school_id == bindparam("of_school_id"),
    INVITATION.c.id == bindparam("of_id"),
    INVITATION.c.used_at.is_(None),
    INVITATION.c.revoked_at.is_(None),
)
USE = update(INVITATION).where(*_OPEN, INVITATION.c.expires_at > bindparam("now"))
USE = USE.values(used_at=bindparam("now"), used_by=bindparam("by"))
REVOKE = update(INVITATION).where(*_OPEN).values(revoked_at=bindparam("now")).returning(INVITATION.c.note)


def find_invitation(connection: Connection, school_id: UUID, token_hash: str) -> Invitation | None:
    """Return the invitation with this token, whether or not it still holds."""
    row = connection.execute(FIND, {"school_id": school_id, "token_hash": token_hash}).mappings().first()
    return Invitation(**row) if row else None


def list_invitations(connection: Connection, school_id: UUID) -> tuple[Invitation, ...]:
    """Return a school's invitations, newest first."""
    return tuple(Invitation(**row) for row in connection.execute(LIST, {"school_id": school_id}).mappings())


def add_invitation(connection: Connection, invitation: Invitation) -> None:
    """Keep a new invitation."""
    connection.execute(ADD, asdict(invitation))


def use_invitation(connection: Connection, known: Invitation, by: UUID, now: datetime) -> bool:
    """Use an invitation up; False where it was used, taken back or has expired."""
    of = {"of_school_id": known.school_id, "of_id": known.id, "now": now, "by": by}
    return connection.execute(USE, of).rowcount == 1


def revoke_invitation(connection: Connection, school_id: UUID, invitation_id: UUID, now: datetime) -> str | None:
    """Make an invitation's link worthless and return for whom it was meant; None where there is none that was open."""
    of = {"of_school_id": school_id, "of_id": invitation_id, "now": now}
    meant_for: str | None = connection.scalar(REVOKE, of)
    return meant_for
