"""The page of one sum: its fields as they were filled, the faults beside them, the answer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.errors import Fault, OutOfRange, Unacceptable
from archive.processes.model import Process
from archive.processes.queries import reckonings_told
from archive.reckoners.asking import each_once
from archive.reckoners.registry import reckon, reckoner_named
from archive.reckoners.shape import Input, Kind, Reckoner, Result
from archive.web.reckoning.rooms import Room, room_of
from archive.web.reckoning.sums import Sum, address, sum_of

# The one word of these addresses that is no field: which type the page is set in.
FACE = "face"
Pairs = Sequence[tuple[str, str]]


@dataclass(frozen=True)
class Field:
    """One field of the form: what it asks, what stands in it, and what is wrong with that."""

    asks: Input
    written: str
    faults: tuple[Fault, ...]

    @property
    def range_told(self) -> str:
        """What may be written: "0.005 to 200 mm"."""
        return f"{self.asks.low:,.10g} – {self.asks.high:,.10g} {self.asks.unit}" if self.is_number else ""

    @property
    def other_units(self) -> tuple[str, ...]:
        """The units that may be written besides its own."""
        return tuple(unit for unit in self.asks.units if unit != self.asks.unit)

    @property
    def is_number(self) -> bool:
        """Whether it holds a number."""
        return self.asks.kind is Kind.NUMBER


@dataclass(frozen=True)
class Told:
    """A process that tells this sum, and the sum's page with the works' own figures."""

    process: Process
    about: str
    url: str


@dataclass(frozen=True)
class SumPage:
    """One sum of the trade. `beyond` says why there is no answer where the method does not reach."""

    reckoner: Reckoner
    room: Room
    fields: tuple[Field, ...]
    faults: tuple[Fault, ...]
    answer: Sum | None
    beyond: str
    told: tuple[Told, ...]
    kiosk: bool

    @property
    def titles(self) -> dict[str, str]:
        """The titles of the fields, by key."""
        return {field.asks.key: field.asks.title for field in self.fields}

    @property
    def status(self) -> int:
        """The status of the answer: faults and what lies beyond are told as such."""
        return 400 if self.faults else 422 if self.beyond else 200


def sum_page(session: Session, name: str, given: Pairs, *, kiosk: bool) -> SumPage:
    """The page for what the address gives; before anything is given, the answer to the defaults if there is one."""
    reckoner = reckoner_named(name)
    result, faults, beyond = _worked(name, given)
    shown_faults = faults if given else ()
    return SumPage(
        reckoner=reckoner,
        room=room_of(name),
        fields=tuple(_field(item, given, result, shown_faults) for item in reckoner.inputs),
        faults=shown_faults,
        answer=sum_of(result, dict(given), kiosk=kiosk) if result else None,
        beyond=beyond,
        told=_told(session, name, kiosk),
        kiosk=kiosk,
    )


def _worked(name: str, given: Pairs) -> tuple[Result | None, tuple[Fault, ...], str]:
    try:
        return reckon(name, each_once(given)), (), ""
    except Unacceptable as problem:
        return None, problem.faults, ""
    except OutOfRange as problem:
        return None, (), str(problem)


def _field(item: Input, given: Pairs, result: Result | None, faults: tuple[Fault, ...]) -> Field:
    """The field with what was written in it: as given, or as read where it was given under a name with its unit."""
    taken = {taken.key: taken.written for taken in result.taken} if result else {}
    written = dict(given).get(item.key) or taken.get(item.key) or ("" if given else item.default or "")
    return Field(item, written, tuple(fault for fault in faults if fault.where == item.key))


def _told(session: Session, name: str, kiosk: bool) -> tuple[Told, ...]:
    return tuple(
        Told(process, reckoning.about, address(name, reckoning.inputs, kiosk=kiosk))
        for process, reckoning in reckonings_told(session)
        if reckoning.name == name
    )
