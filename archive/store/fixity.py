"""Fixity: every kept file is read again and compared with the checksum it is named by."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from sqlalchemy import update

from archive.store.base import utc_now
from archive.store.files import FileStore, checksum
from archive.store.model import Event, KeptFile
from archive.store.queries import kept_files
from archive.store.session import Store


@dataclass(frozen=True)
class FileFinding:
    """What a check found of one file: "sound", "changed" or "missing"."""

    sha256: str
    state: str


def check_files(store: Store, on_progress: Callable[[int, int], None] | None = None) -> list[FileFinding]:
    """Read every kept file again; keep the findings with the files and as PREMIS events; give those not sound."""
    with store.session() as session:
        known = [file.sha256 for file in kept_files(session)]
    findings = list(_look(store.files, known, on_progress))
    with store.changing("check") as session:
        for finding in findings:
            sound = finding.state == "sound"
            kept = update(KeptFile).where(KeptFile.sha256 == finding.sha256)
            session.execute(kept.values(sound=sound, checked_at=utc_now()))
            session.add(Event(kind="fixity check", outcome=finding.state, sha256=finding.sha256))
    return [finding for finding in findings if finding.state != "sound"]


def _look(files: FileStore, known: list[str], on_progress: Callable[[int, int], None] | None) -> Iterator[FileFinding]:
    for done, sha256 in enumerate(known, 1):
        if not files.holds(sha256):
            yield FileFinding(sha256, "missing")
        else:
            yield FileFinding(sha256, "sound" if checksum(files.path(sha256)) == sha256 else "changed")
        if on_progress:
            on_progress(done, len(known))
