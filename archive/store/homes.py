"""Opening a home folder: made at first need, for its owner's eyes alone, its database brought up to date.

What is closed to readers stands in the database, the kept files, the index and the backups: no other account of the
machine may read them.
"""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from archive.errors import Conflict
from archive.settings import DATABASE, Settings
from archive.store import migrating
from archive.store.session import Store


def open_home(settings: Settings) -> Store:
    """The store of a home that exists; Conflict when there is none. An older database is brought up to date."""
    if not settings.database_url and not (settings.home / DATABASE).is_file():
        raise Conflict(f"There is no home in {settings.home}. Make one with: lemel --home {settings.home} init")
    _close_to_strangers(settings)
    migrating.upgrade(settings.database)
    return Store(settings)


def make_home(settings: Settings) -> Store:
    """The store of a home, made where there is none; what is there is left as it is."""
    for folder in (settings.home, settings.files, settings.backups):
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    if not settings.database_url:
        # SQLite gives its log beside the database the same mode.
        with suppress(FileExistsError):
            os.close(os.open(settings.home / DATABASE, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600))
    _close_to_strangers(settings)
    migrating.upgrade(settings.database)
    return Store(settings)


def _close_to_strangers(settings: Settings) -> None:
    """Take from everyone else what an older Lemel, or a copy, left open; what the museum gave to a group stays."""
    database = settings.home / DATABASE
    beside = (database.with_name(f"{DATABASE}-wal"), database.with_name(f"{DATABASE}-shm"))
    for place in (database, *beside, settings.files, settings.backups, settings.index):
        if place.exists():
            _close(place)


def _close(place: Path) -> None:
    mode = place.stat().st_mode & 0o7777
    if mode & 0o007:
        # Someone else's file, on a shared disk, is theirs to close.
        with suppress(PermissionError):
            place.chmod(mode & ~0o007)
