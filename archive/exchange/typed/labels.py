"""Who speaks, as typists mark it: in bold, by a colon, in capitals, or by a name alone on a line. Pure."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from archive.exchange.typed.model import Block, Options, Way

_MOST_WORDS, _MOST_LETTERS = 5, 80
_COLON = re.compile(r"\s*([^\s:\[\]()<>][^:\[\]()<>\n]{0,79}?)\s*:(?!\d)\s*")
_QUESTION = re.compile(r"\s*([QA])[.)]\s+")
_NAME_WORD = re.compile(r"(?:[^\W_a-z]|\d)[\w.'’&-]*|de|van|von|der|the|of|and", re.UNICODE)
_CAPITAL_WORD = re.compile(r"[^\W\d_a-z][^\W\d_a-z.'’&-]*\d{0,2}")
# Heads of the fields that stand at the top of transcripts, and words that a colon often follows: no names of people.
_NO_NAMES = frozenset(
    """
    note notes date place interview interviewed transcript transcription transcriber transcribed recording
    recorded tape side track file title subject project duration length language summary keywords accession
    reference ref page location time venue collection copyright well so then now and but because first second
""".split()  # noqa: SIM905
)


@dataclass(frozen=True)
class Label:
    """A speaker found at the start of a block, and the place where the words go on."""

    name: str
    after: int


def find(block: Block, text: str, way: Way, options: Options) -> Label | None:
    """The speaker that a block names in one way, if it does. `text` is the block's, with its time taken off."""
    label = _FINDERS[way](block, text, options.known) if way in _FINDERS else None
    return None if label is None or not label.name or label.name in options.no_speakers else label


def best_way(blocks: Sequence[tuple[Block, str]], options: Options) -> Way:
    """The way that names most blocks by labels that come again; a file of few blocks need not repeat them."""
    best, most = Way.NONE, 0
    for way in _FINDERS:
        found = [label.name for block, text in blocks if (label := find(block, text, way, options))]
        seen = Counter(found)
        lasting = [name for name in found if seen[name] > 1 or name in options.known or way in _SURE]
        repeated = sum(1 for name in found if seen[name] > 1)
        if len(seen) > max(12, len(found) / 3) and repeated < len(found) / 2:
            continue
        weight = len(lasting) + repeated
        if weight > most:
            best, most = way, weight
    return best


def by_colon(_block: Block, text: str, known: frozenset[str]) -> Label | None:
    """`ADA: I was put on a press.`, `Mr Dunmore: No.`, `Q. Where?`"""
    if question := _QUESTION.match(text):
        return Label(question[1], question.end())
    match = _COLON.match(text)
    if match is None:
        return None
    name = _plain(match[1])
    return Label(name, match.end()) if name in known or _is_name(name) else None


def by_bold(block: Block, text: str, known: frozenset[str]) -> Label | None:
    """A name in bold, with or without a colon, before words that are not."""
    start = len(block.text) - len(text)
    end = block.bold - start
    if end <= 0 or end >= len(text.rstrip()) or not text[end:].strip():
        return None
    name = _plain(text[:end])
    if text[:end].rstrip().endswith(":") and ":" not in name and _is_short(name):
        return Label(name, end)
    if ":" in name:
        return by_colon(block, text, known)
    after = end + len(text[end:]) - len(text[end:].lstrip(" \t:"))
    return Label(name, after) if _is_short(name) and (name in known or _is_name(name)) else None


def by_capitals(_block: Block, text: str, _known: frozenset[str]) -> Label | None:
    """`ADA BIRCH I was put on a press.`: capitals at the start, and small letters after them."""
    words: list[str] = []
    after = 0
    for match in re.finditer(r"\S+\s*", text):
        word = match[0].strip()
        if not _CAPITAL_WORD.fullmatch(word.rstrip(":.-–—")) or (word in ("I", "A", "O") and words == []):
            break
        if len(words) and word in ("I", "A"):
            break
        words.append(word)
        after = match.end()
    name = _plain(" ".join(words))
    rest = text[after:].strip()
    letters = sum(letter.isalpha() for letter in name)
    return Label(name, after) if rest and letters > 1 and len(words) < _MOST_WORDS and _is_name(name) else None


def by_line(_block: Block, text: str, known: frozenset[str]) -> Label | None:
    """A name that stands alone, its words in the blocks below it."""
    name = _plain(text)
    ends = text.rstrip()[-1:]
    if name in known:
        return Label(name, len(text))
    return Label(name, len(text)) if _is_name(name) and ends not in ".,;?!…" else None


def _plain(text: str) -> str:
    return " ".join(text.split()).strip(" :*_-–—").rstrip(".") if not text.strip().endswith("..") else text.strip()


def _is_short(name: str) -> bool:
    return 0 < len(name) <= _MOST_LETTERS and len(name.split()) <= _MOST_WORDS


def _is_name(name: str) -> bool:
    words = name.split()
    if not _is_short(name) or words[0].casefold().rstrip(".") in _NO_NAMES or name.isdigit():
        return False
    return all(_NAME_WORD.fullmatch(word) for word in words) and not words[0].islower()


_FINDERS: dict[Way, Callable[[Block, str, frozenset[str]], Label | None]] = {
    Way.BOLD: by_bold,
    Way.COLON: by_colon,
    Way.LINE: by_line,
    Way.CAPITALS: by_capitals,
}
# Ways in which a label that comes but once is a speaker all the same.
_SURE = frozenset({Way.BOLD, Way.COLON})
