"""A home copied from another one, so that a test may change what was loaded once for many."""

from __future__ import annotations

import shutil
import sqlite3
from pathlib import Path

from archive.settings import Settings
from archive.store.session import Store


def copied(store: Store, folder: Path) -> Store:
    """A home of its own in a folder, with everything that a home holds; its database is copied as SQLite would."""
    here, there = store.settings, Settings(folder, testing=True)
    database = Path(here.database.removeprefix("sqlite:///"))
    aside = shutil.ignore_patterns(f"{database.name}*")
    shutil.copytree(here.home, folder, ignore=aside, dirs_exist_ok=True)
    with sqlite3.connect(database) as old, sqlite3.connect(folder / database.name) as new:
        old.backup(new)
    old.close()
    new.close()
    return Store(there)
