"""One recording's renditions being made, in whichever process; kept light, since each process imports it anew."""

from __future__ import annotations

import os
import threading
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from multiprocessing import parent_process
from multiprocessing.connection import wait
from pathlib import Path
from tempfile import TemporaryDirectory

from archive.audio.levels import Levels
from archive.errors import Fault, LemelError, Unacceptable
from archive.store.files import FileStore
from archive.values.timecode import Span

MEDIA_TYPES = {"webm": "audio/webm", "mp3": "audio/mpeg", "waveform": "application/octet-stream"}
WAVEFORM = "waveform"

# How long each form takes, against reading the recording once; only for sharing the work out evenly.
_COST = {"webm": 3, "mp3": 6, WAVEFORM: 0}


@dataclass(frozen=True)
class Job:
    """What is to be made of one recording: the forms that are missing, with these spans masked.

    `quick_sha256` is the file of the same sound that decodes quickest, for levels alone; often the master itself.
    """

    recording_id: int
    ref: str
    master_sha256: str
    quick_sha256: str
    duration_ms: int
    spans: tuple[Span, ...]
    closed: str
    forms: tuple[str, ...]
    files: FileStore

    @property
    def cost(self) -> int:
        """About how much work it is."""
        return self.duration_ms * (1 + sum(_COST[form] for form in self.forms))


@dataclass(frozen=True)
class MadeFile:
    """One rendition's file, already kept."""

    form: str
    sha256: str
    size: int


@dataclass(frozen=True)
class Outcome:
    """What came of a job: the files that were kept, or the faults of the master."""

    job: Job
    made: tuple[MadeFile, ...] = ()
    faults: tuple[Fault, ...] = ()


def do(job: Job) -> Outcome:
    """Make the files of a job and keep them. Errors come back as faults, so that other recordings go on."""
    try:
        return Outcome(job, _made(job))
    except Unacceptable as error:
        return Outcome(job, faults=tuple(Fault(job.ref, 0, fault.found, fault.allowed) for fault in error.faults))
    except LemelError as error:
        return Outcome(job, faults=(Fault(job.ref, 0, "its renditions could not be made", str(error)),))


def _made(job: Job) -> tuple[MadeFile, ...]:
    ready = _taken_as_it_is(job)
    forms = [form for form in job.forms if form not in {WAVEFORM, *(file.form for file in ready)}]
    return (*ready, *(_encoded(job, forms) if forms else _measured(job)))


def _taken_as_it_is(job: Job) -> list[MadeFile]:
    """Of a master that browsers play, where nothing is closed: its own packets, without what its tags say."""
    # Imported here because the web asks only which rendition may be served, and needs no decoder for that.
    from archive.audio.words import browser_form, copy_without_words

    source = job.files.path(job.master_sha256)
    form = browser_form(source)
    if job.spans or form not in job.forms:
        return []
    return [MadeFile(form, *job.files.keep_made(partial(copy_without_words, source, form=form)))]


def _encoded(job: Job, forms: Sequence[str]) -> list[MadeFile]:
    """Copies made anew from the master, with what is closed masked, and the levels in the same pass."""
    from archive.audio.access import make_copies

    with TemporaryDirectory(prefix="lemel-") as folder:
        targets = {form: Path(folder) / f"copy.{form}" for form in forms}
        levels = make_copies(job.files.path(job.master_sha256), targets, closed=job.spans)
        made = [MadeFile(form, *job.files.keep(path)) for form, path in targets.items()]
    return made + _kept_levels(job, levels)


def _measured(job: Job) -> list[MadeFile]:
    """The levels alone, where no copy is to be made."""
    from archive.audio.waveform import measure_levels

    if WAVEFORM not in job.forms:
        return []
    return _kept_levels(job, measure_levels(job.files.path(job.quick_sha256), job.spans))


def _kept_levels(job: Job, levels: Levels) -> list[MadeFile]:
    if WAVEFORM not in job.forms:
        return []
    return [MadeFile(WAVEFORM, *job.files.keep_bytes(levels.to_bytes()))]


def end_with_parent() -> None:
    """Make this process end when the one that started it is killed; of itself it would wait for work for ever."""
    parent = parent_process()
    if parent is not None:
        threading.Thread(target=_end_after, args=(parent.sentinel,), daemon=True).start()


def _end_after(sentinel: int) -> None:
    wait([sentinel])
    os._exit(1)
