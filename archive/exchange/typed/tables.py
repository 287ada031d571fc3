"""Rows of a table as captions: which column holds times, which the speaker, which the words. Pure."""

from __future__ import annotations

import re
from collections.abc import Sequence

from archive.exchange.typed.model import PARTS, Block, LeftOut, Options, Times
from archive.exchange.typed.stamps import seconds_ms

HEAD, NOT_TAKEN, NO_WORDS = "the head of the table", "in a column that is not taken", "a row without words"
_HEAD_WORDS = {
    "start": frozenset("start begin from in time timecode timestamp tc starttime timein tcin at".split()),  # noqa: SIM905
    "end": frozenset("end to out finish stop endtime timeout tcout until".split()),  # noqa: SIM905
    "speaker": frozenset("speaker name who voice person participant speakers initials".split()),  # noqa: SIM905
    "text": frozenset(
        "text words transcript said speech content line dialogue utterance transcription caption".split()  # noqa: SIM905
    ),
}


def heads_of(blocks: Sequence[Block]) -> tuple[str, ...]:
    """The columns by name: what stands in the first row, or their numbers."""
    first = next((block.cells for block in blocks if block.cells), ())
    width = max((len(block.cells) for block in blocks), default=0)
    if _by_head(first):
        return tuple(first[at] if at < len(first) and first[at] else str(at + 1) for at in range(width))
    return tuple(str(at + 1) for at in range(width))


def captions(blocks: Sequence[Block], options: Options) -> tuple[list[Block], list[LeftOut]]:
    """The same blocks with every row made a caption; what no column was found for is left out."""
    rows = [block.cells for block in blocks if block.cells]
    first = rows[0] if rows else ()
    headed = _by_head(first)
    columns = (headed or _by_look(rows, options.times)) | _asked(options)
    if not headed and columns.get("text") is None:
        columns["text"] = 0
    made: list[Block] = []
    out: list[LeftOut] = []
    for block in blocks:
        if not block.cells:
            made.append(block)
        elif headed and block.cells == first:
            out.append(LeftOut(block.where, block.words, HEAD))
        else:
            _caption(block, columns, options.times, made, out)
    return made, out


def _asked(options: Options) -> dict[str, int | None]:
    return {part: None if at < 0 else at for part, at in options.columns.items() if part in PARTS}


def _caption(block: Block, columns: dict[str, int | None], times: Times, made: list[Block], out: list[LeftOut]) -> None:
    taken = {part: block.cells[at] for part, at in columns.items() if at is not None and at < len(block.cells)}
    written = {part: taken.get(part, "").strip() for part in PARTS}
    start, end = (seconds_ms(written[part], times) for part in ("start", "end"))
    rest = [cell for at, cell in enumerate(block.cells) if cell.strip() and at not in columns.values()]
    if start is None and (found := _both(written["start"], times)):
        start, end = found
    unread = [part for part, ms in (("start", start), ("end", end)) if ms is None and written[part]]
    out += [LeftOut(block.where, cell, NOT_TAKEN) for cell in (*rest, *(written[part] for part in unread))]
    if not written["text"]:
        left = " | ".join(written[part] for part in PARTS if written[part] and part not in unread)
        if left:
            out.append(LeftOut(block.where, left, NO_WORDS))
        return
    speaker = " ".join(written["speaker"].strip(" :").split())[:200]
    made.append(Block(block.where, written["text"], 0, (), start, end, speaker))


def _both(text: str, times: Times) -> tuple[int, int] | None:
    """A start and an end in one cell."""
    parts = re.split(r"\s*(?:-->|-|–|—|\bto\b)\s*", text)
    if len(parts) != 2:
        return None
    start, end = (seconds_ms(part, times) for part in parts)
    return None if start is None or end is None else (start, end)


def _by_head(cells: Sequence[str]) -> dict[str, int | None]:
    """The columns as their head words tell; nothing when there is no head for the words."""
    found: dict[str, int | None] = {}
    for at, cell in enumerate(cells):
        word = re.sub(r"[^a-z]", "", re.sub(r"\(.*\)", "", cell.casefold()))
        for part, words in _HEAD_WORDS.items():
            if word in words and part not in found:
                found[part] = at
    return found if "text" in found and len(found) > 1 else {}


def _by_look(rows: Sequence[Sequence[str]], times: Times) -> dict[str, int | None]:
    """The columns as they look: times, short names that come again, and the longest for the words."""
    width = max((len(row) for row in rows), default=0)
    cells = [[row[at].strip() for row in rows if at < len(row) and row[at].strip()] for at in range(width)]
    timed = [at for at in range(width) if cells[at] and _share_of_times(cells[at], times) > 0.6]
    lengths = {at: sum(map(len, cells[at])) / len(cells[at]) for at in range(width) if cells[at] and at not in timed}
    if not lengths:
        return {}
    text = max(lengths, key=lambda at: lengths[at])
    names = [at for at in lengths if at != text and _are_names(cells[at])]
    found: dict[str, int | None] = dict(zip(("start", "end"), timed, strict=False))
    return found | {"text": text} | ({"speaker": names[0]} if names else {})


def _share_of_times(cells: Sequence[str], times: Times) -> float:
    return sum(1 for cell in cells if seconds_ms(cell, times) is not None or _both(cell, times)) / len(cells)


def _are_names(cells: Sequence[str]) -> bool:
    few = len(set(cells)) <= max(2, len(cells) * 0.6)
    return few and all(len(cell.split()) <= 5 and len(cell) <= 80 for cell in cells)
