"""Which copies of a recording may be heard, and the making of those that are missing.

A rendition carries the fingerprint of the closures that are masked in it. Only one whose fingerprint is that of the
recording's present closures is ever served, so a new closure silences the old copies at once.
"""

from __future__ import annotations

import hashlib
import multiprocessing
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from contextlib import contextmanager
from dataclasses import dataclass

from archive.errors import Fault, NotReady
from archive.interviews import rendition_edits as edits
from archive.interviews import rendition_queries as queries
from archive.interviews.clips.edits import drop_stale as drop_stale_clips
from archive.interviews.closing import masked_spans, merged
from archive.interviews.model import Recording, Rendition
from archive.interviews.rendition_jobs import MEDIA_TYPES, Job, Outcome, do, end_with_parent
from archive.interviews.supplied import take_words_out
from archive.rights.model import Closure
from archive.store.session import Store

WHO = "renditions"

# Below this much sound a second process takes longer to start than it saves.
_WORTH_PROCESSES_MS = 120_000

Progress = Callable[[int, int, str], None]


@dataclass(frozen=True)
class Report:
    """What making the missing renditions came to: how many files, and the masters that could not be read."""

    made: int
    faults: tuple[Fault, ...] = ()


def fingerprint(closures: Iterable[Closure]) -> str:
    """The fingerprint of closures: SHA-256 over what is masked for them, "" for none.

    A copy in which the closures are masked without their guard has another, and is as stale as one for none.
    """
    text = ";".join(f"{span.start_ms}-{span.end_ms}" for span in merged(closures))
    return hashlib.sha256(text.encode()).hexdigest() if text else ""


def servable(recording: Recording, form: str) -> Rendition:
    """The rendition that may be served now; NotReady when it has not been made.

    A supplied file is as it came, with nothing masked, so it serves only where there are no closures.
    """
    present = fingerprint(recording.closures)
    for rendition in recording.renditions:
        if rendition.form == form and _fits(rendition, present):
            return rendition
    raise NotReady(f"The sound of {recording.ref} is being made ready. Try again in a few minutes.")


def make_missing(store: Store, on_progress: Progress | None = None, *, processes: int = 2) -> Report:
    """Make every rendition that is missing, and delete those that are stale. It can be stopped at any moment.

    `on_progress` is told how many recordings are done, of how many, and which one was the last.
    """
    faults = list(take_words_out(store, WHO))
    _drop_stale(store)
    jobs = _missing(store)
    made = 0
    with _doing(jobs, processes) as outcomes:
        for number, outcome in enumerate(outcomes, start=1):
            made += _keep(store, outcome)
            faults += outcome.faults
            if on_progress is not None:
                on_progress(number, len(jobs), outcome.job.ref)
    return Report(made, tuple(faults))


def is_missing(store: Store) -> bool:
    """Whether any recording lacks a copy for the closures as they are."""
    return bool(_missing(store))


def _fits(rendition: Rendition, present: str) -> bool:
    return rendition.closed == present and (rendition.kind != "supplied" or present == "")


def _drop_stale(store: Store) -> None:
    """Forget the renditions and clips that were made for other closures, or whose file is lost; then their bytes."""
    with store.changing(WHO) as session:
        stale = [
            rendition
            for recording in queries.recordings_with_renditions(session)
            for rendition in recording.renditions
            if rendition.kind != "supplied" and _is_stale(store, rendition, fingerprint(recording.closures))
        ]
        unused = [*edits.drop(session, stale), *drop_stale_clips(session)]
    for sha256 in unused:
        store.files.remove(sha256)


def _is_stale(store: Store, rendition: Rendition, present: str) -> bool:
    return rendition.closed != present or not store.files.holds(rendition.sha256)


def _missing(store: Store) -> list[Job]:
    """The work to do, the longest first so that two processes end together."""
    with store.session() as session:
        jobs = [_job(store, recording) for recording in queries.recordings_with_renditions(session)]
    return sorted((job for job in jobs if job.forms), key=lambda job: -job.cost)


def _job(store: Store, recording: Recording) -> Job:
    present = fingerprint(recording.closures)
    there = {rendition.form for rendition in recording.renditions if _fits(rendition, present)}
    return Job(
        recording.id,
        recording.ref,
        recording.master_sha256,
        _quickest(recording),
        recording.duration_ms,
        masked_spans(recording),
        present,
        tuple(form for form in MEDIA_TYPES if form not in there),
        store.files,
    )


def _quickest(recording: Recording) -> str:
    """The master, or where nothing is closed a supplied MP3, which takes half as long to decode as Opus."""
    if not recording.closures:
        for rendition in recording.renditions:
            if (rendition.kind, rendition.form) == ("supplied", "mp3"):
                return rendition.sha256
    return recording.master_sha256


@contextmanager
def _doing(jobs: Sequence[Job], processes: int) -> Iterator[Iterator[Outcome]]:
    """The outcomes as they come. Processes are spawned, not forked, so it is the same on every system."""
    if processes < 2 or len(jobs) < 2 or sum(job.duration_ms for job in jobs) < _WORTH_PROCESSES_MS:
        yield map(do, jobs)
        return
    context = multiprocessing.get_context("spawn")
    pool = ProcessPoolExecutor(min(processes, len(jobs)), context, initializer=end_with_parent)
    try:
        yield (future.result() for future in as_completed([pool.submit(do, job) for job in jobs]))
    finally:
        pool.shutdown(cancel_futures=True)


def _keep(store: Store, outcome: Outcome) -> int:
    """Write the rows of files that are already kept, unless the closures changed meanwhile."""
    job = outcome.job
    with store.changing(WHO) as session:
        recording = queries.recording_by_key(session, job.recording_id)
        if recording is None or fingerprint(recording.closures) != job.closed:
            return 0
        edits.add(session, recording, job.closed, outcome.made)
    return len(outcome.made)
