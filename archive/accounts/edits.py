"""Every change to accounts and tries to sign in; none commits."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import delete
from sqlalchemy.orm import Session

from archive.accounts.model import Account, SignInTry
from archive.accounts.passwords import LEAST_LENGTH, hash_password
from archive.accounts.queries import account_named
from archive.errors import Fault, Unacceptable
from archive.rights.decisions import Role
from archive.store.base import utc_now

ROLES = (Role.GUIDE, Role.READER, Role.KEEPER)


def add_account(session: Session, *, name: str, role: str, password: str) -> Account:
    """A new account; Unacceptable when the name is taken, the role unknown or the password short."""
    faults = []
    if not name.strip() or len(name) > 80:
        faults.append(Fault("name", 0, "The name is empty or too long", "Give 1 to 80 characters"))
    if account_named(session, name):
        faults.append(Fault("name", 0, f"There is an account '{name}' already", "Choose another name"))
    if role not in ROLES:
        faults.append(Fault("role", 0, f"'{role}' is not a role", "Choose guide, reader or keeper"))
    if len(password) < LEAST_LENGTH:
        faults.append(Fault("password", 0, "The password is too short", f"Give {LEAST_LENGTH} characters or more"))
    if faults:
        raise Unacceptable(faults, "The account")
    account = Account(name=name, role=str(role), password_hash=hash_password(password))
    session.add(account)
    return account


def note_failed_try(session: Session, name: str, address: str) -> None:
    """Keep a failed try, and forget those too old to matter."""
    session.execute(delete(SignInTry).where(SignInTry.at < utc_now() - dt.timedelta(days=1)))
    session.add(SignInTry(name=name[:80], address=address[:64]))
