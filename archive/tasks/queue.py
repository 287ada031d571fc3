"""The queue that hands jobs to the process that does them. The table of jobs is the truth; here only keys travel."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from huey import SqliteHuey
from huey.consumer import Consumer

from archive.errors import Conflict
from archive.jobs import edits
from archive.search.following import follow
from archive.search.gateway import SearchIndex
from archive.store.session import Store
from archive.tasks.doing import do
from archive.tasks.progress import WHO
from archive.tasks.watching import Watch, watching

# Two, so that a short piece of work need not wait behind a long one.
_WORKERS = 2
_LOOK_EVERY_S = 0.5
_FOR_EVER_S = 2_000_000.0


def hand_over(store: Store, key: str) -> None:
    """Give a job, already committed, to the process that does jobs; in tests it is done here and at once."""
    if store.settings.testing:
        do(store, key)
    else:
        huey, carry = _carrier(store)
        carry(key)
        huey.storage.close()


def work(store: Store, *, stand_by: bool = False) -> None:
    """Do the home's jobs until told to stop; what another process left half done is begun again.

    Conflict when a process is doing this home's jobs already, unless this one is to stand by until that one is gone.
    """
    with _alone(store, _FOR_EVER_S if stand_by else 0):
        huey, carry = _carrier(store)
        huey.flush()
        with store.changing(WHO) as session:
            waiting = edits.wait_again(session)
        for key in waiting:
            carry(key)
        # What is done here stands in the search index too.
        follow(store, SearchIndex(store.settings.index))
        with watching(Watch(store, carry)):
            _consumer(huey).run()


def _consumer(huey: SqliteHuey) -> Consumer:
    return Consumer(
        huey,
        workers=_WORKERS,
        periodic=False,
        initial_delay=0.05,
        max_delay=_LOOK_EVERY_S,
        worker_type="thread",
        shutdown_timeout=2,
    )


def _carrier(store: Store) -> tuple[SqliteHuey, Callable[[str], object]]:
    _owners_alone(store.settings.jobs)
    huey = SqliteHuey("lemel", filename=str(store.settings.jobs), results=False, fsync=True)

    def do_job(key: str) -> None:
        do(store, key)

    return huey, huey.task(name="do_job")(do_job)


@contextmanager
def _alone(store: Store, patience_s: float) -> Iterator[None]:
    """Hold the home's place for the one that does its jobs: a lock that the system lets go of when a process dies."""
    _owners_alone(store.settings.working)
    lock = sqlite3.connect(store.settings.working, isolation_level=None, timeout=patience_s)
    try:
        try:
            lock.execute("BEGIN EXCLUSIVE")
        except sqlite3.OperationalError as taken:
            raise Conflict("Another process is doing this home's work already. One is enough.") from taken
        yield
    finally:
        lock.close()


def _owners_alone(place: Path) -> None:
    """SQLite gives its other files the rights of the first."""
    os.close(os.open(place, os.O_WRONLY | os.O_CREAT, 0o600))
