"""The record of changes."""

from __future__ import annotations

import pytest
from sqlalchemy import select

from archive.accounts.edits import add_account
from archive.people.model import Person
from archive.store.model import Change
from archive.store.session import Store


def test_a_change_that_fails_leaves_no_trace(empty_home: Store) -> None:
    """Record and history go back together."""
    with pytest.raises(RuntimeError), empty_home.changing("ada") as session:
        session.add(Person(ref="P-1", name="Ada Birch", roles=[]))
        session.flush()
        raise RuntimeError
    with empty_home.session() as session:
        assert session.scalars(select(Person)).all() == []
        assert session.scalars(select(Change)).all() == []


def test_a_password_is_not_written_into_the_history(empty_home: Store) -> None:
    """Not even as a hash."""
    with empty_home.changing("ada") as session:
        add_account(session, name="bea", role="guide", password="long enough, this")
    with empty_home.session() as session:
        change = session.scalars(select(Change)).one()
    assert change.after == change.after | {"name": "bea", "role": "guide"}
    assert "password_hash" not in change.after


def test_every_change_says_who_what_before_and_after(empty_home: Store) -> None:
    """Adding, changing and deleting each leave one row, with only what differs."""
    with empty_home.changing("ada") as session:
        session.add(Person(ref="P-1", name="Ada Birch", roles=["worker"]))
    with empty_home.changing("bea") as session:
        session.scalars(select(Person)).one().trade = "stamper"
    with empty_home.changing("cy") as session:
        session.delete(session.scalars(select(Person)).one())
    with empty_home.session() as session:
        added, changed, deleted = session.scalars(select(Change).order_by(Change.id)).all()
    assert (added.who, added.kind, added.record, added.before) == ("ada", "added", "person:P-1", None)
    assert (changed.who, changed.before, changed.after) == ("bea", {"trade": ""}, {"trade": "stamper"})
    assert (deleted.who, deleted.after) == ("cy", None)
    assert deleted.before["trade"] == "stamper"
