"""A memory that holds until the database changes."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy.orm import Session

from archive.settings import Settings
from archive.store.freshness import memory
from archive.store.homes import make_home
from archive.store.session import Store
from archive.terms.model import Term


@pytest.fixture
def store(tmp_path: Path) -> Store:
    """An empty home."""
    return make_home(Settings(tmp_path / "home", testing=True))


def _term(number: int) -> Term:
    return Term(ref=f"t-{number}", preferred="swarf", language="en-GB", meaning="", other_words=[])


def _remembers(store: Store) -> bool:
    with store.session() as session:
        held = memory(session)
        known = "known" in held
        held["known"] = True
    return known


def test_it_lasts_from_session_to_session(store: Store) -> None:
    """What was worked out for one request is there for the next."""
    assert [_remembers(store), _remembers(store), _remembers(store)] == [False, True, True]
    store.close()


def test_a_change_through_the_same_store_empties_it(store: Store) -> None:
    """Whichever of the store's connections made it."""
    _remembers(store)
    with store.changing("tests") as session:
        session.add(_term(1))
    assert not _remembers(store)
    store.close()


def test_a_change_by_another_process_empties_it(store: Store) -> None:
    """Another store on the same database stands for another process."""
    _remembers(store)
    other = Store(store.settings)
    with other.changing("tests") as session:
        session.add(_term(2))
    other.close()
    assert not _remembers(store)
    store.close()


def test_a_session_that_changes_records_remembers_nothing(store: Store) -> None:
    """What it has not committed may still be forgotten."""

    def told(session: Session) -> bool:
        memory(session)["known"] = True
        return "known" in memory(session)

    with store.changing("tests") as session:
        assert not told(session)
    store.close()
