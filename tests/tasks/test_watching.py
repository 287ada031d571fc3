"""The inbox and the fixity of files, looked after by the working process."""

from __future__ import annotations

import datetime as dt
import os
from pathlib import Path

import pytest
from sqlalchemy import update

from archive.errors import Conflict
from archive.interviews.intake import edits, queries
from archive.jobs.queries import job
from archive.settings import Settings
from archive.store.base import utc_now
from archive.store.fixity import check_files, check_next
from archive.store.model import KeptFile
from archive.store.queries import events_of, kept_files, unsound_files
from archive.store.session import Store
from archive.tasks.doing import do
from archive.tasks.watching import WHO, Watch
from tests.interviews.intake.sounds import write


@pytest.fixture
def watch(home: Store) -> Watch:
    """A watch that does its work at once."""
    (home.settings.inbox / "I-1").mkdir(parents=True)
    return Watch(home, lambda key: do(home, key))


def states(store: Store) -> list[tuple[str, str, str]]:
    """Every upload of the inbox that has ended: name, state, words."""
    with store.session() as session:
        return [(row.file_name, row.state, row.says) for row in queries.ended_uploads(session)]


def test_a_file_laid_in_the_inbox_is_taken_in(home: Store, watch: Watch) -> None:
    """Once it has stood still between two looks it is moved out, taken in, and told in the list."""
    place = write(home.settings.inbox / "I-1" / "tape.wav")
    watch.begin()
    watch.look()
    assert place.exists()
    watch.look()
    assert not place.exists()
    assert states(home) == [("tape.wav", "taken in", "Taken in as I-1-b.")]
    assert [path.name for path in home.settings.incoming.iterdir()] == ["making"]


def test_text_in_the_inbox_is_set_aside(home: Store, watch: Watch) -> None:
    """It leaves the inbox, and is kept with its reason."""
    (home.settings.inbox / "I-1" / "notes.wav").write_text("No sound")
    watch.look()
    watch.look()
    assert states(home)[0][:2] == ("notes.wav", "dropped")
    assert len(list(home.settings.unreadable.glob("*notes.wav"))) == 1


@pytest.mark.skipif(os.name == "nt", reason="needs links")
def test_a_link_put_in_a_files_place_is_not_followed(
    home: Store, watch: Watch, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Exchanged after the look and before the move: it is refused with words, and what it leads to stays outside."""
    secret = write(tmp_path / "secret.wav")
    place, replace = write(home.settings.inbox / "I-1" / "tape.wav"), os.replace

    def exchanged(source: Path, target: Path) -> None:
        if source == place:
            place.unlink()
            place.symlink_to(secret)
        replace(source, target)

    watch.look()
    monkeypatch.setattr("archive.tasks.watching.os.replace", exchanged)
    watch.look()
    with home.session() as session:
        [row] = queries.uploads(session)
    assert row.state == "refused"
    assert "not a plain file" in row.says
    assert not list(home.settings.unreadable.glob("*"))
    assert secret.exists()


@pytest.mark.parametrize("moved", [True, False])
def test_killed_while_it_moved_a_file_it_goes_on(home: Store, watch: Watch, moved: bool) -> None:
    """Whichever side of the move it was: the file is taken in once."""
    place = write(home.settings.inbox / "I-1" / "tape.wav")
    home.settings.incoming.mkdir()
    with home.changing(WHO) as session:
        row = edits.begin_upload(session, "I-1", "tape.wav", place.stat().st_size, WHO)
    if moved:
        os.replace(place, home.settings.incoming / row.key)
    for deed in (watch.begin, watch.look, watch.look, watch.look):
        deed()
    assert [state for _name, state, _says in states(home)].count("taken in") == 1
    with home.session() as session:
        assert [each.ref for each in queries.recordings(session)].count("I-1-b") == 1


def test_a_job_done_twice_takes_a_file_in_once(home: Store, watch: Watch) -> None:
    """As after a kill between the commit of the recording and the end of the job."""
    write(home.settings.inbox / "I-1" / "tape.wav")
    watch.look()
    watch.look()
    with home.changing("tests") as session:
        row = queries.ended_uploads(session)[0]
        job(session, row.job).state = "waiting"
    do(home, row.job)
    with home.session() as session:
        assert {each.ref for each in queries.recordings(session)} >= {"I-1-a", "I-1-b"}
        assert "I-1-c" not in {each.ref for each in queries.recordings(session)}
        assert job(session, row.job).state == "done"


def test_files_are_read_again_in_turn(home: Store) -> None:
    """The one that was read longest ago comes first; none before its time; each reading leaves an event."""
    while check_next(home):
        # Copies that were made at the load were never read, and come at once.
        continue
    with home.changing("tests") as session:
        long_ago = utc_now() - dt.timedelta(days=200)
        session.execute(update(KeptFile).values(checked_at=long_ago))
    first = check_next(home)
    assert first is not None
    second = check_next(home)
    assert second is not None
    assert second.sha256 != first.sha256
    with home.session() as session:
        kinds = [event.kind for event in events_of(session, [first.sha256])]
        assert all(file.checked_at for file in kept_files(session))
    assert "fixity check" in kinds


def test_a_changed_file_is_told(home: Store) -> None:
    """By the turn and by the whole check alike, and it stays told until it is sound again."""
    with home.changing("tests") as session:
        sha256 = queries.recording(session, "I-1-a").master_sha256
        session.execute(update(KeptFile).values(checked_at=utc_now()))
        old = update(KeptFile).where(KeptFile.sha256 == sha256)
        session.execute(old.values(checked_at=utc_now() - dt.timedelta(days=91)))
    place = home.files.path(sha256)
    whole = place.read_bytes()
    place.write_bytes(whole[:-1] + b"\0")
    found = check_next(home)
    assert (found.sha256, found.state) == (sha256, "changed") if found else False
    with home.session() as session:
        assert [file.sha256 for file in unsound_files(session)] == [sha256]
    assert [each.sha256 for each in check_files(home)] == [sha256]
    place.write_bytes(whole)
    assert check_files(home) == []
    with home.session() as session:
        assert len([event for event in events_of(session, [sha256]) if event.kind == "fixity check"]) == 3
        assert not unsound_files(session)


def test_a_wrong_number_of_days_is_told(tmp_path: Path) -> None:
    """With what was given and what is allowed."""
    with pytest.raises(Conflict, match="LEMEL_FIXITY_DAYS is 'often'"):
        check_next(Store(Settings(tmp_path, fixity_days="often")))
