"""The inbox: a folder for each interview, in which a recording is laid and found. Looks at the disk, moves nothing."""

from __future__ import annotations

import os
import stat
from collections.abc import Collection, Iterator
from dataclasses import dataclass, field
from pathlib import Path

# What systems and programs lay beside files for themselves, and what is still being written under another name.
_NOT_MEANT = (".part", ".crdownload", ".tmp", ".partial")
_SYSTEM = frozenset({"thumbs.db", "desktop.ini"})


@dataclass(frozen=True)
class Stranger:
    """Something in the inbox that cannot be taken in, and why."""

    place: str
    why: str


@dataclass(frozen=True)
class Waiting:
    """A file in the folder of an interview that is known."""

    path: Path
    interview: str


def waiting(inbox: Path, interviews: Collection[str]) -> list[Waiting]:
    """Every file that is meant to be taken in."""
    return [
        Waiting(path, folder.name)
        for folder in _each(inbox)
        if folder.name in interviews and _is_folder(folder)
        for path in _each(folder)
        if _is_file(path)
    ]


def strangers(inbox: Path, interviews: Collection[str]) -> list[Stranger]:
    """What lies in the inbox and is not taken in, with what to do."""
    found = []
    for each in _each(inbox):
        if not _is_folder(each):
            found.append(Stranger(each.name, "Lay it in the folder of its interview, such as inbox/I-01/"))
        elif each.name not in interviews:
            found.append(Stranger(f"{each.name}/", "There is no such interview. Make it, or rename the folder"))
        else:
            inside = (path for path in _each(each) if not _is_file(path))
            found += [Stranger(f"{each.name}/{path.name}", "Only files are taken in from here") for path in inside]
    return found


@dataclass
class Still:
    """Remembers how files looked, and says which have stood still since the last look and can be opened."""

    _seen: dict[Path, tuple[int, int]] = field(default_factory=dict)

    def of(self, files: Collection[Waiting]) -> list[Waiting]:
        """Those that have not changed since the last call."""
        now = {each.path: look for each in files if (look := _look(each.path)) is not None}
        still = [each for each in files if each.path in now and self._seen.get(each.path) == now[each.path]]
        self._seen = now
        return [each for each in still if _opens(each.path)]


def _each(folder: Path) -> Iterator[Path]:
    """What lies in a folder and is meant, by name; nothing where there is no folder."""
    if not folder.is_dir() or folder.is_symlink():
        return
    for path in sorted(folder.iterdir()):
        name = path.name.casefold()
        if not name.startswith((".", "~")) and not name.endswith(_NOT_MEANT) and name not in _SYSTEM:
            yield path


def _is_folder(path: Path) -> bool:
    return path.is_dir() and not path.is_symlink()


def _is_file(path: Path) -> bool:
    """A plain file: a link could lead outside, and a pipe never ends."""
    try:
        return stat.S_ISREG(path.lstat().st_mode)
    except OSError:
        return False


def _look(path: Path) -> tuple[int, int] | None:
    try:
        seen = path.lstat()
    except OSError:
        return None
    return (seen.st_size, seen.st_mtime_ns) if seen.st_size else None


def _opens(path: Path) -> bool:
    """Whether nobody holds it closed: on Windows a file that is being copied cannot be opened to change it."""
    try:
        with path.open("r+b"):
            return True
    except OSError:
        return os.access(path, os.R_OK)
