"""Suggestions: ways to finish a word, and words that were perhaps meant; never one that only closed documents hold."""

from __future__ import annotations

from archive.search.seen import Seen
from archive.search.snapshot import Snapshot
from archive.search.words import Word, words_of

_MOST_WORDS = 2000
_SHORTEST = 2
_SHORTEST_PUT_RIGHT = 4


def completions(snapshot: Snapshot, text: str, seen: Seen, limit: int) -> list[str]:
    """The text with its last word finished, the words of the most documents first."""
    words = words_of(text)
    if not words or words[-1].end < len(text) or len(words[-1].plain) < _SHORTEST:
        return []
    begun = snapshot.vocabulary("words").beginning(words[-1].plain)[:_MOST_WORDS]
    counted = [(-_holders(seen, word), word) for word in begun]
    return [text[: words[-1].start] + word for holders, word in sorted(counted) if holders][:limit]


def did_you_mean(snapshot: Snapshot, text: str, seen: Seen) -> str:
    """The text with each word that no open document holds put right; "" where nothing near is open."""
    put_right = text
    for word in reversed(words_of(text)):
        is_field = text[word.end : word.end + 1] == ":"
        if len(word.plain) >= _SHORTEST_PUT_RIGHT and not is_field and not _is_open(seen, word):
            near = _nearest(snapshot, word.plain, seen)
            if near:
                put_right = put_right[: word.start] + near + put_right[word.end :]
    return put_right if put_right != text else ""


def _nearest(snapshot: Snapshot, word: str, seen: Seen) -> str:
    """The nearest word that an open document holds; of equally near ones the commonest."""
    near: dict[int, list[str]] = {}
    for apart, other in snapshot.vocabulary("words").near(word, 1 if len(word) <= 4 else 2):
        near.setdefault(apart, []).append(other)
    for apart in sorted(near):
        holders, nearest = min((-_holders(seen, other), other) for other in near[apart])
        if holders:
            return nearest
    return ""


def _is_open(seen: Seen, word: Word) -> bool:
    return any(len(seen.scored(field, word.stem).docs) > 0 for field in ("text", "title"))


def _holders(seen: Seen, word: str) -> int:
    """How many open documents hold a word as written."""
    return len(seen.scored("words", word).docs)
