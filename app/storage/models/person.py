"""People of a school and how they prove who they are."""

from datetime import datetime
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKeyConstraint, Index, UniqueConstraint

from app.storage.base import Base, column, row


def of_person(column: str = "person_id") -> ForeignKeyConstraint:
    """Tie a row to a person of the same school: it goes when the person is erased."""
    return ForeignKeyConstraint(["school_id", column], ["person.school_id", "person.id"], ondelete="CASCADE")


@row
class Person(Base):
    """Somebody with an account in one school. What they answer is kept under their own lasting visit.

    Erasing the visit erases the person. `password_hash` is empty until the first sign-in with a one-time code;
    `left_at` closes the account and keeps the history.
    """

    __tablename__ = "person"
    __table_args__ = (
        ForeignKeyConstraint(["school_id", "visit_id"], ["visit.school_id", "visit.id"], ondelete="CASCADE"),
        UniqueConstraint("school_id", "login"),
        UniqueConstraint("school_id", "visit_id"),
        CheckConstraint("role IN ('student', 'instructor', 'school')", name="role"),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    visit_id: UUID
    role: str
    name: str
    login: str
    created_at: datetime
    email: str | None = None
    password_hash: str | None = None
    seen_at: datetime | None = None
    left_at: datetime | None = None


@row
class SignIn(Base):
    """One browser in which somebody is signed in, until it is idle too long, ends or is revoked."""

    __tablename__ = "sign_in"
    __table_args__ = (
        of_person(),
        Index(None, "school_id", "token_hash", unique=True),
        Index(None, "school_id", "person_id"),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    person_id: UUID
    token_hash: str
    device: str
    created_at: datetime
    seen_at: datetime
    idle_until: datetime
    ends_at: datetime
    revoked_at: datetime | None = None


@row
class OneTimeCode(Base):
    """A code that lets somebody in once, to choose a password: on a first slip, or given out by an instructor."""

    __tablename__ = "one_time_code"
    __table_args__ = (of_person(), Index(None, "school_id", "person_id"))

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    person_id: UUID
    code_hash: str
    made_by: UUID | None
    created_at: datetime
    expires_at: datetime
    used_at: datetime | None = None


@row
class Invitation(Base):
    """A link that makes one account with a role, once, until it expires."""

    __tablename__ = "invitation"
    __table_args__ = (
        ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),
        Index(None, "school_id", "token_hash", unique=True),
        CheckConstraint("role IN ('student', 'instructor', 'school')", name="role"),
    )

    school_id: UUID = column(primary_key=True)
    id: UUID = column(primary_key=True)
    role: str
    note: str
    token_hash: str
    made_by: UUID | None
    created_at: datetime
    expires_at: datetime
    used_at: datetime | None = None
    used_by: UUID | None = None
    revoked_at: datetime | None = None


class Throttle(Base):
    """How often something failed of late, for one account or one address (kept as a hash)."""

    __tablename__ = "throttle"
    __table_args__ = (ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),)

    school_id: UUID = column(primary_key=True)
    kind: str = column(primary_key=True)
    subject: str = column(primary_key=True)
    failures: int
    began_at: datetime
