"""Plain typed text: what letters it is written in, and its lines as blocks."""

from __future__ import annotations

import codecs
import re

from archive.errors import CannotRead
from archive.exchange.typed.model import Block, Raw

WINDOWS = (
    "The file is not UTF-8, so it was read as Windows-1252. Look at letters such as é, £ and the long dash. "
    "If they are wrong, save it again as UTF-8."
)
_BINARY = re.compile(r"[\x00-\x08\x0e-\x1a\x1c-\x1f]")


def decoded(content: bytes, where: str) -> tuple[str, tuple[str, ...]]:
    """The text, and what should be told of how it was read."""
    told: tuple[str, ...] = ()
    if content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        try:
            text = content.decode("utf-16")
        except UnicodeDecodeError as problem:
            allowed = "It may have been cut off. Save it again as UTF-8"
            raise CannotRead(where, 0, "it begins as UTF-16 and then is not", allowed) from problem
    else:
        try:
            text = content.decode("utf-8-sig")
        except UnicodeDecodeError:
            text, told = _windows(content), (WINDOWS,)
    if _BINARY.search(text):
        allowed = "Send a transcript as text, .docx, .odt, .vtt, .ttml or .csv"
        raise CannotRead(where, 0, "it is no text: it holds signs that no text has", allowed)
    return text.replace("\r\n", "\n").replace("\r", "\n"), told


def _windows(content: bytes) -> str:
    """Windows-1252; its five bytes without a letter stay what they are in Latin-1."""
    try:
        return content.decode("cp1252")
    except UnicodeDecodeError:
        return content.decode("latin-1")


def read_plain(text: str, told: tuple[str, ...] = ()) -> Raw:
    """The paragraphs of a text: its lines, which run on to an empty one where they are broken at a width."""
    lines = re.split(r"[\n\f\v\x1b\x85\u2028\u2029]", text)
    return Raw("text", tuple(_blocks(lines, wrapped=_is_wrapped(lines))), (), told)


def _blocks(lines: list[str], *, wrapped: bool) -> list[Block]:
    blocks: list[Block] = []
    runs_on = False
    for number, line in enumerate(lines, 1):
        if not line.strip():
            runs_on = False
        elif runs_on and not _begins(line):
            last = blocks[-1]
            blocks[-1] = Block(last.where, f"{last.text} {line.strip()}")
        else:
            blocks.append(Block(f"line {number}", line.strip()))
        runs_on = bool(line.strip()) and wrapped and len(line.rstrip()) > _FULL
    return blocks


_FULL = 55
_STARTS = re.compile(r"\s*(?:[\[(]?\d{1,3}:\d{2}|[^\s:]{1,30}(?: [^\s:]{1,30}){0,3}:(?:\s|$))")


def _begins(line: str) -> bool:
    return bool(_STARTS.match(line))


def _is_wrapped(lines: list[str]) -> bool:
    """Whether lines are broken at a width, as a typewriter breaks them."""
    full = [len(line.rstrip()) for line in lines if len(line.rstrip()) > _FULL]
    return len(full) > 2 and max(full) <= 100
