"""Those who change a home take turns; none loses its change, and none breaks off because it read first."""

from __future__ import annotations

import sqlite3
import threading
from contextlib import closing

import pytest
from sqlalchemy import event, func, select

from archive.errors import Conflict
from archive.people.model import Person
from archive.settings import DATABASE
from archive.store.session import Store


def test_a_home_that_stays_locked_is_told_in_words(empty_home: Store) -> None:
    """When another process never ends, the wait ends with an error of our own."""
    event.listen(empty_home.engine, "connect", lambda made, _record: made.execute("PRAGMA busy_timeout=10"))
    empty_home.engine.dispose()
    with closing(sqlite3.connect(empty_home.settings.home / DATABASE, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(Conflict, match="Another process"), empty_home.changing("tests"):
            raise AssertionError("nobody may change it now")
        other.execute("ROLLBACK")


def test_who_reads_first_still_gets_its_turn(empty_home: Store) -> None:
    """Many at once count the people and add one: each sees what the one before it added."""

    def add() -> None:
        with empty_home.changing("tests") as session:
            count = session.scalar(select(func.count(Person.id))) or 0
            session.add(Person(ref=f"P-{count}", name="Ada Birch", roles=[]))

    threads = [threading.Thread(target=add) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    with empty_home.session() as session:
        assert sorted(session.scalars(select(Person.ref))) == [f"P-{number}" for number in range(8)]


def test_readers_do_not_wait_for_a_writer(empty_home: Store) -> None:
    """While one changes records, another reads what stood before."""
    with empty_home.changing("tests") as writing, empty_home.session() as reading:
        writing.add(Person(ref="P-1", name="Ada Birch", roles=[]))
        writing.flush()
        assert reading.scalar(select(func.count(Person.id))) == 0
