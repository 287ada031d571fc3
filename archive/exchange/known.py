"""The references met so far in a folder, by kind of record, and the check that a tie leads to one."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches

from archive.exchange.faults import FaultList, Place, shown
from archive.exchange.fields import Fields

# Where each kind of record is described, as a fault tells it.
HOMES = {
    "floor": "plan/plan.toml",
    "room": "plan/plan.toml",
    "door": "plan/plan.toml",
    "station": "plan/plan.toml",
    "passage": "plan/plan.toml",
    "amenity": "plan/plan.toml",
    "obstacle": "plan/plan.toml",
    "person": "people.csv",
    "term": "terms.csv",
    "hazard": "hazards/",
    "process": "processes/",
    "object": "objects.csv",
    "demonstration": "demonstrations.toml",
    "interview": "interviews/",
    "recording": "interviews/",
    "clip": "clips.csv",
    "statement": "statements.toml",
    "telling": "tellings.toml",
    "tour": "tours/",
}


@dataclass
class Known:
    """References by kind. A kind whose file could not be read is unsure: ties to it are not judged."""

    faults: FaultList
    refs: defaultdict[str, dict[str, Place]] = field(default_factory=lambda: defaultdict(dict))
    unsure: set[str] = field(default_factory=set)

    def add(self, kind: str, ref: str, place: Place) -> None:
        """A record's own reference; a second of the same kind is a fault."""
        if not ref:
            self.unsure.add(kind)
            return
        first = self.refs[kind].setdefault(ref, place)
        if first is not place:
            other = f"{first.where}, line {first.line}" if first.line else first.where
            self.faults.add(place, f"the {kind} {shown(ref)} is described twice", f"The other stands in {other}")

    def tie(self, kind: str, fields: Fields, key: str, *, required: bool = True) -> str:
        """The reference in a field, checked; "" where there is none or it is no good."""
        ref = fields.ref(key, required=required)
        return ref if ref and self.has(kind, ref, fields.place(key)) else ""

    def ties(self, kind: str, fields: Fields, key: str) -> tuple[str, ...]:
        """The references in a field, checked."""
        return self.only(kind, fields.refs(key), fields.place(key))

    def only(self, kind: str, refs: Iterable[str], place: Place) -> tuple[str, ...]:
        """Those that are known; a fault for each other."""
        return tuple(ref for ref in refs if self.has(kind, ref, place))

    def has(self, kind: str, ref: str, place: Place) -> bool:
        """Whether there is such a record, or none could be read; a fault if not."""
        if ref in self.refs[kind] or kind in self.unsure:
            return True
        near = get_close_matches(ref, list(self.refs[kind])[:2000], 1)
        hint = f"; the nearest is {shown(near[0])}" if near else ""
        self.faults.add(place, f"there is no {kind} {shown(ref)}", f"Name one that {HOMES[kind]} describes{hint}")
        return False
