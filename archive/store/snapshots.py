"""A whole copy of the database beside the home's other backups."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from archive.store.backups import snapshot
from archive.store.session import Store


def keep_snapshot(store: Store, target: Path) -> Path:
    """Write the copy under a temporary name and rename it, so that it is whole or not there."""
    target.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=".new-", dir=target.parent)
    os.close(handle)
    try:
        snapshot(store, Path(name))
        os.replace(name, target)
    finally:
        Path(name).unlink(missing_ok=True)
    return target
