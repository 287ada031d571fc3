"""Every select on accounts and tries to sign in."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from sqlalchemy import func, or_, select
from sqlalchemy.orm import Session

from archive.accounts.model import Account, SignInTry


def account_named(session: Session, name: str) -> Account | None:
    """The active account of a name."""
    return session.scalar(select(Account).where(Account.name == name, Account.active))


def account(session: Session, key: int) -> Account | None:
    """The active account of a key."""
    return session.scalar(select(Account).where(Account.id == key, Account.active))


def accounts(session: Session) -> Sequence[Account]:
    """All accounts by name."""
    return session.scalars(select(Account).order_by(Account.name)).all()


def tries_since(session: Session, since: dt.datetime, name: str, address: str) -> int:
    """How many failed tries there were for the name or from the address."""
    mine = select(func.count(SignInTry.id)).where(
        SignInTry.at >= since, or_(SignInTry.name == name, SignInTry.address == address)
    )
    return session.scalar(mine) or 0


def account_names(session: Session) -> dict[int, str]:
    """The name of every account, also of those that no longer sign in, by key."""
    return {row.id: row.name for row in session.execute(select(Account.id, Account.name))}
