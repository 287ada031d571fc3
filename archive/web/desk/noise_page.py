"""The map of noise as a page: one floor with its bands, what is read at each station, and what is asked."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from sqlalchemy.orm import Session

from archive.errors import Fault, Unacceptable
from archive.plan.drawing import Drawing, Frame, drawing_of, frame_around
from archive.plan.model import Floor, Room, Station
from archive.plan.queries import floors as all_floors
from archive.reckoners.noise_field import about
from archive.reckoners.noise_field.about import heard_as, times_told
from archive.reckoners.noise_field.contours import BANDS_DB, RoomPicture, picture_of
from archive.reckoners.noise_field.field import Field
from archive.reckoners.noise_field.outlines import inside
from archive.reckoners.noise_field.rooms import SoundHouse
from archive.reckoners.sources import Source, source
from archive.rights.decisions import Viewer
from archive.store.model import Collection
from archive.store.queries import collection, found
from archive.web.desk.noise_asked import NoiseAsked
from archive.web.desk.noise_house import (
    Doorway,
    LoudMachine,
    assumed_rooms,
    doorways,
    loud_machines,
    sound_house,
)

STEP_M = 0.25
# Softer than this nothing of the machines is told apart from the house itself.
HEARD_FROM_DB = 30.0


@dataclass(frozen=True)
class Reading:
    """The level at a spot: in whole dB(A) or None where nothing is heard, in words, and the times to both values."""

    name: str
    room: Room
    x: float
    y: float
    level_db: int | None
    heard: str
    to_lower: str
    to_upper: str
    station: Station | None = None


@dataclass(frozen=True)
class StandBack:
    """How far from a machine the chosen level is reached; None where the whole room lies above it."""

    machine: LoudMachine
    metres: float | None


@dataclass(frozen=True)
class Model:
    """How the map is worked out, in sentences."""

    how: Sequence[str]
    left_out: Sequence[str]
    holds: Sequence[str]
    sources: Sequence[Source]


MODEL = Model(about.HOW, about.LEFT_OUT, about.HOLDS, [source(key) for key in about.SOURCES])


@dataclass(frozen=True)
class NoisePage:
    """One floor's map, and everything it was asked with."""

    collection: Collection
    asked: NoiseAsked
    floors: Sequence[Floor]
    floor: Floor
    drawing: Drawing
    frame: Frame
    machines: Sequence[LoudMachine]
    doors: Sequence[Doorway]
    stations: Sequence[Station]
    pictures: Sequence[RoomPicture]
    rooms: Sequence[Reading]
    readings: Sequence[Reading]
    spot: Reading | None
    stand_backs: Sequence[StandBack]
    assumed: Sequence[Room]
    model: Model = MODEL

    @property
    def unit(self) -> float:
        """A thirty-sixth of the width: the measure of checks and letters."""
        return self.frame.width / 36

    @property
    def legend(self) -> Sequence[tuple[float, str]]:
        """The bands from the loudest down, in words."""
        return [(low, heard_as(low)) for low in reversed(BANDS_DB)]

    @property
    def elsewhere(self) -> Sequence[LoudMachine]:
        """Machines that run on other floors, which are not heard here."""
        return [one for one in self.machines if one.runs and one.station.room.floor_id != self.floor.id]


def noise_page(session: Session, viewer: Viewer, asked: NoiseAsked) -> NoisePage:
    """The map that was asked for; the floor at street level if none was named."""
    floors = all_floors(session)
    floor = found(_floor(floors, asked.floor), "floor", asked.floor)
    stations = [station for one in floors for room in one.rooms for station in room.stations]
    loud, ways = loud_machines(session, asked, viewer.on), doorways(session, asked)
    house = sound_house(floors, loud, ways, asked, _station(stations, asked.other))
    field = Field(house)
    drawing = drawing_of(floor.svg)
    frame = drawing.frame if drawing.frame.width > 0 else frame_around(room.outline for room in floor.rooms)
    read = _Reader(field, floor)
    return NoisePage(
        collection=collection(session),
        asked=asked,
        floors=floors[::-1],
        floor=floor,
        drawing=drawing,
        frame=frame,
        machines=loud,
        doors=[way for way in ways if way.door.floor_id == floor.id],
        stations=sorted(stations, key=lambda station: station.number),
        pictures=[_picture(field, floor, room, asked) for room in floor.rooms],
        rooms=[read.at(room.name, room, room.label_x, room.label_y) for room in floor.rooms],
        readings=sorted(read.stations(), key=lambda reading: reading.station.number if reading.station else 0),
        spot=_spot(read, frame, asked),
        stand_backs=_stand_backs(field, house, loud, floor, asked),
        assumed=assumed_rooms(floor),
    )


class _Reader:
    """Reads levels on one floor."""

    def __init__(self, field: Field, floor: Floor) -> None:
        self.field, self.floor = field, floor

    def at(self, name: str, room: Room, x: float, y: float, station: Station | None = None) -> Reading:
        """The reading at a spot of a room."""
        scale = self.floor.metres_per_unit
        level = self.field.level_at(room.ref, (x * scale, y * scale))
        if level < HEARD_FROM_DB or math.isinf(level):
            return Reading(name, room, x, y, None, "", "", "", station)
        told = round(level)  # Words and times follow the figure that is shown, so that the sum can be done again.
        return Reading(name, room, x, y, told, heard_as(told), *times_told(told), station)

    def stations(self) -> list[Reading]:
        """The readings at all stations of the floor."""
        placed = [(station, room) for room in self.floor.rooms for station in room.stations]
        return [self.at(station.name, room, station.x, station.y, station) for station, room in placed]

    def room_at(self, x: float, y: float) -> Room | None:
        """The room that a spot is in."""
        spot = np.asarray([(x, y)], dtype=np.float64)
        return next((room for room in self.floor.rooms if inside(room.outline, spot)[0]), None)


def _picture(field: Field, floor: Floor, room: Room, asked: NoiseAsked) -> RoomPicture:
    scale = floor.metres_per_unit
    marks = [(station.x * scale, station.y * scale) for station in room.stations]
    # A name is some three metres long and has the room's level under it.
    marks += [((room.label_x * scale) + along, room.label_y * scale + 0.3) for along in (-1.2, 0.0, 1.2)]
    return picture_of(field.patch(room.ref, STEP_M), scale, float(asked.stand_back_db), marks)


def _stand_backs(
    field: Field, house: SoundHouse, loud: Sequence[LoudMachine], floor: Floor, asked: NoiseAsked
) -> list[StandBack]:
    """For each machine that runs on the floor, how far from it the chosen level is."""
    running = {machine.key: machine for machine in house.machines}
    here = [one for one in loud if one.runs and one.station.room.floor_id == floor.id]
    level = float(asked.stand_back_db)
    return [StandBack(one, field.stand_back_m(running[one.demonstration.ref], level)) for one in here]


def _spot(read: _Reader, frame: Frame, asked: NoiseAsked) -> Reading | None:
    """The reading that was asked for: at a station of this floor, or at a spot of the plan."""
    chosen = next((one for one in read.stations() if one.station and one.station.ref == asked.at), None)
    if chosen is not None or asked.x is None or asked.y is None:
        return chosen
    x, y = frame.x + asked.x, frame.y + asked.y
    room = read.room_at(x, y)
    return None if room is None else read.at(room.name, room, x, y)


def _floor(floors: Sequence[Floor], ref: str) -> Floor | None:
    if ref:
        return next((floor for floor in floors if floor.ref == ref), None)
    return min(floors, key=lambda floor: (abs(floor.level), -floor.level), default=None)


def _station(stations: Sequence[Station], ref: str) -> Station | None:
    if not ref:
        return None
    chosen = next((station for station in stations if station.ref == ref), None)
    if chosen is None:
        fault = Fault("other", 0, f"There is no station '{ref[:60]}'", "Choose one of the list")
        raise Unacceptable([fault], "The address")
    return chosen
