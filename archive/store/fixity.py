"""Fixity: every kept file is read again and compared with the checksum it is named by."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass

from sqlalchemy import update

from archive.errors import Conflict
from archive.settings import Settings
from archive.store.base import utc_now
from archive.store.files import FileStore, checksum
from archive.store.model import Event, KeptFile
from archive.store.queries import kept_files, longest_unread
from archive.store.session import Store

USUAL_DAYS, MOST_DAYS = 90, 36_500
WHO = "check"


@dataclass(frozen=True)
class FileFinding:
    """What a check found of one file: "sound", "changed" or "missing"."""

    sha256: str
    state: str


def check_files(store: Store, on_progress: Callable[[int, int], None] | None = None) -> list[FileFinding]:
    """Read every kept file again; keep each finding with the file and as a PREMIS event; give those not sound."""
    with store.session() as session:
        known = [file.sha256 for file in kept_files(session)]
    unsound = []
    for done, sha256 in enumerate(known, 1):
        finding = check_file(store, sha256)
        if finding.state != "sound":
            unsound.append(finding)
        if on_progress:
            on_progress(done, len(known))
    return unsound


def check_file(store: Store, sha256: str) -> FileFinding:
    """Read one kept file again, and keep what was found. One that was let go of meanwhile is not missed."""
    finding = FileFinding(sha256, _state(store.files, sha256))
    with store.changing(WHO) as session:
        if session.get(KeptFile, sha256) is not None:
            kept = update(KeptFile).where(KeptFile.sha256 == sha256)
            session.execute(kept.values(sound=finding.state == "sound", checked_at=utc_now()))
            session.add(Event(kind="fixity check", outcome=finding.state, sha256=sha256))
    return finding


def check_next(store: Store) -> FileFinding | None:
    """Check the one file that was not read for longest, if that is longer ago than it should be."""
    before = utc_now() - dt.timedelta(days=days_between(store.settings))
    with store.session() as session:
        sha256 = longest_unread(session, before)
    return None if sha256 is None else check_file(store, sha256)


def days_between(settings: Settings) -> int:
    """Within how many days each file shall be read again; Conflict when what was given is no number of days."""
    given = settings.fixity_days
    if not given:
        return USUAL_DAYS
    if not (given.isascii() and given.isdigit() and len(given) <= 5 and 1 <= int(given) <= MOST_DAYS):
        raise Conflict(f"LEMEL_FIXITY_DAYS is '{given[:20]}'. Give a number of days from 1 to {MOST_DAYS}.")
    return int(given)


def _state(files: FileStore, sha256: str) -> str:
    if not files.holds(sha256):
        return "missing"
    return "sound" if checksum(files.path(sha256)) == sha256 else "changed"
