"""Files kept by checksum."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from archive.errors import NotFound
from archive.store.files import FileStore


def test_a_file_that_is_not_kept_is_told(tmp_path: Path) -> None:
    """Asking for an unknown checksum says what to do."""
    with pytest.raises(NotFound, match="backup"):
        FileStore(tmp_path).path("ab" * 32)


def test_a_maker_that_fails_leaves_nothing(tmp_path: Path) -> None:
    """A file is kept whole or not at all."""

    def fail(path: Path) -> None:
        path.write_bytes(b"half")
        raise OSError("the disk is full")

    store = FileStore(tmp_path / "files")
    with pytest.raises(OSError, match="full"):
        store.keep_made(fail)
    assert list((tmp_path / "files").iterdir()) == []


def test_a_kept_file_is_found_by_the_checksum_of_its_bytes(tmp_path: Path) -> None:
    """The name is the SHA-256, the bytes are the same, and the source stays."""
    source = tmp_path / "master.wav"
    source.write_bytes(b"sound" * 1000)
    store = FileStore(tmp_path / "files")
    sha256, size = store.keep(source)
    assert sha256 == hashlib.sha256(source.read_bytes()).hexdigest()
    assert size == 5000
    assert store.path(sha256).read_bytes() == source.read_bytes()


def test_keeping_the_same_bytes_twice_keeps_one_file(tmp_path: Path) -> None:
    """A second copy costs nothing and changes nothing."""
    store = FileStore(tmp_path)
    assert store.keep_bytes(b"same") == store.keep_bytes(b"same")
    assert len(list(tmp_path.glob("??/*"))) == 1
    assert list(tmp_path.glob(".new-*")) == []
