"""What a tour is chosen from, in plain values: stations, tellings, ways, and what the tour must keep to. Pure.

Times are whole tenths of a minute, counted from the start of the tour.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

TENTHS = 10


@dataclass(frozen=True)
class Choice:
    """A telling that may be chosen, at its station.

    `noise` is the share of the group's day that it takes in, in millionths; `windows` are the tenths between which it
    may begin (empty: at any time). `order` is its place among the tellings of its stop.
    """

    ref: str
    station: str
    kind: str
    tenths: int
    themes: tuple[str, ...] = ()
    depth: str = "closer"
    audiences: tuple[str, ...] = ()
    is_voice: bool = False
    noise: int = 0
    windows: tuple[tuple[int, int], ...] = ()
    order: int = 0

    @property
    def timed(self) -> bool:
        """Whether it may begin only at certain times."""
        return bool(self.windows)


@dataclass(frozen=True)
class Place:
    """A station that may be visited."""

    ref: str
    seats: bool = False
    quiet: bool = False
    room: str = ""


@dataclass(frozen=True)
class Barred:
    """A telling that cannot be chosen, and the wish or the fact that bars it, in words.

    `wish` is the field of the wishes that would let it in if it were given up; empty when none would.
    """

    telling: str
    station: str
    why: str
    wish: str = ""


@dataclass(frozen=True)
class Clash:
    """A wish that cannot be met whatever the tour, why in words, and the wish that stands against it (or none)."""

    wish: str
    says: str
    against: str = ""


@dataclass(frozen=True)
class Problem:
    """Everything a tour is planned from.

    `walks` are the tenths from station to station: a pair that is missing has no way. `before` are pairs of stations
    of which the first must be visited earlier, where both are visited; what follows from two pairs is a pair too.
    `weights` are the themes wished for; with none, all count alike. Must-haves and pins are references. `noise_left` is
    what the group, and `guide_noise_left` what the guide, may still take in that day, in millionths of the value that
    is kept to. With `clashes` nothing fits.
    """

    tenths: int
    places: tuple[Place, ...]
    choices: tuple[Choice, ...]
    walks: Mapping[tuple[str, str], int]
    start: str | None = None
    finish: str | None = None
    audience: str = ""
    depth: str | None = None
    weights: Mapping[str, int] = field(default_factory=dict)
    before: frozenset[tuple[str, str]] = frozenset()
    must_stations: frozenset[str] = frozenset()
    must_tellings: frozenset[str] = frozenset()
    pinned: tuple[str, ...] = ()
    voice_every: int | None = None
    seats_every: int | None = None
    noise_left: int = 1_000_000
    guide_noise_left: int = 1_000_000
    barred: tuple[Barred, ...] = ()
    clashes: tuple[Clash, ...] = ()

    @cached_property
    def by_station(self) -> dict[str, tuple[Choice, ...]]:
        """The tellings of each station, in the order in which they are told."""
        found: dict[str, list[Choice]] = {place.ref: [] for place in self.places}
        for choice in self.choices:
            found[choice.station].append(choice)
        return {ref: tuple(sorted(mine, key=lambda one: (one.order, one.ref))) for ref, mine in found.items()}

    @cached_property
    def choice(self) -> dict[str, Choice]:
        """The tellings by reference."""
        return {choice.ref: choice for choice in self.choices}

    @cached_property
    def place(self) -> dict[str, Place]:
        """The stations by reference."""
        return {place.ref: place for place in self.places}

    @property
    def ends(self) -> frozenset[str]:
        """Where the group meets and parts: it may stand there without being told anything."""
        return frozenset(ref for ref in (self.start, self.finish) if ref)

    def without(self, *tellings: str) -> Problem:
        """The problem without some tellings."""
        return replace(self, choices=tuple(one for one in self.choices if one.ref not in tellings))
