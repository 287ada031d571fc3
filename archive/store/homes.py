"""Opening a home folder: made at first need, its database brought up to date."""

from __future__ import annotations

from archive.errors import Conflict
from archive.settings import Settings
from archive.store import migrating
from archive.store.session import Store


def open_home(settings: Settings) -> Store:
    """The store of a home that exists; Conflict when there is none. An older database is brought up to date."""
    if not settings.database_url and not (settings.home / "lemel.sqlite").is_file():
        raise Conflict(f"There is no home in {settings.home}. Make one with: lemel --home {settings.home} init")
    migrating.upgrade(settings.database)
    return Store(settings)


def make_home(settings: Settings) -> Store:
    """The store of a home, made where there is none; what is there is left as it is."""
    for folder in (settings.home, settings.files, settings.backups):
        folder.mkdir(parents=True, exist_ok=True)
    migrating.upgrade(settings.database)
    return Store(settings)
