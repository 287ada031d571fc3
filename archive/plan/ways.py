"""Ways from station to station for a party with needs: how far, how long, and what to say."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.plan.house import house_of
from archive.plan.walking import House


@dataclass(frozen=True)
class Needs:
    """What a party cannot do or wants to keep away from.

    `step_free`: no stairs, no step in a doorway, no slope too steep for a wheelchair. `narrow`: nothing narrower than
    a wheelchair or a pushchair. `no_lift`: no lift. `quiet`: no room that is named as noisy.
    """

    step_free: bool = False
    narrow: bool = False
    no_lift: bool = False
    quiet: bool = False


@dataclass(frozen=True)
class Party:
    """How many walk, and how fast on the level."""

    size: int
    pace_m_per_s: float


@dataclass(frozen=True)
class Spot:
    """A point of a way, on a floor, in metres of its drawing."""

    floor: str
    x_m: float
    y_m: float


@dataclass(frozen=True)
class Leg:
    """The quickest way between two stations."""

    start: str
    finish: str
    spots: tuple[Spot, ...]
    metres: float
    minutes: float
    directions: tuple[str, ...]


class Ways:
    """The house on one day, ready to be asked for ways."""

    def __init__(self, house: House) -> None:
        self._house = house

    def leg(self, start: str, finish: str, needs: Needs, party: Party) -> Leg | None:
        """The way between two stations; None where there is none."""
        without = frozenset({"stairs", "step"} if needs.step_free else ()) | ({"lift"} if needs.no_lift else set())
        way = self._house.way(f"station {start}", f"station {finish}", without=without)
        if not way:
            return None
        metres = self._house.metres(way)
        spots = tuple(Spot(spot.floor, spot.x_m, spot.y_m) for spot in way)
        return Leg(start, finish, spots, metres, metres / party.pace_m_per_s / 60, ())

    def minutes(self, refs: Iterable[str], needs: Needs, party: Party) -> dict[tuple[str, str], float]:
        """The minutes from each station to each other one; a missing pair has no way."""
        pairs = itertools.permutations(dict.fromkeys(refs), 2)
        legs = [leg for pair in pairs if (leg := self.leg(*pair, needs, party))]
        return {(leg.start, leg.finish): leg.minutes for leg in legs}


def ways_of(session: Session, on: dt.date, *, noisy_rooms: frozenset[str] = frozenset()) -> Ways:
    """The ways of the collection's house on a day."""
    return Ways(house_of(session))
