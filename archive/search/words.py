"""From text to words: where each stands, how it is shown in a suggestion, and the folded stem that finds it."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from whoosh.lang.porter import stem

from archive.search.spelling import one_spelling

_MARKS = "\u0300-\u036f"
WORD = re.compile(rf"[\w{_MARKS}]+(?:['’ʼ][\w{_MARKS}]+)*")
_APOSTROPHES = str.maketrans("’ʼ", "''")
_HYPHENS = frozenset("-‐‑")
_LONGEST = 64


class Word(NamedTuple):
    """One word of a text: its plain form, its stem, and where it stands."""

    plain: str
    stem: str
    start: int
    end: int


@lru_cache(maxsize=4)
def words_of(text: str) -> tuple[Word, ...]:
    """The words of a text in order. A hyphen parts two words; an apostrophe stays inside one.

    The last few texts are kept, since the fields of a document are made of the same one.
    """
    return tuple([Word(*known(match[0]), *match.span()) for match in WORD.finditer(text)])


def stems_placed(text: str) -> Iterator[tuple[str, int]]:
    """Each stem with its place; a hyphened pair is also found written as one word, at the place of its first part."""
    before: Word | None = None
    hyphened = not _HYPHENS.isdisjoint(text)
    for place, word in enumerate(words_of(text)):
        yield word.stem, place
        if before is not None and text[before.end : word.start] in _HYPHENS:
            yield folded(before.plain + word.plain), place - 1
        before = word if hyphened else None


def stems_of(text: str) -> list[str]:
    """The stems of a text in order."""
    return [word.stem for word in words_of(text)]


@lru_cache(maxsize=65536)
def known(word: str) -> tuple[str, str]:
    """The plain form and the stem of a word as it is written."""
    shown = plain(word)
    return shown, folded(shown)


@lru_cache(maxsize=65536)
def plain(word: str) -> str:
    """Lower case, without accents, with straight apostrophes, and of a bearable length."""
    lowered = word.casefold()
    if not lowered.isascii():
        parts = unicodedata.normalize("NFKD", lowered).translate(_APOSTROPHES)
        lowered = "".join(part for part in parts if not unicodedata.combining(part))
    return lowered[:_LONGEST]


@lru_cache(maxsize=65536)
def folded(word: str) -> str:
    """The stem by which a plain word is indexed and asked."""
    bare = word.removesuffix("'s").replace("'", "")
    if not bare.isascii() or not bare.isalpha():
        return bare or word
    found: str = stem(one_spelling(bare))
    return found or bare
