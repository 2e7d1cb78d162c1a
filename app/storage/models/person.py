"""People of a school and how they prove who they are."""

from datetime import datetime
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKeyConstraint, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from app.storage.base import Base


def of_person(column: str = "person_id") -> ForeignKeyConstraint:
    """Tie a row to a person of the same school: it goes when the person is erased."""
    return ForeignKeyConstraint(["school_id", column], ["person.school_id", "person.id"], ondelete="CASCADE")


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

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    id: Mapped[UUID] = mapped_column(primary_key=True)
    visit_id: Mapped[UUID]
    role: Mapped[str]
    name: Mapped[str]
    login: Mapped[str]
    email: Mapped[str | None]
    password_hash: Mapped[str | None]
    created_at: Mapped[datetime]
    seen_at: Mapped[datetime | None]
    left_at: Mapped[datetime | None]


class SignIn(Base):
    """One browser in which somebody is signed in, until it is idle too long, ends or is revoked."""

    __tablename__ = "sign_in"
    __table_args__ = (
        of_person(),
        Index(None, "school_id", "token_hash", unique=True),
        Index(None, "school_id", "person_id"),
    )

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    id: Mapped[UUID] = mapped_column(primary_key=True)
    person_id: Mapped[UUID]
    token_hash: Mapped[str]
    device: Mapped[str]
    created_at: Mapped[datetime]
    seen_at: Mapped[datetime]
    idle_until: Mapped[datetime]
    ends_at: Mapped[datetime]
    revoked_at: Mapped[datetime | None]


class OneTimeCode(Base):
    """A code that lets somebody in once, to choose a password: on a first slip, or given out by an instructor."""

    __tablename__ = "one_time_code"
    __table_args__ = (of_person(), Index(None, "school_id", "person_id"))

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    id: Mapped[UUID] = mapped_column(primary_key=True)
    person_id: Mapped[UUID]
    code_hash: Mapped[str]
    made_by: Mapped[UUID | None]
    created_at: Mapped[datetime]
    expires_at: Mapped[datetime]
    used_at: Mapped[datetime | None]


class Invitation(Base):
    """A link that makes one account with a role, once, until it expires."""

    __tablename__ = "invitation"
    __table_args__ = (
        ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),
        Index(None, "school_id", "token_hash", unique=True),
        CheckConstraint("role IN ('student', 'instructor', 'school')", name="role"),
    )

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    id: Mapped[UUID] = mapped_column(primary_key=True)
    role: Mapped[str]
    note: Mapped[str]
    token_hash: Mapped[str]
    made_by: Mapped[UUID | None]
    created_at: Mapped[datetime]
    expires_at: Mapped[datetime]
    used_at: Mapped[datetime | None]
    used_by: Mapped[UUID | None]
    revoked_at: Mapped[datetime | None]


class Throttle(Base):
    """How often something failed of late, for one account or one address (kept as a hash)."""

    __tablename__ = "throttle"
    __table_args__ = (ForeignKeyConstraint(["school_id"], ["school.id"], ondelete="CASCADE"),)

    school_id: Mapped[UUID] = mapped_column(primary_key=True)
    kind: Mapped[str] = mapped_column(primary_key=True)
    subject: Mapped[str] = mapped_column(primary_key=True)
    failures: Mapped[int]
    began_at: Mapped[datetime]
