"""The one shape of all reckoners: what goes in, the work, what comes out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from archive.errors import Fault, Unacceptable
from archive.reckoners.measures import unit_of, units_in
from archive.reckoners.sources import Source

CAUTION = (
    "For explanation only, not for design or for setting up work. Current risk assessments, local law and codes, "
    "and licensed or competent people decide."
)


class Kind(StrEnum):
    """What a field holds."""

    NUMBER = "number"
    CHOICE = "choice"
    TEXT = "text"


@dataclass(frozen=True)
class Input:
    """One field. Below `low` or above `high` it is refused; outside `sound` it is taken, with a warning.

    `default` None and not `optional` means that it must be given. A number reaches the work in `unit`.
    """

    key: str
    title: str
    help: str
    kind: Kind
    unit: str = ""
    low: float = 0.0
    high: float = 0.0
    sound: tuple[float, float] | None = None
    choices: Mapping[str, str] = field(default_factory=dict)
    default: str | None = None
    optional: bool = False
    whole: bool = False

    @property
    def units(self) -> tuple[str, ...]:
        """Every unit that may be written; gauges too where it is a length."""
        if self.kind is not Kind.NUMBER:
            return ()
        family = unit_of(self.unit).family
        gauges = ("SWG", "BG", "BWG", "B&S", "US") if family == "length" else ()
        return (*units_in(family), *gauges)


def number(
    key: str,
    title: str,
    unit: str,
    low: float,
    high: float,
    help: str,
    *,
    default: str | None = None,
    optional: bool = False,
    sound: tuple[float, float] | None = None,
    whole: bool = False,
) -> Input:
    """A field for a number in a unit, refused outside low to high, with a warning outside `sound`."""
    return Input(key, title, help, Kind.NUMBER, unit, low, high, sound, {}, default, optional, whole)


def choice(
    key: str, title: str, choices: Mapping[str, str], help: str, *, default: str | None = None, optional: bool = False
) -> Input:
    """A field for one of several; `choices` maps what is written to what it means."""
    return Input(key, title, help, Kind.CHOICE, choices=choices, default=default, optional=optional)


def text(key: str, title: str, help: str, *, default: str | None = None, optional: bool = False) -> Input:
    """A field for words or a list, which the work itself reads."""
    return Input(key, title, help, Kind.TEXT, default=default, optional=optional)


@dataclass(frozen=True)
class Output:
    """One figure that comes out, with its unit and the decimals it is told to; words have neither.

    The unit "£sd" is for a number of old pence told as pounds, shillings and pence.
    """

    key: str
    title: str
    unit: str = ""
    decimals: int = 0
    kind: Kind = Kind.NUMBER


def words(key: str, title: str) -> Output:
    """An answer in words: a mark, a temper, a colour."""
    return Output(key, title, kind=Kind.TEXT)


@dataclass(frozen=True)
class Given:
    """What the work gets: numbers in the unit of their input, and words. Fields left empty are not there."""

    numbers: Mapping[str, float]
    words: Mapping[str, str]

    def number(self, key: str) -> float:
        """A number that is sure to be there: it has a default or must be given."""
        return self.numbers[key]

    def maybe(self, key: str) -> float | None:
        """A number that may have been left empty."""
        return self.numbers.get(key)

    def word(self, key: str) -> str:
        """A choice or text; an optional one left empty is an empty string."""
        return self.words.get(key, "")


@dataclass(frozen=True)
class Worked:
    """What the work hands back: outputs by key (one left out is a gap), the sum in sentences, and what to heed."""

    values: Mapping[str, float | str]
    steps: tuple[str, ...]
    warnings: tuple[str, ...] = ()
    compare: str = ""
    sources: tuple[str, ...] = ()


@dataclass(frozen=True)
class Reckoner:
    """A sum of the trade. `good_for` says in sentences where the method holds.

    `most_about` is how many fields may be a range at once; a sum that takes long is worked for every corner of them.
    """

    name: str
    title: str
    about: str
    inputs: tuple[Input, ...]
    outputs: tuple[Output, ...]
    formula: str
    work: Callable[[Given], Worked]
    sources: tuple[str, ...]
    good_for: tuple[str, ...]
    caution: str = CAUTION
    most_about: int = 6


@dataclass(frozen=True)
class Value:
    """One figure of a result. `low` and `high` stand where what was given was "about"; `others` likewise for words."""

    output: Output
    value: float | str
    low: float | None = None
    high: float | None = None
    others: tuple[str, ...] = ()


@dataclass(frozen=True)
class Taken:
    """How one field was read: what was written, and what the work got, in words."""

    key: str
    title: str
    written: str
    read_as: str


@dataclass(frozen=True)
class Result:
    """The answer, and all that a guide needs to show it and stand by it."""

    reckoner: Reckoner
    taken: tuple[Taken, ...]
    values: tuple[Value, ...]
    steps: tuple[str, ...]
    warnings: tuple[str, ...]
    sources: tuple[Source, ...]
    compare: str
    interval_note: str = ""

    def value(self, key: str) -> Value:
        """The figure with this key; a KeyError if it is a gap."""
        return {value.output.key: value for value in self.values}[key]

    def figure(self, key: str) -> float:
        """The number with this key."""
        return float(self.value(key).value)


def refuse(key: str, found: str, allowed: str) -> Unacceptable:
    """For a work whose inputs are each allowed but do not go together: `raise refuse("after", found, allowed)`."""
    return Unacceptable([Fault(key, 0, found, allowed)], "The reckoning", left="nothing was reckoned")
