"""Transcripts as WebVTT, read by the rules of the W3C and written by them.

Source: W3C WebVTT (Candidate Recommendation, 4 April 2019): section 4 says what may be written, section 6 how it is
read. Where the reader of section 6 would drop something silently, it is a fault here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from archive.exchange.cue_settings import setting_fault
from archive.exchange.cue_text import BadMark, escaped, plain_voices
from archive.exchange.cues import Cue
from archive.exchange.faults import FaultList, Place, shown

__all__ = ["Cue", "parse_webvtt", "write"]

ARROW = "-->"
TIMING_ALLOWED = "Write a cue's times as 00:12.000 --> 00:15.500, with hours before if needed"
_TIMING = re.compile(r"[ \t]*([\d:.]+)[ \t]*-->[ \t]*([\d:.]+)(?:[ \t]+(.*))?")
_TIME = re.compile(r"(?:(\d{1,4}):)?([0-5]\d):([0-5]\d)\.(\d{3})")
_HEADER_LINE = re.compile(r"[A-Za-z-]+[:=].*")
_ID = re.compile(r"(?:^|\s)id:(\S+)")


@dataclass(frozen=True)
class _Block:
    """Lines between two empty ones, and the number of the first."""

    line: int
    lines: list[str]

    @property
    def kind(self) -> str:
        """The word that makes it something else than a cue."""
        first = self.lines[0]
        if first == "NOTE" or first.startswith(("NOTE ", "NOTE\t")):
            return "NOTE"
        return first.rstrip(" \t") if first.rstrip(" \t") in ("STYLE", "REGION") else ""


def parse_webvtt(text: str, where: str, faults: FaultList) -> list[Cue]:
    """The cues of a file in order; one whose text holds two voices gives two of the same span."""
    # Section 6.1 makes a NUL a replacement character; line ends are LF from here on.
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    blocks = _blocks(lines)
    if not re.fullmatch(r"WEBVTT(?:[ \t].*)?", lines[0]):
        faults.add(Place(where, 1), f"it starts with {shown(lines[0])}", "The first line of WebVTT begins with WEBVTT")
        return []
    _check_header(blocks[0], where, faults)
    cues: list[Cue] = []
    regions = {match[1] for b in blocks[1:] if b.kind == "REGION" and (match := _ID.search(" ".join(b.lines)))}
    for block in blocks[1:]:
        if block.kind:
            _check_aside(block, bool(cues), where, faults)
        else:
            cues += _cues(block, regions, where, faults)
    _check_order(cues, where, faults)
    return cues


def write(cues: Iterable[Cue]) -> str:
    """WebVTT text of cues in order."""
    return "WEBVTT\n" + "".join(
        f"\n{_clock(cue.start_ms)} {ARROW} {_clock(cue.end_ms)}\n{_voice(cue.speaker)}{escaped(cue.text)}\n"
        for cue in cues
    )


def _voice(speaker: str) -> str:
    return f"<v {escaped(speaker)}>" if speaker else ""


def _clock(ms: int) -> str:
    seconds = ms // 1000
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}.{ms % 1000:03d}"


def _blocks(lines: list[str]) -> list[_Block]:
    blocks: list[_Block] = []
    inside = False
    for number, line in enumerate(lines, 1):
        if not line:
            inside = False
        elif inside:
            blocks[-1].lines.append(line)
        else:
            blocks.append(_Block(number, [line]))
            inside = True
    return blocks


def _check_header(block: _Block, where: str, faults: FaultList) -> None:
    for number, line in enumerate(block.lines[1:], block.line + 1):
        if ARROW in line or not _HEADER_LINE.fullmatch(line):
            allowed = "Leave an empty line after the line that begins with WEBVTT"
            faults.add(Place(where, number), f"{shown(line)} in the head of the file", allowed)
            return


def _check_aside(block: _Block, after_cue: bool, where: str, faults: FaultList) -> None:
    if after_cue and block.kind != "NOTE":
        faults.add(Place(where, block.line), f"{block.kind} after the first cue", "Put it before all cues")
    for number, line in enumerate(block.lines, block.line):
        if ARROW in line:
            faults.add(Place(where, number), f"an arrow {ARROW} inside {block.kind}", "Put an empty line before a cue")


def _cues(block: _Block, regions: set[str], where: str, faults: FaultList) -> list[Cue]:
    at = 0 if ARROW in block.lines[0] else 1
    place = Place(where, block.line + at)
    if at == len(block.lines) or ARROW not in block.lines[at]:
        found = f"text that belongs to no cue: {shown(block.lines[0])}"
        faults.add(Place(where, block.line), found, "A cue has a line of times first; a remark begins with NOTE")
        return []
    span = _timing(block.lines[at], regions, place, faults)
    payload = block.lines[at + 1 :]
    for number, line in enumerate(payload, place.line + 1):
        if ARROW in line:
            faults.add(Place(where, number), f"an arrow {ARROW} inside the text", "Put an empty line between cues")
            return []
    try:
        said = plain_voices("\n".join(payload))
    except BadMark as problem:
        faults.add(Place(where, place.line + 1), *problem.args)
        return []
    if not said:
        faults.add(place, "a cue without words", "Give it words or take it out")
    return [] if span is None else [Cue(*span, speaker, text, place.line) for speaker, text in said]


def _timing(line: str, regions: set[str], place: Place, faults: FaultList) -> tuple[int, int] | None:
    match = _TIMING.fullmatch(line)
    start, end = (_time(match[1]), _time(match[2])) if match else (None, None)
    if match is None or start is None or end is None:
        faults.add(place, f"the times {shown(line)}", TIMING_ALLOWED)
        return None
    if end <= start:
        faults.add(place, f"the times {shown(line)} end before they start", "A cue ends after it starts")
        return None
    if fault := setting_fault(match[3] or "", regions):
        faults.add(place, *fault)
    return start, end


def _time(text: str) -> int | None:
    match = _TIME.fullmatch(text)
    if not match:
        return None
    hours, minutes, seconds, thousandths = (int(part or 0) for part in match.groups())
    return ((hours * 60 + minutes) * 60 + seconds) * 1000 + thousandths


def _check_order(cues: list[Cue], where: str, faults: FaultList) -> None:
    latest = 0
    for cue in cues:
        if cue.start_ms < latest:
            faults.add(Place(where, cue.line), "a cue that starts before the one above it", "Put cues in order of time")
        latest = max(latest, cue.start_ms)
