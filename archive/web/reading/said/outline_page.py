"""What stands beside a transcript: the chapters proposed, and how long each voice talks."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.interviews.model import Recording
from archive.interviews.said.outline import Proposed, outline_of
from archive.interviews.transcripts.suggesting import Known
from archive.rights.decisions import Viewer
from archive.values.timecode import media_fragment
from archive.web.reading.links import Link, kind_in_words, record_url, time_url

_BAR = 1000


@dataclass(frozen=True)
class ChapterLine:
    """A proposed chapter: where it begins, the words that tell it, and what is named in it."""

    start_ms: int
    url: str
    fragment: str
    phrases: tuple[Link, ...]
    named: tuple[Link, ...]


@dataclass(frozen=True)
class Voice:
    """How long one voice talks; `left` and `width` place it in a bar of a thousand parts."""

    who: str
    minutes: float
    share: int
    left: int
    width: int


@dataclass(frozen=True)
class OutlinePage:
    """Chapters (none where the recording is too short to part) and voices."""

    chapters: tuple[ChapterLine, ...]
    voices: tuple[Voice, ...]


def outline_page(session: Session, viewer: Viewer, recording: Recording) -> OutlinePage:
    """The outline of a recording, of what is open to the viewer and nothing else."""
    outline = outline_of(session, viewer, recording.ref)
    proposed = outline.chapters if len(outline.chapters) > 1 else ()
    return OutlinePage(tuple(_chapter(one) for one in proposed), _voices(outline.talk))


def _chapter(one: Proposed) -> ChapterLine:
    line = one.line
    return ChapterLine(
        start_ms=line.start_ms,
        url=time_url(line.interview, line.recording, line.start_ms, line.end_ms),
        fragment=media_fragment(line.start_ms, line.end_ms),
        phrases=tuple(_link(phrase) if isinstance(phrase, Known) else Link("", phrase) for phrase in one.phrases),
        named=tuple(_link(known) for known in one.named),
    )


def _link(known: Known) -> Link:
    return Link(kind_in_words(known.kind), known.name, record_url(known.kind, known.ref))


def _voices(talk: dict[str, int]) -> tuple[Voice, ...]:
    """The voices side by side in one bar; a voice without a name has no place in it."""
    whole = sum(talk.values()) or 1
    voices: list[Voice] = []
    left = 0
    for who, milliseconds in talk.items():
        width = round(_BAR * milliseconds / whole)
        if who:
            voices.append(Voice(who, milliseconds / 60_000, round(100 * milliseconds / whole), left, width))
        left += width
    return tuple(voices)
