"""The list of all recordings, sorted and sifted as the address asks. Of what is closed it tells references only."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy.orm import Session

from archive.interviews.intake import queries
from archive.interviews.model import Recording

WORDS = ("none", "draft", "checked")


@dataclass(frozen=True)
class RecordingLine:
    """One recording in the list; `lufs` is None where it was never measured, or is silent."""

    ref: str
    interview: str
    duration_ms: int
    lufs: float | None
    words: str
    closures: int
    damaged: bool


@dataclass(frozen=True)
class RecordingsPage:
    """The lines that were asked for, of how many, by which order; `asked` is what the form holds."""

    lines: Sequence[RecordingLine]
    total: int
    interviews: Sequence[str]
    asked: Mapping[str, str]
    sort: str
    falling: bool
    waiting: int

    @property
    def choices(self) -> list[tuple[str, str]]:
        """The interviews to choose from."""
        return [(ref, ref) for ref in self.interviews]

    def turned(self, sort: str) -> dict[str, Any]:
        """What the address of another order holds; the order that is there is turned round."""
        falling = sort == self.sort and not self.falling
        kept = {name: value for name, value in self.asked.items() if value}
        return {**kept, "sort": sort, "falling": "1" if falling else None}


_ORDERS: dict[str, Callable[[RecordingLine], Any]] = {
    "recording": lambda line: line.ref,
    "interview": lambda line: line.interview,
    "length": lambda line: line.duration_ms,
    "loudness": lambda line: -999.0 if line.lufs is None else line.lufs,
    "words": lambda line: WORDS.index(line.words),
    "closures": lambda line: line.closures,
    "damage": lambda line: line.damaged,
}


def recordings_page(session: Session, asked: Mapping[str, str], sort: str, *, falling: bool) -> RecordingsPage:
    """The page; what is asked that is no choice is passed over."""
    every = [_line(row) for row in queries.recordings(session)]
    order = sort if sort in _ORDERS else "recording"
    wanted = [line for line in every if _is_asked(line, asked)]
    return RecordingsPage(
        lines=sorted(wanted, key=_ORDERS[order], reverse=falling),
        total=len(every),
        interviews=queries.interview_refs(session),
        asked=asked,
        sort=order,
        falling=falling,
        waiting=len(queries.uploads(session)),
    )


def _line(row: Recording) -> RecordingLine:
    return RecordingLine(
        ref=row.ref,
        interview=row.interview.ref,
        duration_ms=row.duration_ms,
        lufs=row.facts.get("integrated_lufs"),
        words=row.transcript_state,
        closures=len(row.closures),
        damaged=bool(row.damage),
    )


def _is_asked(line: RecordingLine, asked: Mapping[str, str]) -> bool:
    interview, words, only = asked.get("interview"), asked.get("words"), asked.get("only")
    return (
        (not interview or line.interview == interview)
        and (words not in WORDS or line.words == words)
        and (only != "damaged" or line.damaged)
        and (only != "closures" or line.closures > 0)
        and (only != "unmeasured" or line.lufs is None)
    )
