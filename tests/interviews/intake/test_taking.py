"""Taking one master in: what is refused, what is told, what is kept, and what is left after a kill."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from sqlalchemy import select

from archive.audio.levels import Levels
from archive.errors import CannotRead, NotFound
from archive.interviews.intake import passing, queries
from archive.interviews.intake.aside import all_set_aside
from archive.interviews.intake.taking import Came, Given, take_in
from archive.interviews.model import Recording
from archive.interviews.renditions import make_missing, servable
from archive.store.model import KeptFile
from archive.store.queries import events_of
from archive.store.session import Store
from tests.interviews.intake.sounds import write


def taken(store: Store, source: Path, interview: str = "I-1", **more: bool) -> Came:
    """What comes of a file."""
    return take_in(store, Given(source, interview, source.name, "keeper", **more))


def refs(store: Store) -> set[str]:
    """Every recording there is."""
    with store.session() as session:
        return {row.ref for row in queries.recordings(session)}


def is_sound(store: Store) -> bool:
    """Whether every record rests on a whole file."""
    with store.session() as session:
        return all(store.files.holds(sha256) for sha256 in session.scalars(select(KeptFile.sha256)))


def test_an_unknown_interview_is_refused_first(home: Store, tmp_path: Path) -> None:
    """Nothing is kept, and the words name the interviews that there are."""
    before = len(list(home.settings.files.rglob("*")))
    with pytest.raises(NotFound, match="I-1, I-2"):
        taken(home, write(tmp_path / "a.wav"), "I-77")
    assert len(list(home.settings.files.rglob("*"))) == before


@pytest.mark.skipif(os.name == "nt", reason="needs pipes and links")
def test_only_a_plain_file_is_opened(home: Store, tmp_path: Path) -> None:
    """A pipe and a device never end, and a link may lead outside: none is read, and nothing is kept of it."""
    secret, pipe, link = write(tmp_path / "secret.wav"), tmp_path / "pipe.wav", tmp_path / "link.wav"
    os.mkfifo(pipe)
    link.symlink_to(secret)
    before = set(home.settings.files.rglob("*"))
    for source in (pipe, Path("/dev/zero"), link, tmp_path):
        with pytest.raises(CannotRead, match="not a plain file"):
            taken(home, source)
    assert set(home.settings.files.rglob("*")) == before
    assert not any(path.is_file() for path in home.settings.incoming.rglob("*"))


@pytest.mark.parametrize(
    ("name", "content", "why"),
    [
        ("a.wav", b"", "it is empty"),
        ("b.wav", b"Dear Sir, " * 50, "it is text"),
        ("c.m3u", b"#EXTM3U\nhttp://example.invalid/x.mp3\n", "playlist"),
        ("d.mp3", b"\x89PNG\r\n\x1a\n" + bytes(200), "picture"),
        ("e.wav", b"RIFF\xff\xff\xff\xffWAVEfmt \x10\0\0\0" + bytes(16) + b"data\xff\xff\xff\xff", ""),
        ("f.flac", b"fLaC" + bytes(range(256)) * 40, ""),
    ],
)
def test_what_cannot_be_read_is_kept_aside_and_told(
    home: Store, tmp_path: Path, name: str, content: bytes, why: str
) -> None:
    """No record is made of it, no byte of it is lost, and its reason stands beside it."""
    source = tmp_path / name
    source.write_bytes(content)
    before = refs(home)
    came = taken(home, source)
    assert came.state == "unreadable"
    assert why in came.says
    assert refs(home) == before
    aside = all_set_aside(home.settings)
    assert [(each.name, each.interview) for each in aside] == [(name, "I-1")]
    assert (home.settings.unreadable / aside[0].file).read_bytes() == content
    assert not home.files.holds(came.sha256)
    with home.session() as session:
        assert [event.kind for event in events_of(session, [came.sha256])] == ["quarantine"]


def test_a_master_becomes_a_recording_with_all_that_was_found(home: Store, tmp_path: Path) -> None:
    """Facts, likeness, copies that may be served, levels at three zooms, and events in the words of PREMIS."""
    source = write(tmp_path / "tape 3.wav", 8)
    came = taken(home, source)
    assert (came.state, came.recording) == ("taken in", "I-1-b")
    with home.session() as session:
        row = queries.recording(session, "I-1-b")
        assert home.files.path(row.master_sha256).read_bytes() == source.read_bytes()
        assert (row.master_name, row.duration_ms, row.channels, row.sample_rate) == ("tape 3.wav", 8000, 1, 16_000)
        assert (row.transcript_state, row.damage, row.interview.ref) == ("none", "", "I-1")
        assert -60 < row.facts["integrated_lufs"] < 0
        assert row.facts["bits"] == 16
        for form in ("webm", "mp3", "waveform"):
            assert home.files.holds(servable(row, form).sha256)
        for zoom, sha256 in row.facts["levels"].items():
            levels = Levels.from_bytes(home.files.path(sha256).read_bytes())
            assert levels.step_ms == int(zoom)
            assert len(levels.peaks) == 8000 // int(zoom)
        kinds = {event.kind for event in events_of(session, [row.master_sha256])}
        assert kinds == {"message digest calculation", "ingestion", "fixity check"}
        assert [event.kind for event in events_of(session, [servable(row, "mp3").sha256])] == ["creation"]
    assert is_sound(home)


def test_copies_are_made_in_one_way(home: Store, tmp_path: Path) -> None:
    """Whoever makes missing renditions finds none missing of a recording that was taken in."""
    make_missing(home, processes=1)
    taken(home, write(tmp_path / "a.mp3"))
    assert make_missing(home, processes=1).made == 0


def test_a_cut_off_file_is_taken_in_and_marked(home: Store, tmp_path: Path) -> None:
    """Half a FLAC gives half its sound, and the record says where it breaks off."""
    whole = write(tmp_path / "whole.flac", 10)
    half = tmp_path / "half.flac"
    half.write_bytes(whole.read_bytes()[: whole.stat().st_size // 2])
    came = taken(home, half)
    assert came.state == "taken in"
    assert came.damage
    with home.session() as session:
        row = queries.recording(session, came.recording)
        assert 2_000 < row.duration_ms < 9_000
        assert row.damage == came.damage
        assert "validation" in {event.kind for event in events_of(session, [row.master_sha256])}


def test_the_same_file_is_told_and_may_be_taken_in_for_another_interview_alone(home: Store, tmp_path: Path) -> None:
    """Its bytes lie in the home once, however many recordings rest on them."""
    source = write(tmp_path / "a.wav")
    taken(home, source)
    for interview in ("I-1", "I-2"):
        again = taken(home, source, interview)
        assert (again.state, again.recording) == ("same file", "I-1-b")
    assert taken(home, source, "I-1", all_the_same=True).state == "same file"
    other = taken(home, source, "I-2", all_the_same=True)
    assert (other.state, other.recording) == ("taken in", "I-2-b")
    with home.session() as session:
        masters = session.scalars(select(Recording.master_sha256).where(Recording.ref.in_(["I-1-b", "I-2-b"]))).all()
    assert len(set(masters)) == 1


def test_the_same_sound_in_another_format_is_told(home: Store, tmp_path: Path) -> None:
    """And not taken in until somebody says so; another sound of the same length is no twin."""
    taken(home, write(tmp_path / "a.wav", 12))
    again = taken(home, write(tmp_path / "b.mp3", 12), "I-2")
    assert (again.state, again.recording) == ("same sound", "I-1-b")
    assert not home.files.holds(again.sha256)
    assert taken(home, write(tmp_path / "c.wav", 12, seed=2), "I-2").state == "taken in"
    assert taken(home, tmp_path / "b.mp3", "I-2", all_the_same=True).state == "taken in"


def test_what_came_in_a_folder_is_known_by_its_sound_too(home: Store, tmp_path: Path) -> None:
    """A recording of about the same length that was never measured is measured first."""
    taken(home, write(tmp_path / "a.wav", 12))
    with home.changing("tests") as session:
        row = queries.measurable(session, "I-1-b")
        assert row is not None
        row.likeness, row.facts = [], {}
    assert taken(home, write(tmp_path / "b.mp3", 12)).state == "same sound"
    with home.session() as session:
        assert queries.recording(session, "I-1-b").facts["integrated_lufs"] is not None


def test_a_reference_is_never_given_twice(home: Store, tmp_path: Path) -> None:
    """Not even when the recording that had it is gone."""
    taken(home, write(tmp_path / "a.wav"))
    with home.changing("tests") as session:
        session.delete(queries.recording(session, "I-1-b"))
    assert taken(home, write(tmp_path / "b.wav", seed=2)).recording == "I-1-c"


def test_stopped_it_keeps_nothing(home: Store, tmp_path: Path) -> None:
    """Neither records nor files."""
    before = {path.name for path in home.settings.files.rglob("*")}
    came = take_in(home, Given(write(tmp_path / "a.wav"), "I-1", "a.wav", "keeper"), stop=lambda: True)
    assert came.state == "stopped"
    assert {path.name for path in home.settings.files.rglob("*")} - before <= {came.sha256[:2]}


# Stays where it is told to, until it is killed.
SCRIPT = """
import sys, threading
from pathlib import Path
import archive.records
from archive.interviews.intake import edits, taking
from archive.settings import Settings
from archive.store.homes import open_home

def linger(*given, **more):
    print("there", flush=True)
    threading.Event().wait()

def there(share, says):
    if step == "reading" and says == "Reading the recording":
        linger()

def after(function):
    def done(*given, **more):
        function(*given, **more)
        linger()
    return done

if __name__ == "__main__":
    home, source, step = sys.argv[1:]
    if step == "kept":
        taking.pass_over = linger
    if step == "copies":
        taking._master = after(taking._master)
    if step == "records":
        edits.add_recording = after(edits.add_recording)
    store = open_home(Settings(Path(home)))
    came = taking.take_in(store, taking.Given(Path(source), "I-1", "a.wav", "keeper"), progress=there)
    print(came.state, came.recording, flush=True)
"""


@pytest.mark.skipif(os.name == "nt", reason="needs SIGKILL")
@pytest.mark.parametrize("step", ["kept", "reading", "copies", "records"])
def test_killed_at_any_step_it_leaves_no_half_record(home: Store, tmp_path: Path, step: str) -> None:
    """After kill -9 there is no recording and no row without its file, and the next start takes it in."""
    source = write(tmp_path / "a.wav", 20)
    script = tmp_path / "take.py"
    script.write_text(SCRIPT)
    before = refs(home)
    command = [sys.executable, str(script), str(home.settings.home), str(source)]
    with subprocess.Popen([*command, step], stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "there\n"
        process.kill()
        # The process of the pass holds the other end too: at the end of this, it is gone as well.
        process.stdout.read()
    assert refs(home) == before
    assert is_sound(home)
    said = subprocess.run([*command, "none"], capture_output=True, text=True, check=True).stdout
    assert said == "taken in I-1-b\n"
    assert is_sound(home)


def test_a_decoder_that_falls_over_takes_only_itself(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A process of the pass that dies without a word is told as a file that cannot be read."""
    monkeypatch.setattr(passing, "_child", dies)
    source = write(tmp_path / "a.wav")
    with pytest.raises(CannotRead, match="a.wav: reading it broke off"):
        passing.pass_over(source, {}, "a.wav", apart=True, progress=lambda *_told: None, stop=lambda: False)


def dies(*_given: object) -> None:
    """Ends a process as a broken decoder does."""
    os._exit(9)
