"""Taking away kept files that neither the home nor any copy of its records speaks of."""

from __future__ import annotations

import sqlite3
import time
from contextlib import closing
from pathlib import Path

from archive.store.queries import kept_files
from archive.store.session import Store

# Another process may have kept a file a moment ago and be about to write its record.
YOUNG_S = 24 * 3600


def sweep(store: Store, only: set[str] | None = None) -> int:
    """Remove files that no record names; gives how many. `only` limits it to files that this process kept itself.

    A file that a copy of the database in `backups` names stays: that copy may be wanted back.
    """
    with store.session() as session:
        named = {kept.sha256 for kept in kept_files(session)}
    for copy in sorted(store.settings.backups.glob("*.sqlite")):
        named |= _named_in(copy)
    unnamed = [path for path in store.settings.files.glob("??/*") if path.name not in named]
    gone = [path for path in unnamed if (path.name in only if only is not None else _is_old(path))]
    for path in gone:
        store.files.remove(path.name)
    return len(gone)


def _named_in(database: Path) -> set[str]:
    with closing(sqlite3.connect(f"{database.absolute().as_uri()}?mode=ro", uri=True)) as connection:
        return {row[0] for row in connection.execute("select sha256 from kept_file")}


def _is_old(path: Path) -> bool:
    return time.time() - path.stat().st_mtime > YOUNG_S
