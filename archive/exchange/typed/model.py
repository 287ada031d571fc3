"""What is read from a typed transcript: raw blocks first, then lines and what was left out. Nothing is lost between."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum

# Parts of a table's row that can be taken.
PARTS = ("start", "end", "speaker", "text")


class Way(StrEnum):
    """How the speakers are marked."""

    AUTO = "auto"
    BOLD = "bold"
    COLON = "colon"
    CAPITALS = "capitals"
    LINE = "line"
    NONE = "none"


class Times(StrEnum):
    """What 12:30 means."""

    MINUTES = "minutes"
    HOURS = "hours"
    NONE = "none"


@dataclass(frozen=True)
class Block:
    """A paragraph, a caption or a table's row as it stands in the file.

    `bold` is how many letters at its start are bold. A row has `cells` and no text. A caption has the times and the
    speaker that its format gives.
    """

    where: str
    text: str = ""
    bold: int = 0
    cells: tuple[str, ...] = ()
    start_ms: int | None = None
    end_ms: int | None = None
    speaker: str = ""

    @property
    def number(self) -> int:
        """The number of its paragraph, line or row, as `where` tells it."""
        last = self.where.rpartition(" ")[2]
        return int(last) if last.isdigit() else 0

    @property
    def words(self) -> str:
        """All of it as one text."""
        return " | ".join(cell for cell in self.cells if cell) if self.cells else self.text


@dataclass(frozen=True)
class LeftOut:
    """Something of the file that is not taken as words: where it stands, what it says, and why."""

    where: str
    text: str
    why: str


@dataclass(frozen=True)
class Raw:
    """A file as its format gives it. `told` are sentences that whoever looks at it should read."""

    form: str
    blocks: tuple[Block, ...]
    left_out: tuple[LeftOut, ...] = ()
    told: tuple[str, ...] = ()


@dataclass(frozen=True)
class Options:
    """How a person wants the file understood.

    `first` is the number of the paragraph, line or row at which the words begin, 0 to let the rules find it. `columns`
    says which column of a table holds what; -1 is none of them, and a part that is not there is found by the rules.
    `known` are labels that always are speakers, `no_speakers` labels that never are.
    """

    speakers: Way = Way.AUTO
    times: Times = Times.MINUTES
    first: int = 0
    split: bool = True
    columns: dict[str, int] = field(default_factory=dict)
    known: frozenset[str] = frozenset()
    no_speakers: frozenset[str] = frozenset()
    duration_ms: int | None = None


@dataclass(frozen=True)
class TypedLine:
    """One line. `note` is what the file wrote where the line says it otherwise: times, marks of what was not heard."""

    start_ms: int | None
    end_ms: int | None
    speaker: str
    text: str
    note: str = ""
    where: str = ""


@dataclass(frozen=True)
class TypedTranscript:
    """A typed transcript as it is understood."""

    lines: tuple[TypedLine, ...]
    left_out: tuple[LeftOut, ...]
    form: str
    told: tuple[str, ...] = ()
    way: Way = Way.NONE
    columns: tuple[str, ...] = ()

    @property
    def labels(self) -> Sequence[str]:
        """Everyone who speaks, as the file calls them, in order of coming in."""
        return tuple(dict.fromkeys(line.speaker for line in self.lines if line.speaker))
