"""Jobs done in place: what comes of them, and that nothing goes wrong silently."""

from __future__ import annotations

from typing import Any

import pytest

from archive.errors import NotFound, OutOfRange
from archive.jobs import edits, queries
from archive.jobs.model import Job
from archive.store.session import Store
from archive.tasks import kinds
from archive.tasks.doing import do
from archive.tasks.progress import Progress, Stopped


def asked(store: Store, kind: str, **inputs: Any) -> str:
    """The key of a new job."""
    with store.changing("guide") as session:
        return edits.ask(session, kind, inputs, "guide").key


def seen(store: Store, key: str) -> Job:
    """The job as it stands."""
    with store.session() as session:
        return queries.job(session, key)


def refuse(_store: Store, inputs: dict[str, Any], _progress: Progress) -> Any:
    """A kind that cannot take what it is given."""
    raise OutOfRange(f"{inputs['minutes']} minutes is too little.")


def double(_store: Store, inputs: dict[str, Any], progress: Progress) -> Any:
    """A kind that works."""
    progress.tell(0.5, "Half way.")
    return {"doubled": inputs["number"] * 2}


def give_way(_store: Store, _inputs: dict[str, Any], progress: Progress) -> Any:
    """A kind that looks whether it shall stop."""
    if progress.stop_asked():
        raise Stopped("Stopped. Nothing was changed.")
    return {}


def test_an_unknown_job_is_not_found(empty_home: Store) -> None:
    """A key that is not there is told as such."""
    with pytest.raises(NotFound):
        do(empty_home, "nowhere")


def test_a_fault_of_ours_is_told_in_its_own_words(empty_home: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """The asker reads what was given and what to do."""
    monkeypatch.setitem(kinds.KINDS, "refuse", refuse)
    key = asked(empty_home, "refuse", minutes=1)
    do(empty_home, key)
    assert (seen(empty_home, key).state, seen(empty_home, key).says) == ("failed", "1 minutes is too little.")


def test_what_breaks_is_written_down_and_raised_again(empty_home: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """The asker is told that it broke, and the log gets the reason."""
    monkeypatch.setitem(kinds.KINDS, "double", double)
    key = asked(empty_home, "double")
    with pytest.raises(KeyError):
        do(empty_home, key)
    assert seen(empty_home, key).state == "failed"
    assert "broke" in seen(empty_home, key).says


def test_a_waiting_job_that_is_stopped_is_never_begun(empty_home: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """Stopping before the start ends it there."""
    monkeypatch.setitem(kinds.KINDS, "double", double)
    key = asked(empty_home, "double", number=4)
    with empty_home.changing("guide") as session:
        edits.stop(session, key)
    do(empty_home, key)
    assert (seen(empty_home, key).state, seen(empty_home, key).outcome) == ("stopped", None)


def test_a_job_at_work_stops_when_it_looks(empty_home: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """The wish to stop is there for the work to see."""
    monkeypatch.setitem(kinds.KINDS, "give way", give_way)
    key = asked(empty_home, "give way")
    with empty_home.changing("guide") as session:
        queries.job(session, key).stop_asked = True
    do(empty_home, key)
    assert (seen(empty_home, key).state, seen(empty_home, key).says) == ("stopped", "Stopped. Nothing was changed.")


def test_a_job_is_done_once(empty_home: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its outcome is kept, and a second delivery of its key does nothing."""
    times = []

    def count(_store: Store, _inputs: dict[str, Any], _progress: Progress) -> Any:
        times.append(1)
        return {"times": len(times)}

    monkeypatch.setitem(kinds.KINDS, "count", count)
    key = asked(empty_home, "count")
    do(empty_home, key)
    do(empty_home, key)
    assert (seen(empty_home, key).state, seen(empty_home, key).outcome) == ("done", {"times": 1})
    assert seen(empty_home, key).share == 1.0


def test_how_far_it_is_can_be_read_meanwhile(empty_home: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """Share and words are told from inside the work."""
    meanwhile = []

    def look(store: Store, _inputs: dict[str, Any], progress: Progress) -> Any:
        progress.tell(0.25, "A quarter.")
        row = seen(store, progress.key)
        meanwhile.append((row.state, row.share, row.says))

    monkeypatch.setitem(kinds.KINDS, "look", look)
    do(empty_home, asked(empty_home, "look"))
    assert meanwhile == [("working", 0.25, "A quarter.")]
