"""Which copies may be heard, and the making of what is missing. The records are made here by hand."""

from __future__ import annotations

import hashlib
import multiprocessing
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import pytest
import soundfile
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import delete, select

from archive.audio.levels import Levels
from archive.errors import NotReady
from archive.interviews import renditions
from archive.interviews.closing import merged
from archive.interviews.model import CutClip, Interview, Recording, Rendition, TranscriptFile
from archive.interviews.rendition_queries import is_in_use
from archive.interviews.renditions import fingerprint, make_missing, servable
from archive.records import metadata
from archive.rights.model import Closure
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.model import Event, KeptFile
from archive.store.session import Store
from archive.values.timecode import Span

KEPT = KeptFile.__table__.c.sha256
RATE = 48_000
FORMS = ("webm", "mp3", "waveform")


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """An empty home."""
    made = make_home(Settings(tmp_path / "home", testing=True))
    yield made
    made.close()


def add_recording(
    store: Store, folder: Path, ref: str = "I-01-a", *, seconds: float = 3, supplied: bool = False
) -> str:
    """A recording of a full-scale tone; with `supplied`, its WebM master may be served as it came."""
    path = folder / f"{ref}.{'webm' if supplied else 'wav'}"
    tone = np.sin(2 * np.pi * (300 + len(ref)) * np.arange(round(seconds * RATE)) / RATE)
    _write_webm(path, tone) if supplied else soundfile.write(path, tone, RATE)
    sha256, size = store.files.keep(path)
    with store.changing("tests") as session:
        session.add(KeptFile(sha256=sha256, size=size, media_type="audio/webm" if supplied else "audio/wav"))
        interview = Interview(ref=f"of-{ref}", title="A morning in the shop", language="en-GB")
        session.add(interview)
        session.flush()
        recording = Recording(
            ref=ref,
            position=0,
            master_name=path.name,
            master_sha256=sha256,
            duration_ms=round(seconds * 1000),
            codec="opus" if supplied else "pcm_s16le",
            sample_rate=RATE,
            channels=1,
        )
        interview.recordings.append(recording)
        if supplied:
            recording.renditions.append(Rendition(kind="supplied", form="webm", file_name="a.webm", sha256=sha256))
    return sha256


def _write_webm(path: Path, tone: np.ndarray) -> None:
    with av.open(str(path), "w") as container:
        stream = container.add_stream("libopus", rate=RATE)
        stream.layout = "mono"
        frame = av.AudioFrame.from_ndarray((tone * 32_000).astype(np.int16)[None, :], "s16", "mono")
        frame.sample_rate, frame.pts, frame.time_base = RATE, 0, Fraction(1, RATE)
        container.mux(stream.encode(frame))
        container.mux(stream.encode(None))


def close(store: Store, start_ms: int, end_ms: int, ref: str = "I-01-a") -> None:
    """Close a stretch."""
    with store.changing("tests") as session:
        recording = session.scalars(select(Recording).where(Recording.ref == ref)).one()
        recording.closures.append(
            Closure(Span(start_ms, end_ms), (), recording.duration_ms, reason="a workmate's illness")
        )


def served(store: Store, form: str, ref: str = "I-01-a") -> Path:
    """The file that would be served now."""
    with store.session() as session:
        recording = session.scalars(select(Recording).where(Recording.ref == ref)).one()
        return store.files.path(servable(recording, form).sha256)


def loudest(path: Path, start_s: float, end_s: float) -> float:
    """The strongest sample of a stretch of a mono file."""
    with av.open(str(path)) as container:
        rate = container.streams.audio[0].rate
        samples = np.concatenate([frame.to_ndarray().reshape(-1) for frame in container.decode(audio=0)])
    return float(np.abs(samples[round(start_s * rate) : round(end_s * rate)]).max())


def packets(path: Path) -> list[bytes]:
    """The encoded packets of a file."""
    with av.open(str(path)) as container:
        return [bytes(packet) for packet in container.demux(audio=0)]


@pytest.mark.parametrize("form", FORMS)
def test_nothing_is_served_before_it_is_made(store: Store, tmp_path: Path, form: str) -> None:
    """A WAV master is never served; without a copy the recording is not ready."""
    add_recording(store, tmp_path)
    with pytest.raises(NotReady, match="Try again"):
        served(store, form)


def test_a_closure_silences_the_supplied_file_at_once(store: Store, tmp_path: Path) -> None:
    """The supplied file is served while nothing is closed, and from the moment of a closure no more."""
    master = add_recording(store, tmp_path, supplied=True)
    assert served(store, "webm").name == master
    close(store, 1000, 2000)
    with pytest.raises(NotReady):
        served(store, "webm")
    make_missing(store)
    assert served(store, "webm").name != master


def test_a_supplied_row_never_serves_a_closed_recording(store: Store, tmp_path: Path) -> None:
    """Even a supplied row that bears the right fingerprint is not served: nobody masked it."""
    add_recording(store, tmp_path, supplied=True)
    close(store, 1000, 2000)
    with store.changing("tests") as session:
        row = session.scalars(select(Rendition)).one()
        row.closed = fingerprint(session.scalars(select(Closure)).all())
    with pytest.raises(NotReady):
        served(store, "webm")


def test_what_was_made_before_a_closure_is_not_served_after_it(store: Store, tmp_path: Path) -> None:
    """Access copies and levels made for other closures are passed over, then deleted with their bytes."""
    add_recording(store, tmp_path)
    make_missing(store)
    old = {form: served(store, form) for form in FORMS}
    close(store, 1000, 2000)
    for form in FORMS:
        with pytest.raises(NotReady):
            served(store, form)
    make_missing(store)
    new = {form: served(store, form) for form in FORMS}
    for form in FORMS:
        assert not old[form].exists(), form
        assert new[form].exists(), form
    with store.session() as session:
        kept = set(session.scalars(select(KeptFile.sha256)))
        assert len(session.scalars(select(Rendition)).all()) == len(FORMS)
    assert not kept & {path.name for path in old.values()}


def test_the_copies_of_a_closed_recording_are_masked(store: Store, tmp_path: Path) -> None:
    """What is served of a closed recording is silent there and loud elsewhere, and its levels are flat there."""
    add_recording(store, tmp_path, supplied=True)
    close(store, 1000, 2000)
    assert make_missing(store).made == 3
    for form in ("webm", "mp3"):
        assert loudest(served(store, form), 1.0, 2.0) < 1e-4
        assert loudest(served(store, form), 0.2, 0.9) > 0.7
        assert loudest(served(store, form), 2.1, 2.8) > 0.7
    levels = Levels.from_bytes(served(store, "waveform").read_bytes())
    # A step of 100 ms is flat as soon as the guard reaches into it.
    assert [peak == 0 for peak in levels.peaks] == [9 <= step < 21 for step in range(30)]


def test_a_copy_without_the_guard_is_stale(store: Store, tmp_path: Path) -> None:
    """A home of an older Lemel masked the closure alone: its copies are not served, and others are made."""
    add_recording(store, tmp_path)
    close(store, 1000, 2000)
    make_missing(store)
    bare = hashlib.sha256(b"1000-2000").hexdigest()
    with store.changing("tests") as session:
        for rendition in session.scalars(select(Rendition)):
            rendition.closed = bare
    for form in FORMS:
        with pytest.raises(NotReady):
            served(store, form)
    assert make_missing(store).made == len(FORMS)
    with store.session() as session:
        assert bare not in set(session.scalars(select(Rendition.closed)))


def test_a_lifted_closure_brings_the_supplied_file_back(store: Store, tmp_path: Path) -> None:
    """When the closure ends, the masked copies go and the supplied file serves again."""
    master = add_recording(store, tmp_path, supplied=True)
    close(store, 1000, 2000)
    make_missing(store)
    with store.changing("tests") as session:
        session.execute(delete(Closure))
    make_missing(store)
    assert served(store, "webm").name == master
    assert loudest(served(store, "mp3"), 1.05, 1.95) > 0.7


def test_each_copy_that_is_made_is_an_event_of_its_file(store: Store, tmp_path: Path) -> None:
    """A PREMIS creation for each, and again for those that are made after a closure; none where nothing is made."""
    add_recording(store, tmp_path)
    for _time in range(2):
        make_missing(store, processes=1)
    close(store, 500, 900)
    make_missing(store, processes=1)
    with store.session() as session:
        made = session.scalars(select(Event.detail).where(Event.kind == "creation").order_by(Event.id)).all()
    assert sorted(made) == sorted(2 * [f"access copy of I-01-a, {form}" for form in FORMS])


def test_nothing_is_made_twice(store: Store, tmp_path: Path) -> None:
    """A supplied form is not made again, and a second run finds nothing to do."""
    add_recording(store, tmp_path, supplied=True)
    assert make_missing(store).made == 2
    assert make_missing(store).made == 0


def test_levels_alone_come_from_a_supplied_mp3_unless_something_is_closed(store: Store, tmp_path: Path) -> None:
    """Levels of the quicker file are as good; but what is closed is only ever masked in the master."""
    add_recording(store, tmp_path, supplied=True)
    quiet = tmp_path / "quiet.mp3"
    soundfile.write(quiet, np.zeros(3 * RATE), RATE, format="MP3")
    sha256, size = store.files.keep(quiet)
    with store.changing("tests") as session:
        session.add(KeptFile(sha256=sha256, size=size, media_type="audio/mpeg"))
        session.flush()
        recording = session.scalars(select(Recording)).one()
        recording.renditions.append(Rendition(kind="supplied", form="mp3", file_name="a.mp3", sha256=sha256))
    make_missing(store)
    assert max(Levels.from_bytes(served(store, "waveform").read_bytes()).peaks) < 5
    close(store, 1000, 2000)
    make_missing(store)
    assert max(Levels.from_bytes(served(store, "waveform").read_bytes()).peaks) > 200
    assert loudest(served(store, "mp3"), 0.2, 0.9) > 0.7


def test_a_master_that_browsers_play_is_not_encoded_again(store: Store, tmp_path: Path) -> None:
    """Its copy has the master's own packets while nothing is closed, and is encoded anew, masked, once something is."""
    master = add_recording(store, tmp_path, supplied=True)
    with store.changing("tests") as session:
        session.execute(delete(Rendition))
    make_missing(store)
    assert served(store, "webm").name != master
    assert packets(served(store, "webm")) == packets(store.files.path(master))
    close(store, 1000, 2000)
    make_missing(store)
    assert packets(served(store, "webm")) != packets(store.files.path(master))
    assert loudest(served(store, "webm"), 1.05, 1.95) < 1e-4


def test_a_lost_file_is_made_again(store: Store, tmp_path: Path) -> None:
    """A copy whose bytes are gone (a home restored without them) is made again."""
    add_recording(store, tmp_path)
    make_missing(store)
    lost = served(store, "mp3")
    lost.unlink()
    assert make_missing(store).made == 1
    assert lost.exists()


def test_a_broken_master_does_not_stop_the_others(store: Store, tmp_path: Path) -> None:
    """A master that cannot be read, and one that is missing, are told as faults; the others are made."""
    for ref in ("I-01-a", "I-02-a", "I-03-a"):
        add_recording(store, tmp_path, ref, seconds=1 + int(ref[3]) / 10)
    broken, _ = store.files.keep_bytes(b"no sound at all")
    with store.changing("tests") as session:
        session.add(KeptFile(sha256=broken, size=15, media_type="audio/wav"))
        session.flush()
        first, second = session.scalars(select(Recording).order_by(Recording.ref).limit(2))
        first.master_sha256 = broken
        missing = second.master_sha256
    store.files.remove(missing)
    report = make_missing(store)
    assert {fault.where for fault in report.faults} == {"I-01-a", "I-02-a"}
    assert "text" in str(min(report.faults))
    assert report.made == 3
    assert served(store, "mp3", "I-03-a").exists()


def test_stopped_half_way_it_goes_on_where_it_was(store: Store, tmp_path: Path) -> None:
    """Stopped after the first recording, all that is in the database is whole, and the next run makes the rest."""
    for ref in ("I-01-a", "I-02-a"):
        add_recording(store, tmp_path, ref, seconds=1 + int(ref[3]) / 10)

    def stop(done: int, of: int, ref: str) -> None:
        assert (done, of) == (1, 2)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        make_missing(store, stop)
    with store.session() as session:
        rows = session.scalars(select(Rendition)).all()
        assert len(rows) == 3
        assert all(store.files.holds(row.sha256) for row in rows)
    assert make_missing(store).made == 3


def test_a_closure_made_meanwhile_wins(store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Copies of a recording that is closed while they are being made are not written down."""
    add_recording(store, tmp_path)
    really_do = renditions.do

    def closed_meanwhile(job: renditions.Job) -> renditions.Outcome:
        outcome = really_do(job)
        close(store, 1000, 2000)
        return outcome

    monkeypatch.setattr(renditions, "do", closed_meanwhile)
    assert make_missing(store).made == 0
    with pytest.raises(NotReady):
        served(store, "mp3")


def test_two_processes_make_the_same(store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Shared out over spawned processes the files are the same, and progress is told once for each recording."""
    add_recording(store, tmp_path, "I-01-a")
    make_missing(store)
    alone = served(store, "webm").name
    with store.changing("tests") as session:
        session.execute(delete(Rendition))
    add_recording(store, tmp_path, "I-02-a", seconds=1)
    monkeypatch.setattr(renditions, "_WORTH_PROCESSES_MS", 0)
    told: list[tuple[int, int]] = []
    report = make_missing(store, lambda done, of, ref: told.append((done, of)))
    assert (report.made, report.faults, told) == (6, (), [(1, 2), (2, 2)])
    assert served(store, "webm").name == alone
    assert not multiprocessing.active_children()


def test_a_supplied_file_is_passed_on_without_its_words(store: Store, tmp_path: Path) -> None:
    """A name in the tags of a file that came fit for browsers stays with the master and reaches no listener."""
    master = add_recording(store, tmp_path, supplied=True)
    tagged = tmp_path / "tagged.webm"
    with av.open(str(store.files.path(master))) as source, av.open(str(tagged), "w") as target:
        target.metadata["title"] = "Abel Secret"
        stream = target.add_stream_from_template(source.streams.audio[0])
        for packet in source.demux(audio=0):
            if packet.dts is not None:
                packet.stream = stream
                target.mux(packet)
    told, size = store.files.keep(tagged)
    with store.changing("tests") as session:
        session.add(KeptFile(sha256=told, size=size, media_type="audio/webm"))
        session.flush()
        session.scalars(select(Recording)).one().master_sha256 = told
        session.scalars(select(Rendition)).one().sha256 = told
    assert b"Abel Secret" in served(store, "webm").read_bytes()
    assert make_missing(store).faults == ()
    assert b"Abel" not in served(store, "webm").read_bytes()
    assert b"Abel Secret" in store.files.path(told).read_bytes()
    bare = served(store, "webm").name
    make_missing(store)
    assert served(store, "webm").name == bare


def test_a_copy_whose_bytes_serve_something_else_is_kept(store: Store, tmp_path: Path) -> None:
    """A copy goes with its closures, its bytes only when nothing at all rests on them: every table that leads there."""
    add_recording(store, tmp_path)
    make_missing(store)
    copy = served(store, "mp3")
    columns = [key.parent for table in metadata.sorted_tables for key in table.foreign_keys if key.column is KEPT]
    assert {column.table.name for column in columns} >= {"rendition", "recording", "cut_clip", "transcript_file"}
    with store.changing("tests") as session:
        assert is_in_use(session, copy.name)
        key = session.scalars(select(Recording.id)).one()
        session.execute(delete(Rendition))
        assert not is_in_use(session, copy.name)
        for other in (
            TranscriptFile(recording_id=key, file_name="a.docx", form="docx", sha256=copy.name, who="tests"),
            CutClip(recording_id=key, made_from="x", form="mp3", sha256=copy.name),
        ):
            session.add(other)
            session.flush()
            assert is_in_use(session, copy.name)
            session.delete(other)
            session.flush()
            assert not is_in_use(session, copy.name)
        session.get_one(Recording, key).facts = {"levels": {"10": copy.name}}
        session.flush()
        assert is_in_use(session, copy.name)


SPANS = st.lists(st.tuples(st.integers(0, 9), st.integers(10, 20)).map(lambda at: Span(at[0] * 100, at[1] * 100)))


@given(SPANS, SPANS)
def test_the_fingerprint_is_that_of_what_is_masked(one: list[Span], other: list[Span]) -> None:
    """Order and repetition do not matter; where anything else is masked it is another; none gives ""."""
    first, again, second = ([Closure(span, (), 5000) for span in spans] for spans in (one, one[::-1] * 2, other))
    assert fingerprint(first) == fingerprint(again)
    assert (fingerprint(first) == fingerprint(second)) == (merged(first) == merged(second))
    assert (fingerprint(first) == "") == (not one)
