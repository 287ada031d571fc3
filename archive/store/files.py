"""Files kept by checksum: written once, whole and synced, never changed."""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from archive.errors import NotFound

_BLOCK = 1 << 20


def checksum(path: Path) -> str:
    """The SHA-256 of a file's bytes, read in blocks."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


@dataclass(frozen=True)
class FileStore:
    """A folder of files named by their SHA-256, two letters a shelf."""

    folder: Path

    def path(self, sha256: str) -> Path:
        """Where a kept file lies; raises NotFound when it is not there."""
        place = self._place(sha256)
        if not place.is_file():
            raise NotFound(f"The file {sha256[:12]}… is not in {self.folder}. Restore it from a backup.")
        return place

    def holds(self, sha256: str) -> bool:
        """Whether the file is there."""
        return self._place(sha256).is_file()

    def keep(self, source: Path) -> tuple[str, int]:
        """Take in a copy of a file; gives its checksum and size in bytes. The source is left as it is."""
        with (
            self._new_file() as (temporary, settle),
            source.open("rb") as reader,
            temporary.open("wb") as writer,
        ):
            digest, size = hashlib.sha256(), 0
            while block := reader.read(_BLOCK):
                digest.update(block)
                size += len(block)
                writer.write(block)
            writer.flush()
            os.fsync(writer.fileno())
            settle(digest.hexdigest())
        return digest.hexdigest(), size

    def keep_made(self, make: Callable[[Path], None], suffix: str = "") -> tuple[str, int]:
        """Take in a file that `make` writes to the path it is given."""
        with self._new_file(suffix) as (temporary, settle):
            make(temporary)
            sha256, size = checksum(temporary), temporary.stat().st_size
            _sync(temporary)
            settle(sha256)
        return sha256, size

    def keep_bytes(self, content: bytes) -> tuple[str, int]:
        """Take in a small file from memory."""

        def write(path: Path) -> None:
            path.write_bytes(content)

        return self.keep_made(write)

    def remove(self, sha256: str) -> None:
        """Delete a kept file that nothing rests on any more; one that is being read on Windows stays."""
        with suppress(PermissionError):
            self._place(sha256).unlink(missing_ok=True)

    def _place(self, sha256: str) -> Path:
        return self.folder / sha256[:2] / sha256

    @contextmanager
    def _new_file(self, suffix: str = "") -> Iterator[tuple[Path, Callable[[str], None]]]:
        """A temporary file in the same folder, and the deed that puts it in its place at once and for good."""
        self.folder.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(prefix=".new-", suffix=suffix, dir=self.folder)
        os.close(handle)
        temporary = Path(name)

        def settle(sha256: str) -> None:
            place = self._place(sha256)
            if place.is_file():
                return
            place.parent.mkdir(exist_ok=True)
            os.replace(temporary, place)
            _sync(place.parent)

        try:
            yield temporary, settle
        finally:
            temporary.unlink(missing_ok=True)


def _sync(path: Path) -> None:
    """Make a file or folder survive a power cut; folders cannot be opened so on Windows, which needs no such step."""
    if os.name == "nt" and path.is_dir():
        return
    descriptor = os.open(path, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
