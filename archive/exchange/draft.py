"""A collection as values: what a folder says, or what a home holds, with references for ties.

Two drafts are equal when the collections are the same; where a thing stood and where a file lies are not compared.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from archive.exchange.faults import Place
from archive.values.dates import UncertainDate

Point = tuple[float, float]
NOWHERE = Place("")


@dataclass(frozen=True, kw_only=True)
class Draft:
    """What every draft has: where it stood."""

    origin: Place = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, kw_only=True)
class CardDraft(Draft):
    """collection.toml"""

    ref: str
    name: str
    place: str
    language: str
    contact: str
    about: str
    voices_note: str
    walking_pace_m_per_s: float
    speaking_pace_wpm: float


@dataclass(frozen=True, kw_only=True)
class FloorDraft(Draft):
    """A floor and its clean drawing."""

    ref: str
    name: str
    level: int
    svg_name: str
    svg: str
    metres_per_unit: float


@dataclass(frozen=True, kw_only=True)
class RoomDraft(Draft):
    """A room, its outline and the point of its label in the floor's units."""

    ref: str
    name: str
    floor: str
    element: str
    outline: tuple[Point, ...]
    label: Point
    capacity: int
    note: str
    height_m: float | None = None
    absorption: float | None = None


@dataclass(frozen=True, kw_only=True)
class DoorDraft(Draft):
    """A doorway; `room_b` is "" for out of doors."""

    ref: str
    floor: str
    element: str
    spot: Point
    room_a: str
    room_b: str
    width_m: float
    headroom_m: float
    step_mm: float
    gradient_percent: float
    one_way: bool
    note: str


@dataclass(frozen=True, kw_only=True)
class StationDraft(Draft):
    """A station."""

    ref: str
    number: int
    name: str
    room: str
    element: str
    spot: Point
    summary: str
    seats: bool
    quiet: bool


@dataclass(frozen=True, kw_only=True)
class EndDraft(Draft):
    """One end of a passage."""

    room: str
    element: str
    spot: Point


@dataclass(frozen=True, kw_only=True)
class PassageDraft(Draft):
    """Stairs, a lift or a ramp."""

    ref: str
    kind: str
    name: str
    width_m: float
    headroom_m: float
    steps: int
    rise_mm: float
    length_m: float
    capacity: int
    cycle_s: float
    note: str
    ends: tuple[EndDraft, ...]


@dataclass(frozen=True, kw_only=True)
class AmenityDraft(Draft):
    """A toilet, a seat, an exit."""

    ref: str
    kind: str
    room: str
    element: str
    spot: Point


@dataclass(frozen=True, kw_only=True)
class ObstacleDraft(Draft):
    """A machine, a bench or a barrier, with what it covers of the floor in the floor's units."""

    ref: str
    kind: str
    room: str
    element: str
    outline: tuple[Point, ...]


@dataclass(frozen=True, kw_only=True)
class PlanDraft(Draft):
    """The whole plan."""

    floors: tuple[FloorDraft, ...] = ()
    rooms: tuple[RoomDraft, ...] = ()
    doors: tuple[DoorDraft, ...] = ()
    stations: tuple[StationDraft, ...] = ()
    passages: tuple[PassageDraft, ...] = ()
    amenities: tuple[AmenityDraft, ...] = ()
    obstacles: tuple[ObstacleDraft, ...] = ()


@dataclass(frozen=True, kw_only=True)
class PersonDraft(Draft):
    """A person or firm."""

    ref: str
    name: str
    kind: str
    roles: tuple[str, ...]
    trade: str
    born: UncertainDate | None
    died: UncertainDate | None
    unnamed: bool
    called: str
    initials: str
    note: str


@dataclass(frozen=True, kw_only=True)
class TermDraft(Draft):
    """A term of the thesaurus."""

    ref: str
    preferred: str
    language: str
    meaning: str
    other_words: tuple[str, ...]
    said_as: str
    broader: frozenset[str]
    related: frozenset[str]


@dataclass(frozen=True, kw_only=True)
class PictureDraft(Draft):
    """A picture of an object."""

    file_name: str
    text: str
    path: Path = field(compare=False)


@dataclass(frozen=True, kw_only=True)
class ObjectDraft(Draft):
    """A museum object."""

    ref: str
    name: str
    description: str
    material: str
    dimensions: str
    maker: str
    made: UncertainDate | None
    station: str
    machine: bool
    made_by: frozenset[str]
    used_in: frozenset[str]
    workers: frozenset[str]
    pictures: tuple[PictureDraft, ...]


@dataclass(frozen=True, kw_only=True)
class LinkDraft(Draft):
    """That a process comes after another."""

    process: str
    passes: str


@dataclass(frozen=True, kw_only=True)
class ReckoningDraft(Draft):
    """A reckoner with this works' figures."""

    name: str
    inputs: dict[str, Any]
    about: str


@dataclass(frozen=True, kw_only=True)
class ProcessDraft(Draft):
    """A process; its sections stand in the order of `processes.model.SECTIONS`."""

    ref: str
    name: str
    summary: str
    themes: tuple[str, ...]
    stations: frozenset[str]
    hazards: frozenset[str]
    terms: frozenset[str]
    comes_after: tuple[LinkDraft, ...]
    reckonings: tuple[ReckoningDraft, ...]
    sections: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class HazardDraft(Draft):
    """A hazard."""

    ref: str
    name: str
    summary: str
    limits: str
    then: str
    now: str
    controls: tuple[str, ...]
    cautions: str


@dataclass(frozen=True, kw_only=True)
class DemonstrationDraft(Draft):
    """Running a machine before visitors."""

    ref: str
    object: str
    title: str
    minutes: float
    warm_up_minutes: float
    noise_db: float | None
    noise_at_m: float | None
    sudden: bool
    stand_back_m: float
    steps: tuple[str, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class ClearanceDraft(Draft):
    """A paper that a machine needs."""

    object: str
    kind: str
    who: str
    dated: dt.date
    runs_out: dt.date
    note: str


@dataclass(frozen=True, kw_only=True)
class EvidenceDraft(Draft):
    """One piece of evidence; a segment is named by recording and place in it."""

    side: str
    kind: str
    source: str
    firsthand: bool
    recording: str = ""
    segment: int = 0
    object: str = ""
    document: str = ""
    reckoner: str = ""
    inputs: dict[str, Any] | None = None
    figure: str = ""


@dataclass(frozen=True, kw_only=True)
class StatementDraft(Draft):
    """A statement."""

    ref: str
    text: str
    note: str
    stations: frozenset[str]
    processes: frozenset[str]
    objects: frozenset[str]
    evidence: tuple[EvidenceDraft, ...]


@dataclass(frozen=True, kw_only=True)
class TellingDraft(Draft):
    """A telling."""

    ref: str
    station: str
    kind: str
    title: str
    minutes: float
    script: str
    clip: str
    object: str
    demonstration: str
    themes: tuple[str, ...]
    depth: str
    audiences: tuple[str, ...]
    language: str
    statements: frozenset[str]
    withdrawn: bool = False


@dataclass(frozen=True, kw_only=True)
class StopDraft(Draft):
    """A stop of a tour."""

    station: str
    tellings: tuple[str, ...]
    walk_minutes: float


@dataclass(frozen=True, kw_only=True)
class TourDraft(Draft):
    """A tour."""

    ref: str
    name: str
    summary: str
    audience: str
    minutes: float
    group_size: int
    needs: tuple[str, ...]
    start: str
    finish: str
    inputs: dict[str, Any]
    stops: tuple[StopDraft, ...]
