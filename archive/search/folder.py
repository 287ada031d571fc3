"""The folder of the index: one sub-folder in use, named by the file `current`; swapped at once and synced for good."""

from __future__ import annotations

import os
import secrets
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from whoosh.filedb.filestore import FileStorage
from whoosh.util.filelock import FileLock, try_for

from archive.errors import Conflict

_PATIENCE_S = 600.0


class SyncedStorage(FileStorage):  # type: ignore[misc]
    """Whoosh's folder of files, made to survive a power cut: files and folder are synced around the last rename."""

    def __init__(self, folder: Path) -> None:
        super().__init__(str(folder), supports_mmap=False)
        self._unsynced: set[str] = set()

    def create_file(self, name: str, *args: Any, **kwargs: Any) -> Any:
        self._unsynced.add(name)
        return super().create_file(name, *args, **kwargs)

    def rename_file(self, oldname: str, newname: str, safe: bool = False) -> None:
        for name in self._unsynced & set(self.list()):
            sync(Path(self._fpath(name)))
        self._unsynced.clear()
        sync(Path(self.folder))
        super().rename_file(oldname, newname, safe=safe)
        sync(Path(self.folder))


class IndexFolder:
    """Where the index lies: `current` names the sub-folder in use, `writing.lock` lets one writer in."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._pointer = folder / "current"

    def present(self) -> Path | None:
        """The sub-folder in use, or None before the first build."""
        try:
            name = self._pointer.read_text("ascii").strip()
        except FileNotFoundError:
            return None
        return self.folder / name if name.isalnum() else None

    def mark(self) -> tuple[int, int]:
        """Changes whenever another sub-folder comes into use; cheap."""
        try:
            status = self._pointer.stat()
        except FileNotFoundError:
            return (0, 0)
        return (status.st_ino, status.st_mtime_ns)

    def fresh(self) -> Path:
        """A new, empty sub-folder, not yet in use."""
        place = self.folder / f"b{secrets.token_hex(6)}"
        place.mkdir(parents=True)
        return place

    def use(self, place: Path) -> None:
        """Put a sub-folder into use at once and for good, and remove the others as far as nobody has them open."""
        sync(place)
        write_synced(self._pointer, place.name)
        for other in self.folder.iterdir():
            if other.is_dir() and other != place:
                shutil.rmtree(other, ignore_errors=True)

    @contextmanager
    def writing(self, patience_s: float = _PATIENCE_S) -> Iterator[None]:
        """The right to write, for one thread of one process at a time; given back whatever happens."""
        # The index holds words of what is closed too.
        self.folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        lock = FileLock(str(self.folder / "writing.lock"))
        if not try_for(lock.acquire, timeout=patience_s, delay=0.02):
            raise Conflict(
                f"Another process has been writing the search index in {self.folder} for more than {patience_s:.0f} s. "
                "Wait for it to end, then run lemel reindex."
            )
        try:
            yield
        finally:
            lock.release()


def write_synced(path: Path, text: str) -> None:
    """Replace a small file at once; it survives a power cut."""
    temporary = path.with_name(f"{path.name}.{secrets.token_hex(4)}")
    temporary.write_text(text, "utf-8")
    sync(temporary)
    os.replace(temporary, path)
    sync(path.parent)


def sync(path: Path) -> None:
    """Make a file or folder survive a power cut; Windows opens no folders and needs no such step."""
    if sys.platform == "win32" and path.is_dir():
        return
    descriptor = os.open(path, os.O_RDWR if sys.platform == "win32" else os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
