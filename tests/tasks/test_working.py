"""The process that does jobs: alone in a home, and nothing is lost when it is killed."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from archive.jobs import edits, queries
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.session import Store
from archive.tasks.queue import hand_over

# A worker that knows two kinds of work for tests: one tells that it has begun and waits to be killed, one is quick.
WORKER = """
import sys, threading
from pathlib import Path
from archive.settings import Settings
from archive.store.homes import open_home
from archive.tasks import kinds, queue

home = Path(sys.argv[1])

def linger(store, inputs, progress):
    mark = home / "begun"
    first = not mark.exists()
    mark.touch()
    print("begun", flush=True)
    if first:
        threading.Event().wait()
    return {"again": True}

def quick(store, inputs, progress):
    print("quick", flush=True)
    return {"quick": True}

kinds.KINDS.update({"linger": linger, "quick": quick})
queue.work(open_home(Settings(home)))
"""


@pytest.fixture
def real_home(tmp_path: Path) -> Iterator[Store]:
    """A home whose jobs are done by another process, as a museum's are."""
    store = make_home(Settings(tmp_path / "home"))
    yield store
    store.close()


@contextmanager
def worker(store: Store) -> Iterator[subprocess.Popen[str]]:
    """A process that does the home's jobs, killed at the end."""
    command = [sys.executable, "-c", WORKER, str(store.settings.home)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as process:
        try:
            yield process
        finally:
            process.kill()


def ask(store: Store, kind: str) -> str:
    """A job, asked and handed over."""
    with store.changing("guide") as session:
        key = edits.ask(session, kind, {}, "guide").key
    hand_over(store, key)
    return key


def said(process: subprocess.Popen[str]) -> str:
    """The next line that a process says; waits for it."""
    assert process.stdout
    return process.stdout.readline().strip()


def outcome(store: Store, key: str) -> object:
    """What came of a job."""
    with store.session() as session:
        return queries.job(session, key).outcome


@pytest.mark.slow
def test_a_second_worker_is_refused(real_home: Store) -> None:
    """Two would do the same work twice."""
    with worker(real_home) as first:
        ask(real_home, "quick")
        assert said(first) == "quick"
        with worker(real_home) as second:
            assert "One is enough" in second.communicate(timeout=60)[1]


@pytest.mark.slow
def test_a_job_cut_short_by_a_kill_is_done_by_the_next_worker(real_home: Store) -> None:
    """The table of jobs remembers what was in hand; the next process begins it again and ends it."""
    key = ask(real_home, "linger")
    with worker(real_home) as first:
        assert said(first) == "begun"
        first.kill()
        first.wait()
    assert outcome(real_home, key) is None
    with worker(real_home) as second:
        assert said(second) == "begun"
        second.send_signal(signal.SIGINT)  # it ends what it has in hand
        second.wait()
    assert outcome(real_home, key) == {"again": True}


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights in another way")
def test_the_queue_is_its_owners_alone(real_home: Store) -> None:
    """Nobody else on the machine may read or fill it."""
    ask(real_home, "quick")
    assert real_home.settings.jobs.stat().st_mode & 0o077 == 0
