"""Making the copies that readers listen to, whenever closures or what is known of a sound have changed."""

from __future__ import annotations

import threading
from typing import Any

from archive.interviews.copies_edits import KIND as KIND
from archive.interviews.renditions import make_missing
from archive.store.session import Store
from archive.tasks.progress import Progress, Stopped

# One after the other: what one lets go of as stale, another may just have kept.
_TURN = threading.Lock()
_STOPPED = "Stopped. The copies that were made stay; what is missing is told as being made ready until it is made."


def make_copies(store: Store, inputs: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Make what is missing and let go of what is stale; the outcome tells how much was made, and what was unreadable.

    Killed at any moment, it leaves old or new, and only ever serves copies for the closures as they are.
    """
    progress.tell(0.0, "Looking for what is missing.")

    def told(done: int, total: int, ref: str) -> None:
        progress.tell(done / total, f"{done} of {total} recordings have their copies.")
        if done < total and progress.stop_asked():
            raise Stopped(_STOPPED)

    with _TURN:
        report = make_missing(store, told)
    return {"made": report.made, "faults": [str(fault) for fault in report.faults]}
