"""How a job tells how far it is, and learns that it shall stop."""

from __future__ import annotations

import time
from dataclasses import dataclass, field

from archive.errors import LemelError
from archive.jobs.queries import job
from archive.store.session import Store

# Often enough for an eye and a hand; seldom enough not to slow the work.
_EVERY_S = 0.25
WHO = "background"


class Stopped(LemelError):
    """Raised by a kind of work that has stopped because it was asked to, and has left nothing behind."""


@dataclass
class Progress:
    """One job's word to those who wait for it. Never use it inside `store.changing`: it takes its own turn to write."""

    store: Store
    key: str
    _told_at: float = field(default=0.0, init=False)
    _told: str = field(default="", init=False)
    _looked_at: float = field(default=0.0, init=False)
    _stop: bool = field(default=False, init=False)

    def tell(self, share: float, says: str = "") -> None:
        """Say how much is done, 0 to 1, and in words what is being done; told at most four times a second."""
        now = time.monotonic()
        if now - self._told_at < _EVERY_S and says == self._told:
            return
        with self.store.changing(WHO) as session:
            row = job(session, self.key)
            row.share, row.says = min(max(share, 0.0), 1.0), says
        self._told_at, self._told = now, says

    def stop_asked(self) -> bool:
        """Whether whoever waits has asked to stop; looked up at most four times a second."""
        now = time.monotonic()
        if not self._stop and now - self._looked_at >= _EVERY_S:
            with self.store.session() as session:
                self._stop = job(session, self.key).stop_asked
            self._looked_at = now
        return self._stop
