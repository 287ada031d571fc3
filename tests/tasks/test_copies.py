"""Copies to listen to are made in the background: asked once, stopped between recordings, carried when work asks."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import delete, select

from archive.errors import NotReady
from archive.interviews.copies_edits import KIND, ask_for_copies
from archive.interviews.intake.edits import measured
from archive.interviews.model import Recording, Rendition
from archive.interviews.renditions import is_missing
from archive.jobs import edits
from archive.jobs.model import Job
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.session import Store
from archive.tasks import copies
from archive.tasks.doing import do
from archive.tasks.watching import Watch
from tests.interviews.test_renditions import add_recording, close, served


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """A home with two short recordings that have no copies yet."""
    made = make_home(Settings(tmp_path / "home", testing=True))
    for number in (1, 2):
        add_recording(made, tmp_path, f"I-0{number}-a", seconds=number / 4)
    yield made
    made.close()


def asked(store: Store) -> str:
    """The key of the work, asked for."""
    with store.changing("keeper") as session:
        return ask_for_copies(session, "keeper")


def the_job(store: Store, key: str) -> Job:
    """How it stands."""
    with store.session() as session:
        return session.scalars(select(Job).where(Job.key == key)).one()


def test_it_is_asked_for_once_while_it_waits(store: Store) -> None:
    """Work that is being done may have passed by what has changed, so then it is asked for again."""
    first = asked(store)
    assert asked(store) == first
    with store.changing("tests") as session:
        edits.begin(session, first)
    second = asked(store)
    assert second != first
    assert asked(store) == second


def test_a_wish_that_is_not_committed_is_none(store: Store) -> None:
    """The wish stands and falls with the change that it is for."""
    with pytest.raises(NotReady), store.changing("keeper") as session:
        ask_for_copies(session, "keeper")
        raise NotReady("x")
    with store.session() as session:
        assert session.scalars(select(Job)).all() == []


def test_what_is_missing_is_made(store: Store) -> None:
    """Done twice, it finds nothing more to do. A master that cannot be read is told and stops nobody."""
    with store.session() as session:
        broken = session.scalars(select(Recording).where(Recording.ref == "I-02-a")).one().master_sha256
    store.files.remove(broken)
    for made in (3, 0):
        key = asked(store)
        do(store, key)
        job = the_job(store, key)
        assert (job.state, job.outcome["made"]) == ("done", made)
        assert "I-02-a" in job.outcome["faults"][0]
    assert served(store, "mp3").exists()


def test_it_stops_between_two_recordings(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """What was made stays and is served; asked for again, the work goes on."""
    key = asked(store)
    monkeypatch.setattr(copies.Progress, "stop_asked", lambda self: True)
    do(store, key)
    job = the_job(store, key)
    assert (job.state, job.says) == ("stopped", copies._STOPPED)
    with store.session() as session:
        assert len(session.scalars(select(Rendition)).all()) == 3
    monkeypatch.undo()
    do(store, asked(store))
    assert not is_missing(store)


def test_the_working_process_makes_what_is_missing_when_it_starts(store: Store) -> None:
    """A home whose copies were masked without a guard, or are gone, needs nobody to ask; a whole one asks nothing."""
    watch = Watch(store, lambda key: do(store, key))
    watch.begin()
    watch.look()
    assert not is_missing(store)
    watch.begin()
    with store.session() as session:
        assert [job.state for job in session.scalars(select(Job))] == ["done"]


def test_a_guard_that_moves_when_a_recording_is_measured_brings_new_copies(store: Store) -> None:
    """Only where it moves; the wish is carried on by the watch, once."""
    do(store, asked(store))
    close(store, 100, 150)
    do(store, asked(store))
    with store.changing("tests") as session:
        session.execute(delete(Job))
        for row in session.scalars(select(Recording)):
            measured(session, row, {"pauses": [[220, 250]]}, "", [], "tests")
    with pytest.raises(NotReady):
        served(store, "webm")
    carried: list[str] = []
    watch = Watch(store, carried.append)
    watch.look()
    watch.look()
    with store.session() as session:
        assert [job.key for job in session.scalars(select(Job).where(Job.kind == KIND))] == carried
    do(store, carried[0])
    assert served(store, "webm").exists()
