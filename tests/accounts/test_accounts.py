"""Accounts and passwords."""

from __future__ import annotations

import pytest

from archive.accounts.edits import add_account
from archive.accounts.passwords import hash_password, matches
from archive.accounts.queries import account_named
from archive.errors import Unacceptable
from archive.store.session import Store


def test_every_fault_of_a_new_account_is_told_at_once(empty_home: Store) -> None:
    """Name, role and password are judged together."""
    with empty_home.session() as session, pytest.raises(Unacceptable) as raised:
        add_account(session, name=" ", role="visitor", password="short")
    assert [fault.where for fault in raised.value.faults] == ["name", "password", "role"]


def test_a_name_is_taken_once(empty_home: Store) -> None:
    """A second account of the same name is refused."""
    with empty_home.changing("tests") as session:
        add_account(session, name="ada", role="guide", password="long enough for it")
        with pytest.raises(Unacceptable, match="already"):
            add_account(session, name="ada", role="keeper", password="long enough for it")


def test_a_password_is_kept_as_an_argon2id_hash() -> None:
    """The hash names its method (RFC 9106), differs each time, and matches the password alone."""
    kept = hash_password("a stamper's foot")
    assert kept.startswith("$argon2id$")
    assert kept != hash_password("a stamper's foot")
    assert matches("a stamper's foot", kept)
    assert not matches("a stamper's hand", kept)


@pytest.mark.parametrize("kept", [None, "", "not a hash"])
def test_without_a_hash_nothing_matches(kept: str | None) -> None:
    """Not even the password that is hashed for nobody."""
    assert not matches("nobody signs in with this", kept)


def test_an_account_that_is_not_active_is_not_found(empty_home: Store) -> None:
    """Closing an account ends its sign-ins."""
    with empty_home.changing("tests") as session:
        add_account(session, name="ada", role="guide", password="long enough for it").active = False
    with empty_home.session() as session:
        assert account_named(session, "ada") is None
