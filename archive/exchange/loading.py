"""Taking a collection folder into a home: files first, then every record in one transaction.

It may be stopped at any point: until the transaction ends the home is what it was.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from sqlalchemy.orm import Session

from archive.errors import Conflict
from archive.exchange.draft_voices import CollectionDraft
from archive.exchange.folder import read_folder
from archive.exchange.keeping import KeptFiles, Progress, keep_files
from archive.exchange.replacing import Remains, clear_records, keep_copy, put_back
from archive.exchange.storing import counts, store_draft
from archive.interviews.renditions import make_missing
from archive.store.history import WHOLE_LOAD
from archive.store.model import Event, KeptFile, Load
from archive.store.queries import has_collection
from archive.store.session import Store
from archive.store.sweeping import sweep

WHO = "load"


@dataclass(frozen=True)
class LoadReport:
    """What a load did."""

    counts: dict[str, int]
    notes: tuple[str, ...]
    seconds: float = 0.0
    files: int = field(default=0)


def load(store: Store, folder: Path, *, replace: bool = False, on_progress: Progress | None = None) -> LoadReport:
    """Read the folder and put all of it in place of what the home holds.

    Raises Unacceptable with all faults, and Conflict where a collection stands already and `replace` is not asked.
    """
    started = time.monotonic()
    tell = on_progress or (lambda _stage, _done, _total: None)
    with store.session() as session:
        _refuse_if_full(session, replace)
    tell("Reading the folder", 0, 1)
    draft = read_folder(folder)
    tell("Reading the folder", 1, 1)
    kept = KeptFiles()
    with _swept_on_failure(store, kept):
        keep_files(store.files, draft, kept, tell)
        report = _store(store, folder, draft, kept, replace, started)
    tell("Storing records", 1, 1)
    sweep(store)
    renditions = make_missing(store, lambda done, total, _ref: tell("Making copies to listen to", done, total))
    notes = (*report.notes, *(str(fault) for fault in renditions.faults))
    return LoadReport(report.counts, notes, time.monotonic() - started, report.files)


def _refuse_if_full(session: Session, replace: bool) -> None:
    if has_collection(session) and not replace:
        raise Conflict(
            "This home holds a collection already. Load into another home, or add --replace: "
            "the old records are then kept in the home's backups folder."
        )


@contextmanager
def _swept_on_failure(store: Store, kept: KeptFiles) -> Iterator[None]:
    """Take the new files away again if their records did not follow."""
    done = False
    try:
        yield
        done = True
    finally:
        if not done:
            sweep(store, only=set(kept.facts))


def _store(
    store: Store, folder: Path, draft: CollectionDraft, kept: KeptFiles, replace: bool, started: float
) -> LoadReport:
    notes = list(draft.notes)
    if replace and (copy := keep_copy(store)):
        notes.insert(0, f"The records that stood here before are kept in {copy}.")
    with store.changing(WHO) as session:
        session.info[WHOLE_LOAD] = True
        # Asked again now that it is our turn: another load may have come first.
        _refuse_if_full(session, replace)
        remains = clear_records(session) if replace else Remains()
        _add_files(session, kept)
        store_draft(session, draft, kept)
        put_back(session, remains)
        numbers = counts(draft)
        session.add(Load(folder=str(folder), counts=numbers, notes=notes, seconds=time.monotonic() - started))
    return LoadReport(numbers, tuple(notes), files=len(kept.facts))


def _add_files(session: Session, kept: KeptFiles) -> None:
    for facts in kept.facts.values():
        if session.get(KeptFile, facts.sha256) is None:
            session.add(KeptFile(sha256=facts.sha256, size=facts.size, media_type=facts.media_type))
        for kind in ("ingestion", "message digest calculation"):
            session.add(Event(kind=kind, outcome="success", sha256=facts.sha256, detail=facts.name))
    session.flush()
