"""The marks inside a WebVTT cue, taken off: voices are kept, all else becomes plain text.

Source: W3C WebVTT (Candidate Recommendation, 4 April 2019), sections 4.2.2 (cue text) and 6.4 (its parsing).
What the parser of section 6.4 drops without a word is refused here, so that nobody loses text unawares.
"""

from __future__ import annotations

import html
import re
from dataclasses import dataclass, field

from archive.exchange.cues import one_line
from archive.exchange.faults import shown

_PIECES = re.compile(r"<[^<>]*>?|&[A-Za-z0-9#]*;?|[^<&]+")
_START = re.compile(r"<(c|i|b|u|ruby|rt|v|lang)((?:\.[^\s.<>&]+)*)(?:[ \t\n]+([^>]*))?>")
_END = re.compile(r"</(c|i|b|u|ruby|rt|v|lang)>")
_TIME = re.compile(r"<(?:(\d{2,}):)?([0-5]\d):([0-5]\d)\.(\d{3})>")
_ENTITY = re.compile(r"&(?:#\d{1,7}|#[xX][0-9A-Fa-f]{1,6}|[A-Za-z][A-Za-z0-9]*);")
_NAMED = {"v": "a name", "lang": "a language"}
_ESCAPES = {"&": "&amp;", "<": "&lt;", ">": "&gt;", "\u00a0": "&nbsp;", "\u200e": "&lrm;", "\u200f": "&rlm;"}


class BadMark(ValueError):
    """A mark that the cue text may not hold; its two arguments are what was found and what is allowed."""


@dataclass
class _Reading:
    """The voices and tags that are open, and the words so far."""

    said: list[tuple[str, str]] = field(default_factory=list)
    open_tags: list[str] = field(default_factory=list)
    voices: list[str] = field(default_factory=list)
    time_ms: int = -1

    def add(self, text: str) -> None:
        voice = self.voices[-1] if self.voices else ""
        if self.said and self.said[-1][0] == voice:
            self.said[-1] = (voice, self.said[-1][1] + text)
        else:
            self.said.append((voice, text))


def plain_voices(payload: str) -> list[tuple[str, str]]:
    """Each voice and its words in order; raises BadMark."""
    reading = _Reading()
    for piece in _PIECES.findall(payload):
        if piece[0] == "<":
            _tag(piece, reading)
        elif piece[0] == "&":
            reading.add(plain_entity(piece))
        else:
            reading.add(piece)
    unclosed = [tag for tag in reading.open_tags if tag != "v"]
    if unclosed:
        raise BadMark(f"<{unclosed[0]}> is not closed", f"Close it with </{unclosed[0]}>")
    lines = ((voice, one_line(text)) for voice, text in reading.said)
    return [(voice, text) for voice, text in lines if text]


def plain_entity(piece: str) -> str:
    """The letter that an entity stands for."""
    plain = html.unescape(piece)
    if not _ENTITY.fullmatch(piece) or plain == piece or "\0" in plain or "\ufffd" in plain:
        raise BadMark(f"{shown(piece)} is no letter's name", "Write a plain & as &amp;")
    return plain


def escaped(text: str) -> str:
    """Plain text as cue text."""
    return "".join(_ESCAPES.get(letter, letter) for letter in text)


def _tag(piece: str, reading: _Reading) -> None:
    if start := _START.fullmatch(piece):
        _open(start[1], one_line(start[3] or ""), reading)
    elif end := _END.fullmatch(piece):
        _close(end[1], reading)
    elif time := _TIME.fullmatch(piece):
        hours, minutes, seconds, thousandths = (int(part or 0) for part in time.groups())
        at = ((hours * 60 + minutes) * 60 + seconds) * 1000 + thousandths
        if at <= reading.time_ms:
            raise BadMark(f"the time {shown(piece)} comes too late", "Times inside a cue must rise")
        reading.time_ms = at
    else:
        raise BadMark(f"{shown(piece)} is no mark of a cue", "Write a plain < as &lt;")


def _open(tag: str, name: str, reading: _Reading) -> None:
    if tag in _NAMED and not name:
        raise BadMark(f"<{tag}> has no {_NAMED[tag].split()[1]}", f"Give it {_NAMED[tag]}, as in <{tag} Name>")
    if tag not in _NAMED and name:
        raise BadMark(f"<{tag}> holds {shown(name)}", "Only <v> and <lang> hold words")
    if tag == "rt" and "ruby" not in reading.open_tags:
        raise BadMark("<rt> stands outside <ruby>", "Put it inside <ruby>")
    reading.open_tags.append(tag)
    if tag == "v":
        reading.voices.append("".join(plain_entity(p) if p[0] == "&" else p for p in _PIECES.findall(name)))


def _close(tag: str, reading: _Reading) -> None:
    if not reading.open_tags or reading.open_tags[-1] != tag:
        raise BadMark(f"</{tag}> closes nothing", f"Open it with <{tag}> first, and close marks in turn")
    reading.open_tags.pop()
    if tag == "v":
        reading.voices.pop()
