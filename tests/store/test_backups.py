"""Backup and restore."""

from __future__ import annotations

import json
import zipfile
from pathlib import Path

import pytest
from sqlalchemy import select

from archive.errors import CannotRead, Conflict
from archive.people.model import Person
from archive.settings import Settings
from archive.store import backups
from archive.store.homes import open_home
from archive.store.session import Store


@pytest.fixture
def kept(empty_home: Store) -> Store:
    """A home with one record and one file."""
    empty_home.files.keep_bytes(b"a voice")
    with empty_home.changing("tests") as session:
        session.add(Person(ref="P-1", name="Ada Birch", roles=[]))
    return empty_home


def test_a_backup_is_never_written_over(kept: Store, tmp_path: Path) -> None:
    """An existing file stays as it is."""
    target = tmp_path / "there.zip"
    target.write_text("precious")
    with pytest.raises(Conflict, match="exists already"):
        backups.backup(kept, target)
    assert target.read_text() == "precious"


def test_a_home_is_never_restored_over(kept: Store, tmp_path: Path) -> None:
    """A folder with anything in it is left alone."""
    backups.backup(kept, tmp_path / "b.zip")
    with pytest.raises(Conflict, match="not empty"):
        backups.restore(kept.settings, tmp_path / "b.zip")


@pytest.mark.parametrize("content", [b"", b"PK", b"not a zip at all"])
def test_what_is_no_backup_is_told(content: bytes, tmp_path: Path) -> None:
    """A wrong file is named as such, and no home is left behind."""
    source = tmp_path / "b.zip"
    source.write_bytes(content)
    with pytest.raises(CannotRead, match="not a whole backup"):
        backups.restore(Settings(tmp_path / "new"), source)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["b.zip"]


@pytest.mark.parametrize("name", ["../outside", "files/ab/cd"])
def test_a_backup_that_was_tampered_with_is_refused(name: str, kept: Store, tmp_path: Path) -> None:
    """A member that would lie outside, or is not what the list says, stops the whole restore."""
    source = tmp_path / "b.zip"
    with zipfile.ZipFile(source, "w") as archive:
        archive.writestr(name, b"other bytes")
        archive.writestr(backups.LIST, json.dumps({name: "0" * 64}))
    with pytest.raises(CannotRead):
        backups.restore(Settings(tmp_path / "new"), source)
    assert not (tmp_path / "new").exists()
    assert not (tmp_path / "outside").exists()


def test_a_home_restored_is_the_home_backed_up(kept: Store, tmp_path: Path) -> None:
    """Records and files are all there, and the old home is untouched."""
    count = backups.backup(kept, tmp_path / "b.zip")
    settings = Settings(tmp_path / "new")
    assert backups.restore(settings, tmp_path / "b.zip") == count == 2
    restored = open_home(settings)
    with restored.session() as session:
        assert session.scalars(select(Person.name)).all() == ["Ada Birch"]
    names = [{path.name for path in store.settings.files.glob("??/*")} for store in (kept, restored)]
    assert names[0] == names[1]
    restored.close()
