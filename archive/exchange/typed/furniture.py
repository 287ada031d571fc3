"""What stands around the words on typed pages: page numbers, lines that come on every page, ends of tapes. Pure."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence

from archive.exchange.typed.model import Block

PAGE, REPEATED, TAPE = "a page number", "it comes again and again, as the head or foot of a page", "a word on the tape"
_TAPE_WORDS = 9
_NUMBERED = re.compile(r"[-–—\s]*(?:page|pg\.?|p\.)\s*\d{1,4}(?:\s*(?:of|/)\s*\d{1,4})?[-–—\s]*", re.IGNORECASE)
_DASHED = re.compile(r"\s*[-–—]\s*\d{1,4}\s*[-–—]\s*|\s*\d{1,4}\s*(?:of|/)\s*\d{1,4}\s*", re.IGNORECASE)
_NUMBER = re.compile(r"\s*(\d{1,4})\s*")
_TAPE = re.compile(
    r"\W*(?:end|start|beginning|continued|begin)s?\W+(?:of\W+)?(?:the\W+)?"
    r"(?:interview|tape|recording|side|transcript|transcription|track|part|session|audio|file)\b.*",
    re.IGNORECASE,
)


def furniture(blocks: Sequence[Block]) -> dict[int, str]:
    """Which blocks are no words, by place, each with the reason."""
    found = {at: PAGE for at, block in enumerate(blocks) if _is_numbered(block)}
    found.update((at, PAGE) for at in _running_numbers(blocks))
    found.update((at, REPEATED) for at in _repeated(blocks, frozenset(found)))
    for at, block in enumerate(blocks):
        if not block.cells and _TAPE.fullmatch(block.text) and len(block.text.split()) <= _TAPE_WORDS:
            found.setdefault(at, TAPE)
    return found


def _is_numbered(block: Block) -> bool:
    return not block.cells and bool(_NUMBERED.fullmatch(block.text) or _DASHED.fullmatch(block.text))


def _running_numbers(blocks: Sequence[Block]) -> list[int]:
    """Bare numbers that count up by one from a low one; a year that somebody answers with does not."""
    taken: list[int] = []
    wanted = None
    for at, block in enumerate(blocks):
        match = None if block.cells else _NUMBER.fullmatch(block.text)
        number = int(match[1]) if match else None
        if number is not None and (number == wanted or (wanted is None and number <= 3)):
            taken.append(at)
            wanted = number + 1
    return taken if len(taken) > 1 else []


def _repeated(blocks: Sequence[Block], numbers: frozenset[int]) -> list[int]:
    """Short lines that come three times or more, and that count up or stand beside a page's number."""
    places: dict[str, list[int]] = defaultdict(list)
    for at, block in enumerate(blocks):
        text = block.text.strip()
        if at not in numbers and not block.cells and 0 < len(text) <= 90 and text[-1] not in ".?!…,;:":
            places[re.sub(r"\d+", "#", text.casefold())].append(at)
    return [
        at for same, ats in places.items() if len(ats) > 2 and _is_of_pages(same, ats, blocks, numbers) for at in ats
    ]


def _is_of_pages(same: str, ats: Sequence[int], blocks: Sequence[Block], numbers: frozenset[int]) -> bool:
    if len(same.split()) < 2:
        return False
    if "#" in same and len({blocks[at].text for at in ats}) == len(ats) and not re.match(r"\W*#[:.]#", same):
        return True
    beside = sum(1 for at in ats if {at - 1, at + 1} & numbers)
    return len(numbers) > 1 and beside * 2 >= len(ats)
