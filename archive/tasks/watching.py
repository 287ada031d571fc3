"""What the working process looks after of itself: the inbox, and the fixity of files."""

from __future__ import annotations

import logging
import os
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from archive.errors import LemelError
from archive.interviews.copies_edits import KIND as COPIES
from archive.interviews.copies_edits import ask_for_copies
from archive.interviews.intake import edits, queries
from archive.interviews.intake.arriving import place_of
from archive.interviews.intake.inbox import Still, Waiting, waiting
from archive.interviews.intake.taking import tidy
from archive.interviews.model import Upload
from archive.interviews.renditions import is_missing
from archive.jobs.queries import unended
from archive.store.fixity import check_next
from archive.store.session import Store
from archive.tasks import intake

EVERY_S = 3.0
WHO = "the inbox"
_SIDE_WORK_EVERY_S = 10.0
_log = logging.getLogger(__name__)


@dataclass
class Watch:
    """Looks every few seconds. `carry` hands the key of a piece of work to whoever does it."""

    store: Store
    carry: Callable[[str], object]
    _still: Still = field(default_factory=Still)
    _side_work_at: float = 0.0
    _carried: set[str] = field(default_factory=set)

    def begin(self) -> None:
        """Finish what was being moved when an earlier process ended."""
        tidy(self.store)
        self._ask_for_what_is_missing()
        with self.store.session() as session:
            rows = queries.half_moved(session, WHO)
        for row in rows:
            place = place_of(self.store.settings, row)
            if place.is_file() and place.stat().st_size == row.size:
                self._hand_over(row)
            else:
                with self.store.changing(WHO) as session:
                    edits.settle(queries.upload(session, row.key), "dropped", "It was still in the inbox.")

    def look(self) -> None:
        """Take from the inbox what stands still, and do a little of what is due."""
        with self.store.session() as session:
            interviews = queries.interview_refs(session)
        self._carry_copies()
        files = self._still.of(waiting(self.store.settings.inbox, interviews))
        for each in files:
            self._take(each)
        if not files and time.monotonic() - self._side_work_at >= _SIDE_WORK_EVERY_S:
            self._side_work_at = time.monotonic()
            check_next(self.store)

    def _ask_for_what_is_missing(self) -> None:
        """Copies that a newer Lemel masks otherwise, or that were not brought back with the records."""
        if is_missing(self.store):
            with self.store.changing(WHO) as session:
                ask_for_copies(session, WHO)

    def _carry_copies(self) -> None:
        """Hand on the wish for copies that came out of other work, which hands nothing on itself."""
        with self.store.session() as session:
            waiting = {job.key for job in unended(session) if job.kind == COPIES and job.state == "waiting"}
        for key in waiting - self._carried:
            self.carry(key)
        self._carried = waiting

    def _take(self, found: Waiting) -> None:
        """Move a file out of the inbox in steps that each can be gone on from."""
        self.store.settings.incoming.mkdir(parents=True, exist_ok=True, mode=0o700)
        size = found.path.stat().st_size
        with self.store.changing(WHO) as session:
            row = edits.begin_upload(session, found.interview, found.path.name, size, WHO)
        os.replace(found.path, place_of(self.store.settings, row))
        self._hand_over(row)

    def _hand_over(self, row: Upload) -> None:
        with self.store.changing(WHO) as session:
            kept = queries.upload(session, row.key)
            edits.advance(kept, kept.size)
            job = intake.ask_for(session, kept, WHO)
        self.carry(job.key)


@contextmanager
def watching(watch: Watch) -> Iterator[None]:
    """Look in a thread of its own until the work ends."""
    ended = threading.Event()
    thread = threading.Thread(target=_go_on, args=(watch, ended), name="watching", daemon=True)
    thread.start()
    try:
        yield
    finally:
        ended.set()
        thread.join(timeout=EVERY_S)


def _go_on(watch: Watch, ended: threading.Event) -> None:
    deed = watch.begin
    while not ended.is_set():
        try:
            deed()
            deed = watch.look
        except (LemelError, OSError):
            _log.exception("The inbox or the files could not be looked after this time.")
        ended.wait(EVERY_S)
