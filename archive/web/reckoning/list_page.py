"""The list of all sums, by room, with this works' own figures where a process names them."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.processes.queries import reckonings_told
from archive.reckoners.registry import RECKONERS
from archive.reckoners.shape import Reckoner
from archive.web.reckoning.rooms import ROOMS, Room
from archive.web.reckoning.sums import address


@dataclass(frozen=True)
class Line:
    """One sum in the list, and where it leads."""

    reckoner: Reckoner
    url: str


@dataclass(frozen=True)
class Shelf:
    """A room with its sums."""

    room: Room
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class ListPage:
    """Every sum of the trade."""

    shelves: tuple[Shelf, ...]
    kiosk: bool


def list_page(session: Session, *, kiosk: bool) -> ListPage:
    """The list; a sum that a process tells leads to its page with the works' own figures in it."""
    told = {reckoning.name: reckoning.inputs for _, reckoning in reversed(reckonings_told(session))}
    shelves = [Shelf(room, _lines(room, told, kiosk)) for room in ROOMS]
    return ListPage(tuple(shelf for shelf in shelves if shelf.lines), kiosk)


def _lines(room: Room, told: dict[str, dict[str, object]], kiosk: bool) -> tuple[Line, ...]:
    mine = [one for name, one in RECKONERS.items() if name.startswith(f"{room.key}/")]
    return tuple(Line(one, address(one.name, told.get(one.name, {}), kiosk=kiosk)) for one in mine)
