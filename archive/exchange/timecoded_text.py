"""Transcripts as transcribers send them: plain text with times in brackets and, if they like, speakers.

`[0:05] ADA: I was put on a press.`, `(00:12:05) I was.`, `ADA: [1:02:03.5] I was.`; paragraphs run on until the next
time. A segment ends where the next starts, the last where the recording ends.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass, field

from archive.exchange.cues import Cue, one_line
from archive.exchange.faults import FaultList, Place, shown
from archive.values.timecode import parse_timecode

ALLOWED = "Begin each segment with its time in brackets, such as [0:05], [1:02:03] or (00:12:05)"
_BRACKET = re.compile(r"[ \t]*[\[(][ \t]*(\d[\d:.,]*)[ \t]*[\])][ \t]*")
_LABEL = re.compile(r"([^\s:\[\]()<>][^:\[\]()<>]{0,79}?)[ \t]*:(?:[ \t]+|$)")
_NAME_WORD = re.compile(r"[A-Z0-9][\w.'’&-]*")
_MOST_WORDS = 4


@dataclass
class _Segment:
    line: int
    start_ms: int
    speaker: str
    words: list[str] = field(default_factory=list)


def parse_timecoded(
    text: str, where: str, duration_ms: int, faults: FaultList, known: Collection[str] = ()
) -> list[Cue]:
    """The segments of such a text; `known` are labels that are always taken for speakers."""
    segments: list[_Segment] = []
    for number, line in enumerate(text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n"), 1):
        if line.strip():
            _read(line.strip(), Place(where, number), segments, faults, known)
    return _with_ends(segments, where, duration_ms, faults)


def _read(line: str, place: Place, segments: list[_Segment], faults: FaultList, known: Collection[str]) -> None:
    speaker, rest = _label(line, known)
    stamp = _BRACKET.match(rest)
    if stamp is None:
        speaker, stamp, rest = "", _BRACKET.match(line), line
    if stamp is None:
        _run_on(line, place, segments, faults, known)
        return
    try:
        start = parse_timecode(stamp[1])
    except ValueError:
        faults.add(place, f"{shown(stamp[1])} is not a time", ALLOWED)
        return
    words = rest[stamp.end() :]
    if not speaker:
        speaker, words = _label(words, known)
    segments.append(_Segment(place.line, start, speaker, [words]))


def _run_on(line: str, place: Place, segments: list[_Segment], faults: FaultList, known: Collection[str]) -> None:
    """A line without a time belongs to the segment above, unless someone else speaks in it."""
    if not segments:
        faults.add(place, f"text before the first time: {shown(line)}", ALLOWED)
        return
    label, _ = _label(line, known)
    if label and (label in known or label.isupper() or label in {segment.speaker for segment in segments}):
        faults.add(place, f"{shown(label)} speaks here without a time", ALLOWED)
        return
    segments[-1].words.append(line)


def _label(text: str, known: Collection[str]) -> tuple[str, str]:
    """The speaker's label at the start of a text, "" if there is none, and what comes after it."""
    match = _LABEL.match(text)
    if not match:
        return "", text
    label = match[1]
    words = label.split()
    is_name = len(words) <= _MOST_WORDS and all(_NAME_WORD.fullmatch(word) for word in words)
    return (label, text[match.end() :]) if label in known or is_name else ("", text)


def _with_ends(segments: list[_Segment], where: str, duration_ms: int, faults: FaultList) -> list[Cue]:
    cues = []
    ends = [*(segment.start_ms for segment in segments[1:]), *([duration_ms] if segments else [])]
    for segment, end in zip(segments, ends, strict=True):
        place, words = Place(where, segment.line), one_line(" ".join(segment.words))
        if end <= segment.start_ms:
            last = segment is segments[-1]
            allowed = "The last time lies inside the recording" if last else "Times rise from segment to segment"
            faults.add(place, f"a segment that ends at or before its start, {segment.start_ms / 1000:g} s", allowed)
        elif not words:
            faults.add(place, "a time without words", "Give it words or take it out")
        else:
            cues.append(Cue(segment.start_ms, end, segment.speaker, words, segment.line))
    return cues
