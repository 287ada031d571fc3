"""Every error that Lemel raises on purpose, in one tree.

LemelError
├── NotFound              no such record, or none that this viewer may know of
├── NotAllowed            the viewer may not do or see this; carries the reason in words
├── Unacceptable          input with faults; carries them all
│   └── CannotRead        a file that is not what it should be
├── OutOfRange            a figure beyond what the method is good for
├── Conflict              the home is not in the state that the deed needs
│   └── Overtaken         somebody else changed it meanwhile; carries what changed
└── NotReady              something must be made first (a masked copy, an index)
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


class LemelError(Exception):
    """An error with a message for people: what was given, what is allowed, what to do."""


class NotFound(LemelError):
    """No such record, or none that this viewer may know of: the two are told alike."""


class NotAllowed(LemelError):
    """The viewer may not do or see this."""


@dataclass(frozen=True, order=True)
class Fault:
    """One thing wrong with what was given: where it stands, what was found, what is allowed."""

    where: str
    line: int
    found: str
    allowed: str

    def __str__(self) -> str:
        place = f"{self.where}, line {self.line}" if self.line else self.where
        return f"{place}: {self.found}. {self.allowed}"


class Unacceptable(LemelError):
    """Input that cannot be taken; all its faults are told together and nothing is stored."""

    def __init__(self, faults: Iterable[Fault], what: str = "This", *, left: str = "nothing was stored") -> None:
        self.faults = tuple(sorted(set(faults)))
        count = len(self.faults)
        super().__init__(
            f"{what} has {count} fault{'' if count == 1 else 's'}; {left}.\n"
            + "\n".join(f"  {fault}" for fault in self.faults)
        )


class CannotRead(Unacceptable):
    """A file that is not what its name says."""

    def __init__(self, where: str, line: int, found: str, allowed: str) -> None:
        super().__init__([Fault(where, line, found, allowed)], where)


class OutOfRange(LemelError):
    """A figure beyond what the method is good for."""


class Conflict(LemelError):
    """The home is not in the state that the deed needs."""


class Overtaken(Conflict):
    """Somebody else changed it since it was read: by whom, to which version, and what changed."""

    def __init__(self, what: str, *, who: str, version: int, changed: Iterable[object]) -> None:
        self.who, self.version, self.changed = who, version, tuple(changed)
        lines = f"{len(self.changed)} line{'' if len(self.changed) == 1 else 's'}"
        super().__init__(f"{who or 'Somebody'} changed {lines} of {what} meanwhile. Read it again, and merge.")


class NotReady(LemelError):
    """Something must be made first; the message says what makes it."""
