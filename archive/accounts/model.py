"""What is kept of an account, and of tries to sign in."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import CheckConstraint, String
from sqlalchemy.orm import Mapped, mapped_column

from archive.store.base import Base, Key, utc_now


class Account(Base):
    """Someone who signs in: a guide, a reader or a keeper."""

    __tablename__ = "account"
    __table_args__ = (CheckConstraint("role in ('guide', 'reader', 'keeper')", name="role"),)

    id: Mapped[Key]
    name: Mapped[str] = mapped_column(String(80), unique=True)
    role: Mapped[str] = mapped_column(String(10))
    password_hash: Mapped[str] = mapped_column(String(200))
    active: Mapped[bool] = mapped_column(default=True)
    made_at: Mapped[dt.datetime] = mapped_column(default=utc_now)


class SignInTry(Base):
    """A failed try to sign in, kept for the few minutes that the rate limit looks back."""

    __tablename__ = "sign_in_try"

    id: Mapped[Key]
    at: Mapped[dt.datetime] = mapped_column(default=utc_now, index=True)
    name: Mapped[str] = mapped_column(String(80), index=True)
    address: Mapped[str] = mapped_column(String(64), index=True)
