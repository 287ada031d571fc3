"""Timed text as TTML (W3C TTML2, Recommendation 8 November 2018; IMSC 1.2 text): paragraphs, their times, who speaks.

Times: section 12.3.1 (clock time, offset time in h, m, s, ms, f and t). Paragraphs lie in time inside what they stand
in, side by side unless it says `timeContainer="seq"`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from archive.errors import CannotRead
from archive.exchange.typed.model import Block, LeftOut, Raw

_TT = "{http://www.w3.org/ns/ttml}"
_PARAMETER, _METADATA = "{http://www.w3.org/ns/ttml#parameter}", "{http://www.w3.org/ns/ttml#metadata}"
_XML_ID = "{http://www.w3.org/XML/1998/namespace}id"
_CLOCK = re.compile(r"(\d{2,}):(\d{2}):(\d{2})(?:\.(\d{1,9})|:(\d{2,})(?:\.\d+)?)?")
_OFFSET = re.compile(r"(\d{1,9}(?:\.\d{1,9})?)(h|ms|m|s|f|t)")
ALLOWED = "Write a time as 00:00:12.500, 00:00:12:10 or 12.5s"
ABOUT = "it is written about the file, not said"


@dataclass(frozen=True)
class _Clock:
    """How many frames and ticks a second has."""

    frames: float
    ticks: float
    where: str

    def ms(self, text: str) -> int:
        """Milliseconds of a time expression."""
        if match := _CLOCK.fullmatch(text.strip()):
            hours, minutes, seconds = (int(match[part]) for part in (1, 2, 3))
            part = float(f"0.{match[4]}") if match[4] else int(match[5] or 0) / self.frames
            return round((hours * 3600 + minutes * 60 + seconds + part) * 1000)
        if match := _OFFSET.fullmatch(text.strip()):
            unit = {"h": 3600.0, "m": 60.0, "s": 1.0, "ms": 0.001, "f": 1 / self.frames, "t": 1 / self.ticks}
            return round(float(match[1]) * unit[match[2]] * 1000)
        raise CannotRead(self.where, 0, f"'{text[:30]}' is not a time", ALLOWED)


def read_ttml(root: Element, where: str) -> Raw:
    """The paragraphs of a file of timed text."""
    if root.tag != f"{_TT}tt":
        found = f"it begins with <{root.tag.rpartition('}')[2][:30]}>, so it is no timed text"
        raise CannotRead(where, 0, found, 'TTML begins with <tt xmlns="http://www.w3.org/ns/ttml">')
    rate = _number(root.get(f"{_PARAMETER}frameRate"), 30.0)
    numbers = root.get(f"{_PARAMETER}frameRateMultiplier", "1 1").split()
    multiplier = _number(numbers[0], 1.0) / _number(numbers[-1], 1.0) if numbers else 1.0
    clock = _Clock(rate * multiplier, _number(root.get(f"{_PARAMETER}tickRate"), rate * multiplier), where)
    agents = {agent.get(_XML_ID, ""): _agent(agent) for agent in root.iter(f"{_METADATA}agent")}
    body = root.find(f"{_TT}body")
    blocks = [] if body is None else [each for each, _end in _read(body, 0, None, "", clock, agents)]
    numbered = [
        Block(f"paragraph {at}", b.text, 0, (), b.start_ms, b.end_ms, b.speaker) for at, b in enumerate(blocks, 1)
    ]
    return Raw("ttml", tuple(numbered), tuple(_about(root)))


def _read(
    element: Element, base: int, until: int | None, speaker: str, clock: _Clock, agents: dict[str, str]
) -> Iterator[tuple[Block, int | None]]:
    """The paragraphs under an element, each with its end."""
    start, end = _span(element, base, until, clock)
    named = element.get(f"{_METADATA}agent", "").split()
    speaker = " and ".join(agents.get(name) or name for name in named) or speaker
    if element.tag == f"{_TT}p":
        timed = start if _is_timed(element) or base or until else None
        if text := _words(element):
            yield Block("", text, 0, (), timed, end if timed is not None else None, speaker), end
        return
    after = start
    in_turn = element.get("timeContainer") == "seq"
    for child in element:
        for block, ended in _read(child, after if in_turn else start, end, speaker, clock, agents):
            yield block, ended
            if in_turn and ended is not None:
                after = max(after, ended)


def _span(element: Element, base: int, until: int | None, clock: _Clock) -> tuple[int, int | None]:
    begin, end, length = (element.get(name) for name in ("begin", "end", "dur"))
    start = base + (clock.ms(begin) if begin else 0)
    ends = [base + clock.ms(end)] if end else []
    ends += [start + clock.ms(length)] if length else []
    ends += [until] if until is not None else []
    return start, min(ends) if ends else None


def _is_timed(element: Element) -> bool:
    return any(element.get(name) for name in ("begin", "end", "dur"))


def _words(paragraph: Element) -> str:
    """The words of a paragraph and its spans; a break is a space, and what is written about it is not said."""
    parts = [paragraph.text or ""]
    for child in paragraph:
        if child.tag == f"{_TT}br":
            parts.append(" ")
        elif not child.tag.startswith(_METADATA) and child.tag != f"{_TT}metadata":
            parts.append(_words(child) if child.tag != f"{_TT}span" else f"{_words_kept(child)}")
        parts.append(child.tail or "")
    return " ".join("".join(parts).split())


def _words_kept(span: Element) -> str:
    """The words of a span with the spaces at its ends, which set it off from what stands around it."""
    inner = _words(span)
    whole = "".join(span.itertext())
    return f"{' ' if whole[:1].isspace() else ''}{inner}{' ' if whole[-1:].isspace() else ''}"


def _agent(agent: Element) -> str:
    return " ".join(" ".join("".join(name.itertext()).split()) for name in agent.iter(f"{_METADATA}name")).strip()


def _about(root: Element) -> Iterator[LeftOut]:
    """Titles, descriptions and the like, wherever they stand; names of speakers are with what they say."""
    for element in root.iter():
        name = element.tag.rpartition("}")[2]
        text = " ".join((element.text or "").split())
        if element.tag.startswith(_METADATA) and name not in ("agent", "name", "actor") and text:
            yield LeftOut(name, text, ABOUT)


def _number(text: str | None, default: float) -> float:
    return float(text) if text and re.fullmatch(r"\d{1,9}", text, re.ASCII) and int(text) > 0 else default
