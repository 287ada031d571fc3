"""How a passage or a whole interview is cited: who, in what, when held, at what time, kept where, read when."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from flask_babel import gettext as _

from archive.rights.decisions import spoken_date
from archive.values.timecode import format_clock


@dataclass(frozen=True)
class Source:
    """What every citation of one interview has in common; names and title are the shown ones."""

    narrators: Sequence[str]
    title: str
    ref: str
    held: str
    collection: str
    place: str
    read_on: dt.date

    def whole(self, recordings: Sequence[tuple[str, int]], *, draft: bool = False) -> str:
        """The citation of the interview, with each recording and how long it lasts; a draft is cited as one."""
        lengths = ", ".join(f"{ref} ({format_clock(duration)})" for ref, duration in recordings)
        words = _("Recorded as %(recordings)s.", recordings=lengths)
        return f"{self._head(listed(self.narrators))} {words} {self._tail(draft)}"

    def passage(self, speaker: str, recording: str, start_ms: int, end_ms: int, *, draft: bool = False) -> str:
        """The citation of a stretch of one recording."""
        span = {"start": format_clock(start_ms), "end": format_clock(end_ms)}
        words = _("Recording %(recording)s, from %(start)s to %(end)s.", recording=recording, **span)
        return f"{self._head(speaker)} {words} {self._tail(draft)}"

    def _head(self, who: str) -> str:
        held = _(", held %(date)s", date=self.held) if self.held else ""
        said = _("“%(title)s”, interview %(ref)s", title=self.title, ref=self.ref)
        opening = f"{who}, " if who else ""
        return f"{opening}{said}{held}."

    def _tail(self, draft: bool) -> str:
        unsure = _("From a draft transcript that nobody has checked.") + " " if draft else ""
        read = _("Read %(date)s.", date=spoken_date(self.read_on))
        return f"{unsure}{self.collection}, {self.place}. {read}"


def listed(names: Sequence[str]) -> str:
    """Names in a row: A, B and C."""
    if len(names) < 2:
        return "".join(names)
    return str(_("%(first)s and %(last)s", first=", ".join(names[:-1]), last=names[-1]))
