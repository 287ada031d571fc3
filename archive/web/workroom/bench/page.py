"""What the bench's pages show, as frozen records."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from sqlalchemy.orm import Session

from archive.interviews.closing import masked_spans
from archive.interviews.model import Recording, TranscriptVersion
from archive.interviews.transcripts import queries
from archive.interviews.transcripts.comparing import LineChange, Piece, compare, pieces
from archive.interviews.transcripts.lines import Line
from archive.rights.naming import shown_name
from archive.values.timecode import Span
from archive.web.workroom.bench.deeds import Deed, deeds
from archive.web.workroom.bench.words import words


@dataclass(frozen=True)
class BenchPage:
    """The recording, and every deed that has a key."""

    recording: Recording
    deeds: Sequence[Deed]
    words: Sequence[tuple[str, str]]

    @property
    def groups(self) -> list[tuple[str, list[Deed]]]:
        """The deeds under their headings."""
        return [(name, list(rows)) for name, rows in groupby(self.deeds, key=lambda deed: deed.group)]


@dataclass(frozen=True)
class VersionsPage:
    """Every version of a recording's transcript, the newest first."""

    recording: Recording
    versions: Sequence[TranscriptVersion]

    @property
    def now(self) -> int:
        """The newest version's number."""
        return self.recording.transcript_version


@dataclass(frozen=True)
class ShownChange:
    """One line that differs: who spoke then and now, and its words as one text with what is gone and added."""

    change: LineChange
    before: str
    after: str
    pieces: Sequence[Piece]
    closed: bool

    @property
    def line(self) -> Line:
        """The line as it is, or was."""
        line = self.change.after or self.change.before
        assert line is not None
        return line

    @property
    def moved(self) -> bool:
        """Whether its times differ."""
        before, after = self.change.before, self.change.after
        return bool(before and after and (before.start_ms, before.end_ms) != (after.start_ms, after.end_ms))


@dataclass(frozen=True)
class ComparePage:
    """Two versions, and the lines that differ."""

    recording: Recording
    older: TranscriptVersion
    newer: TranscriptVersion
    changes: Sequence[ShownChange]


def bench_page(recording: Recording) -> BenchPage:
    """The page of the bench itself; the lines come as data."""
    return BenchPage(recording, deeds(), words())


def versions_page(session: Session, recording: Recording) -> VersionsPage:
    """Every version."""
    return VersionsPage(recording, queries.versions(session, recording))


def compare_page(session: Session, recording: Recording, older: int, newer: int) -> ComparePage:
    """Two versions side by side; whichever is older stands first."""
    first, second = (queries.version(session, recording, number) for number in sorted((older, newer)))
    names = {person.ref: shown_name(person, ()) for person in queries.people_known(session)}
    closed = masked_spans(recording)
    changes = compare(queries.version_lines(first), queries.version_lines(second))
    return ComparePage(recording, first, second, [_shown(change, names, closed) for change in changes])


def _shown(change: LineChange, names: dict[str, str], closed: Sequence[Span]) -> ShownChange:
    before, after = change.before, change.after
    told = pieces(before.text if before else "", after.text if after else "")
    line = after or before
    over = line is not None and any(s.start_ms < line.end_ms and s.end_ms > line.start_ms for s in closed)
    return ShownChange(change, _speaker(before, names), _speaker(after, names), told, over)


def _speaker(line: Line | None, names: dict[str, str]) -> str:
    return names.get(line.speaker, line.label) if line else ""
