"""Doing one job from beginning to end, and writing down what came of it."""

from __future__ import annotations

from typing import Any

from archive.errors import LemelError
from archive.jobs import edits
from archive.jobs.queries import job
from archive.store.session import Store
from archive.tasks.kinds import KINDS
from archive.tasks.progress import WHO, Progress, Stopped

_BROKEN = "Something broke in this work. It has been written to the log; ask for it again."


def do(store: Store, key: str) -> None:
    """Do a waiting job. What it raises is written down; what is not Lemel's own is raised again, for the log."""
    with store.changing(WHO) as session:
        row = edits.begin(session, key)
        if row is None:
            return
        kind, inputs = row.kind, dict(row.inputs)
    try:
        outcome = KINDS[kind](store, inputs, Progress(store, key))
    except Stopped as stopped:
        _end(store, key, "stopped", str(stopped))
    except LemelError as error:
        _end(store, key, "failed", str(error))
    except BaseException:
        _end(store, key, "failed", _BROKEN)
        raise
    else:
        _end(store, key, "done", "", outcome)


def _end(store: Store, key: str, state: str, says: str, outcome: Any = None) -> None:
    with store.changing(WHO) as session:
        edits.end(job(session, key), state, says, outcome)
