"""Nobody else on the machine may read a home, its backups or what is exported: what is closed stands in them."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from archive.app import secret_key
from archive.exchange.writing import write_folder
from archive.search.gateway import SearchIndex
from archive.settings import DATABASE, Settings
from archive.store import backups
from archive.store.homes import make_home, open_home
from archive.store.session import Store

pytestmark = pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights in another way")


def open_to_others(place: Path) -> int:
    """The bits that let anyone but the owner in."""
    return stat.S_IMODE(place.stat().st_mode) & 0o077


def test_a_new_home_is_its_owners_alone(tmp_path: Path) -> None:
    """Folder, database, log, index, secret and backups; and so for every file behind them."""
    store = make_home(Settings(tmp_path / "home", testing=True))
    SearchIndex(store.settings.index).rebuild(store)
    secret_key(store.settings)
    settings = store.settings
    assert [
        place
        for place in (settings.home, *settings.home.iterdir(), settings.index, settings.files, settings.backups)
        if open_to_others(place) and settings.index not in place.parents
    ] == []
    store.close()


def test_an_older_home_is_closed_to_strangers_and_not_to_its_group(tmp_path: Path) -> None:
    """What everyone could read is taken from everyone; what the museum gave a group stays."""
    make_home(Settings(tmp_path / "home")).close()
    database, files = tmp_path / "home" / DATABASE, tmp_path / "home" / "files"
    database.chmod(0o664)
    files.chmod(0o755)
    open_home(Settings(tmp_path / "home")).close()
    assert stat.S_IMODE(database.stat().st_mode) == 0o660
    assert stat.S_IMODE(files.stat().st_mode) == 0o750


def test_backups_and_exports_are_their_owners_alone(home: Store, tmp_path: Path) -> None:
    """The file of a backup, the folder of an export, and a home that was restored."""
    backups.backup(home, tmp_path / "b.zip")
    write_folder(home, tmp_path / "out")
    restored = Settings(tmp_path / "again")
    backups.restore(restored, tmp_path / "b.zip")
    assert [place for place in (tmp_path / "b.zip", tmp_path / "out", restored.home) if open_to_others(place)] == []


def test_the_secret_is_whole_and_the_same_for_all(tmp_path: Path) -> None:
    """Whoever comes second gets the first one's key, and nothing is left beside it."""
    settings = Settings(tmp_path / "home")
    assert len({secret_key(settings) for _ in range(3)}) == 1
    assert len(secret_key(settings)) == 32
    assert [place.name for place in settings.home.iterdir()] == ["secret.key"]
