"""The one pass over a master in a process of its own: a busy thread beside it would slow it down many times.

A file that makes the decoder itself fall over takes only that process with it, and is told as one that cannot be read.
"""

from __future__ import annotations

import errno
import multiprocessing
import signal
import time
from collections.abc import Callable, Mapping
from multiprocessing.connection import Connection
from pathlib import Path
from typing import TYPE_CHECKING, Any

from archive.errors import CannotRead, Conflict, LemelError, Unacceptable
from archive.interviews.rendition_jobs import end_with_parent

if TYPE_CHECKING:
    from archive.audio.one_pass import TakenIn

Progress = Callable[[float, str], object]
Stop = Callable[[], bool]

_LOOK_EVERY_S = 0.2
_BROKE = "reading it broke off"
_BROKE_ALLOWED = "Try to play it in another program; give a copy that plays"


def pass_over(
    master: Path, copies: Mapping[str, Path], name: str, *, apart: bool, progress: Progress, stop: Stop
) -> TakenIn | None:
    """What the pass finds, with the copies written; None when `stop` said so.

    The form in which the file's own packets play in browsers is left out: that copy needs no encoder.

    CannotRead, with the file's own name, for one of which nothing can be read. `apart` is for a process of its own.
    """
    try:
        return _apart(master, copies, progress, stop) if apart else _here(master, copies, progress, stop)
    except Unacceptable as refused:
        raise CannotRead(name, 0, refused.faults[0].found, refused.faults[0].allowed) from refused


def _here(master: Path, copies: Mapping[str, Path], progress: Progress, stop: Stop) -> TakenIn | None:
    from archive.audio.one_pass import take_in
    from archive.audio.words import browser_form

    own = browser_form(master) if copies else ""
    needed = {form: path for form, path in copies.items() if form != own}
    return take_in(master, needed, progress=progress, stop=stop)


def _apart(master: Path, copies: Mapping[str, Path], progress: Progress, stop: Stop) -> TakenIn | None:
    context = multiprocessing.get_context("spawn")
    ours, theirs = context.Pipe(duplex=False)
    process = context.Process(target=_child, args=(theirs, master, dict(copies)), daemon=True)
    process.start()
    theirs.close()
    try:
        return _followed(ours, progress, stop)
    finally:
        process.kill()
        process.join()
        ours.close()


def _followed(child: Connection, progress: Progress, stop: Stop) -> TakenIn | None:
    """What the child tells, until it has found everything, fails, or is no longer wanted."""
    while not stop():
        if not child.poll(_LOOK_EVERY_S):
            continue
        try:
            kind, said = child.recv()
        except EOFError:
            raise CannotRead("", 0, _BROKE, _BROKE_ALLOWED) from None
        if kind == "found":
            found: TakenIn = said
            return found
        if kind == "progress":
            progress(*said)
        elif kind == "fault":
            raise CannotRead("", 0, *said)
        else:
            raise Conflict(said)
    return None


def _child(parent: Connection, master: Path, copies: dict[str, Path]) -> None:
    """The process's own work. What is not told here ends it, and the parent says that it broke off."""
    # Ctrl+C reaches every process of a shell's command; the parent decides, and ends this one.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    end_with_parent()
    try:
        found = _here(master, copies, _Telling(parent).tell, lambda: False)
        parent.send(("found", found))
    except Unacceptable as refused:
        parent.send(("fault", (refused.faults[0].found, refused.faults[0].allowed)))
    except LemelError as problem:
        parent.send(("problem", str(problem)))
    except OSError as problem:
        if problem.errno != errno.ENOSPC:
            raise
        parent.send(("problem", "The disk is full. Make room, and take the recording in again."))


class _Telling:
    """Progress over a pipe, a few times a second."""

    def __init__(self, parent: Connection) -> None:
        self._parent, self._told_at = parent, 0.0

    def tell(self, share: float, says: str) -> None:
        """Pass it on, if it is time."""
        now = time.monotonic()
        if now - self._told_at >= _LOOK_EVERY_S:
            message: Any = ("progress", (share, says))
            self._parent.send(message)
            self._told_at = now
