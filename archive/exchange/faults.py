"""Where things stand in the folder, and the list that faults are gathered in."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field

from archive.errors import Fault, Unacceptable

MOST_FAULTS = 500
_CONTROLS = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029]+")


@dataclass(frozen=True, order=True)
class Place:
    """A line of a file of the folder; line 0 is the file as a whole."""

    where: str
    line: int = 0


def shown(value: object) -> str:
    """A value as a fault shows it: in quotes, on one line, never long."""
    text = _CONTROLS.sub(" ", value if isinstance(value, str) else str(value))
    return f"'{text if len(text) <= 60 else text[:59] + '…'}'"


@dataclass
class FaultList:
    """Faults in the order found; past a number that people can read, only counted."""

    faults: list[Fault] = field(default_factory=list)
    more: int = 0

    def add(self, place: Place, found: str, allowed: str) -> None:
        """One thing wrong."""
        if len(self.faults) < MOST_FAULTS:
            self.faults.append(Fault(place.where, place.line, found, allowed))
        else:
            self.more += 1

    def take(self, problem: Unacceptable, where: str) -> None:
        """The faults of one file that another room found, told with the file's place in the folder."""
        for fault in problem.faults:
            self.add(Place(where, fault.line), fault.found, fault.allowed)

    def raise_if_any(self, what: str, hide: Callable[[str], str]) -> None:
        """End the reading if there is any fault; `hide` takes out of the words what nobody may read."""
        if not self.faults:
            return
        told = [Fault(hide(f.where), f.line, hide(f.found), hide(f.allowed)) for f in self.faults]
        if self.more:
            told.append(Fault("the folder", 0, f"there are {self.more} more faults", "Mend these first and try again"))
        raise Unacceptable(told, what)
