"""Taking a folder into a home: whole or not at all, and never over what stands there without being asked."""

from __future__ import annotations

import os
import signal
import sqlite3
import subprocess
import sys
import textwrap
from contextlib import closing
from pathlib import Path

import pytest

from archive.errors import Conflict, Unacceptable
from archive.exchange import loading
from archive.exchange.loading import load
from archive.exchange.replacing import STAYS
from archive.interviews.clips.cutting import sound_of
from archive.interviews.model import Clip, CutClip, Interview, Recording, Rendition, Segment
from archive.records import metadata
from archive.store.model import Event, KeptFile, Load
from archive.store.queries import count_of, everything, kept_files, last_load
from archive.store.session import Store
from archive.tours.model import Outing, Tour
from tests.conftest import TODAY
from tests.small_collection import append, swap, write_small_collection


def titles(store: Store) -> list[str]:
    """The titles of all interviews."""
    with store.session() as session:
        return [interview.title for interview in everything(session, Interview)]


def files_on_disk(store: Store) -> set[str]:
    """The checksums that the folder of kept files has."""
    return {path.name for path in store.settings.files.glob("??/*")}


def test_a_home_that_holds_a_collection_is_not_loaded_over(home: Store, tmp_path: Path) -> None:
    """It takes --replace, and the refusal says so."""
    with pytest.raises(Conflict, match="--replace"):
        load(home, tmp_path / "small")
    with home.session() as session:
        assert count_of(session, Load) == 1


def test_nothing_is_stored_of_a_folder_with_faults(empty_home: Store, tmp_path: Path) -> None:
    """No record, no event and no file."""
    folder = write_small_collection(tmp_path / "bad", **{"clips.csv": swap("SM.1", "SM.9")})
    with pytest.raises(Unacceptable):
        load(empty_home, folder)
    with empty_home.session() as session:
        assert [count_of(session, kind) for kind in (Interview, Event, KeptFile, Load)] == [0, 0, 0, 0]
    assert files_on_disk(empty_home) == set()


def test_a_failed_replacement_leaves_the_old_state(
    home: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An error in the middle of storing takes back both the records and the files that were new."""
    folder = write_small_collection(tmp_path / "new", **{"interviews/I-1/interview.toml": swap("Ada Birch", "Ada B.")})
    (folder / "pictures" / "SM.1.png").write_bytes((folder / "pictures" / "SM.2.png").read_bytes())
    before, records = files_on_disk(home), titles(home)

    def fail(*_: object) -> None:
        raise OSError("the disk is full")

    monkeypatch.setattr(loading, "put_back", fail)
    with pytest.raises(OSError, match="the disk is full"):
        load(home, folder, replace=True)
    assert titles(home) == records
    assert files_on_disk(home) == before


def test_every_table_is_either_of_the_collection_or_the_homes_own() -> None:
    """A new table must be thought about: whether a load empties it."""
    known = set(metadata.tables) & STAYS
    given = {"outing", "outing_entry", "departure", "machine_run", "out_of_use"}
    own = given | {"account", "sign_in_try", "job", "upload"}
    assert known == own | {"change", "event", "load", "kept_file"}
    assert {"collection", "interview", "segment", "tie", "station", "tour"} <= set(metadata.tables) - STAYS


def test_a_load_is_written_down(home: Store) -> None:
    """Its counts, and for each file the two events that PREMIS names."""
    with home.session() as session:
        row = last_load(session)
        assert row is not None
        assert row.counts["segments"] == 9
        assert row.counts["interviews"] == 2
        kinds = [event.kind for event in everything(session, Event)]
        assert kinds.count("ingestion") == kinds.count("message digest calculation") == 5
        assert count_of(session, KeptFile) >= 5


def test_files_are_kept_by_checksum_as_they_came(home: Store, tmp_path: Path) -> None:
    """The master's bytes are the folder's."""
    with home.session() as session:
        recording = everything(session, Recording)[0]
    kept = home.files.path(recording.master_sha256).read_bytes()
    assert kept == (tmp_path / "small" / "interviews" / "I-1" / "audio.flac").read_bytes()


def test_copies_to_listen_to_are_made_at_the_end(home: Store) -> None:
    """Each recording has one of each form, and what came in the folder is told apart."""
    with home.session() as session:
        kinds = {(copy.recording_id, copy.kind) for copy in everything(session, Rendition)}
        recordings = [recording.id for recording in everything(session, Recording)]
    assert {(key, "access") for key in recordings} <= kinds
    assert (recordings[0], "supplied") in kinds


def test_replacing_keeps_a_copy_of_the_old_records(home: Store, tmp_path: Path) -> None:
    """A whole database among the backups, and the report says where."""
    folder = write_small_collection(tmp_path / "new", **{"interviews/I-1/interview.toml": swap("Ada Birch", "Ada B.")})
    report = load(home, folder, replace=True)
    (copy,) = home.settings.backups.glob("*.sqlite")
    assert any(str(copy) in note for note in report.notes)
    with closing(sqlite3.connect(copy)) as connection:
        assert connection.execute("select title from interview order by ref").fetchall()[0] == (
            "Ada Birch, press hand",
        )
    assert "Ada B., press hand" in titles(home)


def test_replacing_keeps_what_is_the_homes_own(home: Store, tmp_path: Path) -> None:
    """Outings find their tour again by its reference; accounts and events stay."""
    with home.changing("tests") as session:
        tour = everything(session, Tour)[0]
        session.add(Outing(tour_id=tour.id, given_on=TODAY, group_size=6))
    with home.session() as session:
        events = count_of(session, Event)
    load(home, tmp_path / "small", replace=True)
    with home.session() as session:
        (outing,) = everything(session, Outing)
        assert session.get_one(Tour, outing.tour_id).ref == "t-short"
        assert count_of(session, Event) > events


def test_an_outing_of_a_tour_that_is_gone_stays(home: Store, tmp_path: Path) -> None:
    """It only names no tour any more."""
    with home.changing("tests") as session:
        session.add(Outing(tour_id=everything(session, Tour)[0].id, given_on=TODAY, group_size=6))
    load(home, write_small_collection(tmp_path / "new", **{"tours/t-short.toml": None}), replace=True)
    with home.session() as session:
        assert [outing.tour_id for outing in everything(session, Outing)] == [None]


def test_copies_are_not_made_again_for_the_same_sound(home: Store, tmp_path: Path) -> None:
    """A replacement that leaves sound and closures alone keeps the copies; clips, which are cut anew, are let go of."""
    with home.session() as session:
        before = {copy.sha256 for copy in everything(session, Rendition)}
        clip = sound_of(home, session, everything(session, Clip)[0], "mp3")
    with home.session() as session:
        assert clip in {file.sha256 for file in kept_files(session)}
    load(home, tmp_path / "small", replace=True)
    with home.session() as session:
        assert {copy.sha256 for copy in everything(session, Rendition)} == before
        assert count_of(session, CutClip) == 0
        assert clip not in {file.sha256 for file in kept_files(session)}


def test_what_is_passed_over_is_noted(empty_home: Store, tmp_path: Path) -> None:
    """A picture that no object names is left, and the report says so."""
    folder = write_small_collection(tmp_path / "folder")
    (folder / "pictures" / "SM.7.png").write_bytes((folder / "pictures" / "SM.1.png").read_bytes())
    report = load(empty_home, folder)
    assert any("pictures/SM.7.png" in note for note in report.notes)


def test_a_label_that_is_a_narrators_name_becomes_that_person(empty_home: Store, tmp_path: Path) -> None:
    """So that the name is shown only as the agreement has it."""
    changes = {"interviews/I-1/transcript.vtt": swap("<v P-1>We", "<v ada BIRCH>We")}
    load(empty_home, write_small_collection(tmp_path / "folder", **changes))
    with empty_home.session() as session:
        assert not any("BIRCH" in segment.speaker_label for segment in everything(session, Segment))


def test_progress_is_told_by_stage(empty_home: Store, tmp_path: Path) -> None:
    """Each stage ends at its total."""
    told: list[tuple[str, int, int]] = []
    load(empty_home, write_small_collection(tmp_path / "f"), on_progress=lambda *step: told.append(step))
    last = {stage: (done, total) for stage, done, total in told}
    assert {"Reading the folder", "Keeping files", "Storing records", "Making copies to listen to"} == set(last)
    assert all(done == total for done, total in last.values())


KILLED = """
    import os, signal, sys
    from pathlib import Path
    from archive.exchange import loading
    from archive.settings import Settings
    from archive.store.homes import open_home

    stage = sys.argv[3]
    real = getattr(loading, stage)

    def killed(*arguments, **named):
        if stage == "make_missing":
            os.kill(os.getpid(), signal.SIGKILL)
        result = real(*arguments, **named)
        os.kill(os.getpid(), signal.SIGKILL)

    setattr(loading, stage, killed)
    loading.load(open_home(Settings(Path(sys.argv[1]))), Path(sys.argv[2]), replace=True)
"""


@pytest.mark.skipif(os.name == "nt", reason="there is no such signal on Windows")
@pytest.mark.parametrize(
    "stage", ["read_folder", "keep_files", "clear_records", "store_draft", "put_back", "make_missing"]
)
def test_a_load_that_is_killed_leaves_old_or_new_and_never_a_mixture(home: Store, tmp_path: Path, stage: str) -> None:
    """Killed without warning after each step; the home then opens as it was, or as it should be, and loads again."""
    changes = {
        "interviews/I-1/interview.toml": swap("Ada Birch", "Ada B."),
        "terms.csv": append("t-new,new,en-GB,New.,,,,\n"),
    }
    folder = write_small_collection(tmp_path / "new", **changes)
    ended = subprocess.run(
        [sys.executable, "-c", textwrap.dedent(KILLED), str(home.settings.home), str(folder), stage], timeout=120
    )
    assert ended.returncode == -signal.SIGKILL
    first = "Ada B., press hand" if stage == "make_missing" else "Ada Birch, press hand"
    assert titles(home) == [first, "A hand in the loft"]
    load(home, folder, replace=True)
    assert titles(home)[0] == "Ada B., press hand"
