"""Fixity: files are read again and compared."""

from __future__ import annotations

import pytest
from sqlalchemy import select

from archive.store.fixity import check_files
from archive.store.model import Event, KeptFile
from archive.store.queries import unsound_files
from archive.store.session import Store


@pytest.fixture
def kept(empty_home: Store) -> dict[str, str]:
    """Three kept files of an otherwise empty home, by content."""
    found = {}
    with empty_home.changing("tests") as session:
        for content in ("one", "two", "three"):
            sha256, size = empty_home.files.keep_bytes(content.encode())
            session.add(KeptFile(sha256=sha256, size=size, media_type="audio/wav"))
            found[content] = sha256
    return found


def test_a_changed_and_a_missing_file_are_found(empty_home: Store, kept: dict[str, str]) -> None:
    """One bit turned and one file gone are both told, kept with the file, and written down as events."""
    empty_home.files.path(kept["two"]).write_bytes(b"twO")
    empty_home.files.path(kept["three"]).unlink()
    found = {finding.sha256: finding.state for finding in check_files(empty_home)}
    assert found == {kept["two"]: "changed", kept["three"]: "missing"}
    with empty_home.session() as session:
        assert {file.sha256 for file in unsound_files(session)} == set(found)
        events = session.scalars(select(Event).where(Event.kind == "fixity check")).all()
    assert sorted(event.outcome for event in events) == ["changed", "missing", "sound"]


def test_sound_files_are_told_as_sound(empty_home: Store, kept: dict[str, str]) -> None:
    """Nothing is found, and each file remembers when it was read."""
    steps: list[tuple[int, int]] = []
    assert check_files(empty_home, lambda done, total: steps.append((done, total))) == []
    assert steps == [(1, 3), (2, 3), (3, 3)]
    with empty_home.session() as session:
        assert all(file.checked_at and file.sound for file in session.scalars(select(KeptFile)))
