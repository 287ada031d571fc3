"""Files read and understood in one step, for tests."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable

from archive.exchange.typed.model import Options, TypedTranscript
from archive.exchange.typed.reading import read_typed
from archive.exchange.typed.understanding import all_words, understand

_WORD = re.compile(r"[^\W_]+")


def understood(content: bytes | str, name: str = "talk.txt", options: Options | None = None) -> TypedTranscript:
    """A file as it is understood."""
    given = content.encode() if isinstance(content, str) else content
    return understand(read_typed(given, name), options or Options())


def said(transcript: TypedTranscript) -> list[tuple[str, str]]:
    """Who says what."""
    return [(line.speaker, line.text) for line in transcript.lines]


def out(transcript: TypedTranscript) -> list[tuple[str, str]]:
    """What is left out, and why."""
    return [(each.text, each.why) for each in transcript.left_out]


def words_of(texts: Iterable[str]) -> Counter[str]:
    """Every word of some texts, counted."""
    return Counter(word for text in texts for word in _WORD.findall(text))


def lost(file_texts: Iterable[str], transcript: TypedTranscript) -> Counter[str]:
    """The words of a file that the understanding carries less often than the file."""
    return words_of(file_texts) - words_of(all_words(transcript))
