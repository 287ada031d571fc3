"""From what a reader writes to a question for the index: words, phrases, beginnings, fields, AND OR NOT, brackets.

Nothing a reader can write is an error: what does not make sense is taken as plain words.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from whoosh import qparser, query

from archive.search.asked import Reading
from archive.search.schema import FACETS
from archive.search.snapshot import Snapshot

_LONGEST = 300
_DEEPEST = 12
_QUOTES = str.maketrans({"“": '"', "”": '"', "„": '"', "«": '"', "»": '"'})
_FIELDS = (*FACETS, "title")
_SPECIAL = re.compile(rf'["()*~]|\b(AND|OR|NOT)\b|\b({"|".join(_FIELDS)}):', re.IGNORECASE)


@dataclass(frozen=True)
class Wanted:
    """A question ready for the index, and what to mark in the texts it finds: stems, and beginnings of words."""

    query: Any
    stems: frozenset[str]
    beginnings: tuple[str, ...]

    @property
    def empty(self) -> bool:
        """Whether nothing was asked for."""
        return isinstance(self.query, query.Every)


def understood(snapshot: Snapshot, text: str) -> Wanted:
    """The question that a reader's words put to this state of the index, thesaurus and all."""
    asked = Reading(snapshot).of(_read(text[:_LONGEST].translate(_QUOTES).strip())).normalize()
    if asked is query.NullQuery and not any(character.isalnum() for character in text[:_LONGEST]):
        asked = query.Every()
    leaves = list(_leaves(asked))
    stems = {leaf.text for leaf in leaves if isinstance(leaf, query.Term) and leaf.fieldname in ("text", "title")}
    stems |= {word for leaf in leaves if isinstance(leaf, query.Phrase) for word in leaf.words}
    beginnings = {leaf.text for leaf in leaves if isinstance(leaf, query.Prefix)}
    return Wanted(asked, frozenset(stems), tuple(sorted(beginnings)))


@lru_cache(maxsize=512)
def _read(text: str) -> Any:
    """The tree of a reader's text, words still as written."""
    if not _SPECIAL.search(text):
        return _plain(text)
    if text.count("(") > _DEEPEST:
        return _plain(_SPECIAL.sub(" ", text))
    try:
        return _parser().parse(text, normalize=False)
    except (qparser.QueryParserError, query.QueryError, IndexError):  # IndexError: Whoosh's, for NOT with nothing after
        return _plain(_SPECIAL.sub(" ", text))


def _plain(text: str) -> Any:
    return query.And([query.Term(None, word) for word in text.split()])


@lru_cache(maxsize=1)
def _parser() -> Any:
    """Whoosh's parser with the plugins we want; without a schema, so that it leaves the words alone."""
    plugins = [
        qparser.WhitespacePlugin(),
        qparser.FieldsPlugin(rf"(?i:\b(?P<text>{'|'.join(_FIELDS)})):(?=\S)", remove_unknown=False),
        qparser.PhrasePlugin(),
        qparser.PrefixPlugin(),
        qparser.FuzzyTermPlugin(),
        qparser.GroupPlugin(),
        qparser.OperatorsPlugin(AndNot=None, AndMaybe=None, Require=None),
    ]
    return qparser.QueryParser(None, schema=None, plugins=plugins)


def _leaves(asked: Any) -> Iterator[Any]:
    """The leaves of a tree that are wanted, not those that are refused."""
    if isinstance(asked, query.Not):
        return
    if asked.is_leaf():
        yield asked
    for child in asked.children():
        yield from _leaves(child)
