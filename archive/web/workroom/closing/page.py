"""What the page of a recording's closures shows, as frozen records."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sqlalchemy.orm import Session

from archive.audio.guarding import guarded_span
from archive.interviews.closing import known_pauses
from archive.interviews.closing_change_edits import can_undo
from archive.interviews.closing_queries import closure_changes
from archive.interviews.model import Recording
from archive.rights.decisions import Viewer
from archive.rights.model import Closure
from archive.values.timecode import Span
from archive.web.workroom.closing.asked import written
from archive.web.workroom.closing.copies import Copies, copies_of
from archive.web.workroom.closing.reach import Known, Reach, known_of, reach_of
from archive.web.workroom.closing.told import DeedLine, deed_line, guard_words
from archive.web.workroom.closing.words import words

MOST_DEEDS = 60
# Longer silences are heard at their edges alone.
LONGEST_WHOLE_MS = 30_000


@dataclass(frozen=True)
class Look:
    """What a stretch would close, or closes: with its guard, and all that falls with it."""

    span: Span
    masked: Span
    before: str
    after: str
    reach: Reach
    near: Sequence[Closure]

    @property
    def short(self) -> bool:
        """Whether it is heard in one piece."""
        return self.masked.length_ms <= LONGEST_WHOLE_MS


@dataclass(frozen=True)
class ClosureLine:
    """A closure as it stands in the list, and what it takes with it."""

    closure: Closure
    overdue: bool
    look: Look


@dataclass(frozen=True)
class ClosingPage:
    """The closures of a recording, the form with what was given, and what was done before.

    `changing` is the closure that the form is about, None for a new one; `done` names the deed that led here.
    """

    recording: Recording
    closures: Sequence[ClosureLine]
    copies: Copies
    deeds: Sequence[DeedLine]
    words: Sequence[tuple[str, str]]
    changing: Closure | None = None
    look: Look | None = None
    given: Mapping[str, str] = field(default_factory=dict)
    faults: Mapping[str, str] = field(default_factory=dict)
    done: str = ""

    @property
    def measured(self) -> bool:
        """Whether the pauses of the sound are known."""
        return "pauses" in (self.recording.facts or {})

    @property
    def overdue(self) -> int:
        """How many closures wait to be looked at again."""
        return sum(line.overdue for line in self.closures)


def closing_page(
    session: Session,
    viewer: Viewer,
    recording: Recording,
    *,
    changing: Closure | None = None,
    asked: Span | None = None,
    given: Mapping[str, str] | None = None,
    faults: Mapping[str, str] | None = None,
    done: str = "",
) -> ClosingPage:
    """The page; `asked` is a stretch to look at before it is kept. `viewer` is a keeper in care."""
    deeds = closure_changes(session, recording)[:MOST_DEEDS]
    looking = _Looking(session, viewer, recording, known_of(session, viewer, recording))
    return ClosingPage(
        recording=recording,
        closures=[
            ClosureLine(closure, is_overdue(closure, viewer.on), looking.at(closure.span, closure.masked, closure))
            for closure in recording.closures
        ],
        copies=copies_of(session, recording),
        deeds=[deed_line(change, can_undo=can_undo(recording, change)) for change in deeds],
        words=words(),
        changing=changing,
        look=looking.before_keeping(asked, changing) if asked else None,
        given=given if given is not None else _given(changing),
        faults=faults or {},
        done=done,
    )


@dataclass(frozen=True)
class _Looking:
    """Looks at stretches of one recording."""

    session: Session
    viewer: Viewer
    recording: Recording
    known: Known

    def before_keeping(self, span: Span, instead: Closure | None) -> Look:
        """What a stretch would close; `instead` is the closure whose place it would take."""
        duration = self.recording.duration_ms
        return self.at(span, guarded_span(span, known_pauses(self.recording), duration), instead)

    def at(self, span: Span, masked: Span, own: Closure | None) -> Look:
        """What a stretch closes with its guard, and which other closures it meets."""
        before, after = guard_words(span, masked, self.recording.duration_ms)
        near = [each for each in self.recording.closures if each is not own and each.masked.overlaps(masked)]
        reach = reach_of(self.session, self.viewer, self.recording, self.known, span, masked)
        return Look(span, masked, before, after, reach, near)


def is_overdue(closure: Closure, on: dt.date) -> bool:
    """Whether the day has come on which it is looked at again; a closure without a day waits for one."""
    return closure.review_on is None or closure.review_on <= on


def _given(changing: Closure | None) -> dict[str, str]:
    if changing is None:
        return {}
    review = changing.review_on.isoformat() if changing.review_on else ""
    times = {"start": written(changing.start_ms), "end": written(changing.end_ms)}
    return {**times, "reason": changing.reason, "review": review}
