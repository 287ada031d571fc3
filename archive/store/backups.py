"""Backup and restore: one ZIP file with a snapshot of the database, every kept file, and a list of checksums."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import sqlite3
import tempfile
import zipfile
from contextlib import closing
from pathlib import Path

from archive.errors import CannotRead, Conflict
from archive.settings import DATABASE, Settings
from archive.store.files import checksum
from archive.store.session import Store

LIST = "checksums.json"
_BLOCK = 1 << 20


def snapshot(store: Store, target: Path) -> None:
    """A whole copy of the SQLite database as of one moment, made while others may go on writing."""
    source = _database_file(store.settings)
    with closing(sqlite3.connect(source)) as reading, closing(sqlite3.connect(target)) as writing:
        reading.backup(writing)


def backup(store: Store, target: Path) -> int:
    """Write the backup file, whole or not at all; gives how many files it holds."""
    if target.exists():
        raise Conflict(f"{target} exists already. Choose another name; a backup is never written over.")
    with tempfile.TemporaryDirectory(dir=_made(target.parent)) as folder:
        database, packed = Path(folder) / DATABASE, Path(folder) / "backup.zip"
        snapshot(store, database)
        members = {DATABASE: database} | {
            f"files/{path.parent.name}/{path.name}": path for path in sorted(store.settings.files.glob("??/*"))
        }
        _pack(packed, members)
        os.replace(packed, target)
    return len(members)


def restore(settings: Settings, source: Path) -> int:
    """Make a home out of a backup; refuses to write over a home, and checks every file before it stands."""
    if settings.home.exists() and any(settings.home.iterdir()):
        raise Conflict(f"{settings.home} is not empty. Restore into a new folder with --home, then use that one.")
    _database_file(settings)
    parent = _made(settings.home.absolute().parent)
    unpacked = Path(tempfile.mkdtemp(prefix=".restoring-", dir=parent))
    try:
        count = _unpack(source, unpacked)
        if settings.home.exists():
            settings.home.rmdir()
        os.replace(unpacked, settings.home)
    finally:
        shutil.rmtree(unpacked, ignore_errors=True)
    return count


def _database_file(settings: Settings) -> Path:
    if settings.database_url:
        raise Conflict("This home's database is elsewhere (LEMEL_DATABASE). Use that database's own tools.")
    return settings.home / DATABASE


def _made(folder: Path) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def _pack(packed: Path, members: dict[str, Path]) -> None:
    # Sound and pictures are compressed already; storing them as they are is quicker and no larger.
    # What is closed is in it: it is for its owner's eyes alone, like the home.
    with os.fdopen(os.open(packed, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o600), "w+b") as file:
        with zipfile.ZipFile(file, "w", zipfile.ZIP_STORED) as archive:
            archive.writestr(LIST, json.dumps({name: checksum(path) for name, path in members.items()}, indent=0))
            for name, path in members.items():
                archive.write(path, name)
        file.flush()
        os.fsync(file.fileno())


def _unpack(source: Path, folder: Path) -> int:
    try:
        with zipfile.ZipFile(source) as archive:
            listed: dict[str, str] = json.loads(archive.read(LIST))
            for name, sha256 in listed.items():
                _unpack_one(archive, name, sha256, folder)
            return len(listed)
    except (zipfile.BadZipFile, KeyError, ValueError, OSError) as problem:
        raise CannotRead(
            str(source), 0, f"It is not a whole backup ({problem})", "Give a file made by lemel backup"
        ) from problem


def _unpack_one(archive: zipfile.ZipFile, name: str, sha256: str, folder: Path) -> None:
    target = (folder / name).resolve()
    if not target.is_relative_to(folder.resolve()):
        raise ValueError(f"{name[:60]} would lie outside the home")
    target.parent.mkdir(parents=True, exist_ok=True)
    digest = hashlib.sha256()
    with archive.open(name) as reader, target.open("wb") as writer:
        while block := reader.read(_BLOCK):
            digest.update(block)
            writer.write(block)
    if digest.hexdigest() != sha256:
        raise ValueError(f"{name[:60]} is not what the list of checksums says")
