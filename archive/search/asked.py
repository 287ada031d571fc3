"""How each part of a reader's question is put to the index: folded, widened by the thesaurus, looked up by name."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from whoosh import query

from archive.search.schema import NAMED, TITLE_BOOST
from archive.search.snapshot import Snapshot
from archive.search.words import folded, plain, stems_of, words_of

OTHER_WORD_BOOST = 0.4
"""What another word for the same thing counts, beside the word that was asked for."""

_SHORTEST_BEGINNING = 2
_LONGEST_WAY = 5
_MOST_EDITS = 2
_SMALL_WORDS = frozenset(
    stems_of(
        "a an and are as at be been but by did do does for from had has have he her him his how i if in into is it its "
        "me my of on or our she so that the their them then there they this to up us was we were what when where which "
        "who why will with would you your"
    )
)
"""Words that need not stand in a hit when others are asked for with them; inside quotes they must."""


class Reading:
    """Puts the parts of one question to one state of the index."""

    def __init__(self, snapshot: Snapshot) -> None:
        self._snapshot = snapshot
        self._leaf: dict[type, Callable[[Any], Any]] = {
            query.Term: self._term,
            query.Phrase: self._phrase,
            query.Prefix: self._prefix,
            query.FuzzyTerm: self._fuzzy,
        }

    def of(self, asked: Any) -> Any:
        """The same tree with every leaf in the index's own words."""
        if isinstance(asked, query.And):
            return self._and(list(asked))
        if isinstance(asked, query.Or):
            return query.Or([self.of(part) for part in asked])
        if isinstance(asked, query.Not):
            return query.Not(self.of(asked.query))
        return self._leaf[type(asked)](asked) if type(asked) in self._leaf else query.NullQuery

    # -- Words side by side

    def _and(self, parts: list[Any]) -> Any:
        """All of the parts; words side by side that make up a term are widened together, small words left out."""
        kept: list[Any] = []
        small: list[Any] = []
        while parts:
            stems = self._run(parts)
            length = self._longest_way(stems)
            if length > 1:
                together = query.And([_anywhere(stem) for stem in stems[:length]])
                kept.append(self._widened(together, tuple(stems[:length])))
            else:
                (small if stems and stems[0] in _SMALL_WORDS else kept).append(self.of(parts[0]))
            parts = parts[max(1, length) :]
        return query.And(kept or small)

    def _run(self, parts: list[Any]) -> list[str]:
        """The stems of the plain single words that the parts begin with."""
        run: list[str] = []
        for part in parts[:_LONGEST_WAY]:
            stems = stems_of(part.text) if type(part) is query.Term and part.fieldname is None else []
            if len(stems) != 1:
                break
            run += stems
        return run

    def _longest_way(self, stems: list[str]) -> int:
        ways = self._snapshot.thesaurus
        return next((n for n in range(len(stems), 1, -1) if tuple(stems[:n]) in ways), 0)

    def _widened(self, asked: Any, stems: tuple[str, ...]) -> Any:
        """What was asked, or at a lower weight any other way to say it."""
        others = self._snapshot.thesaurus.get(stems, ())
        return query.Or([asked, *(_way(other).with_boost(OTHER_WORD_BOOST) for other in others)]) if others else asked

    # -- Leaves

    def _term(self, asked: Any) -> Any:
        if asked.fieldname is not None:
            return self._in_field(asked.fieldname.lower(), asked.text)
        words = words_of(asked.text)
        stems = tuple(word.stem for word in words)
        if not stems:
            return query.NullQuery
        if len(stems) == 1:
            return self._widened(_anywhere(stems[0]), stems)
        as_one = [_anywhere(folded(words[0].plain + words[1].plain))] if len(stems) == 2 else []
        return self._widened(query.Or([_in_order(stems), *as_one]), stems)

    def _phrase(self, asked: Any) -> Any:
        written = " ".join(asked.words)
        if asked.fieldname is not None:
            return self._in_field(asked.fieldname.lower(), written)
        stems = tuple(stems_of(written))
        return self._widened(_in_order(stems, asked.slop), stems) if stems else query.NullQuery

    def _prefix(self, asked: Any) -> Any:
        if asked.fieldname is not None:
            return self._in_field_beginning(asked.fieldname.lower(), asked.text)
        words = words_of(asked.text)
        if not words:
            return query.NullQuery
        before, last = words[:-1], words[-1]
        if len(last.plain) < _SHORTEST_BEGINNING:
            return query.And([_anywhere(word.stem) for word in words])
        return query.And([*(_anywhere(word.stem) for word in before), query.Prefix("words", last.plain)])

    def _fuzzy(self, asked: Any) -> Any:
        """Words a few letters away, looked for as they are written, asked for by their stems."""
        if asked.fieldname is not None:
            return self._in_field(asked.fieldname.lower(), asked.text)
        wanted = [word.plain for word in words_of(asked.text)]
        return query.And([self._near(word, min(asked.maxdist, _MOST_EDITS)) for word in wanted])

    def _near(self, word: str, edits: int) -> Any:
        near = {folded(other) for _, other in self._snapshot.vocabulary("words").near(word, edits)}
        return query.Or([_anywhere(stem) for stem in sorted(near | {folded(word)})])

    # -- Field words

    def _in_field(self, field: str, written: str) -> Any:
        """Records with that reference, or whose name has those words."""
        stems = stems_of(written)
        if field == "title":
            return query.And([query.Term("title", stem) for stem in stems])
        ways = [query.Term(field, name) for name in self._references(field, _as_reference(field, written))]
        if field in NAMED and stems:
            ways.append(query.And([query.Term(NAMED[field], stem) for stem in stems]))
        return query.Or(ways)

    def _in_field_beginning(self, field: str, written: str) -> Any:
        if field == "title":
            stems = self._snapshot.vocabulary("title").beginning(plain(written))
            return query.Or([query.Term("title", stem) for stem in stems])
        begun = [name for name in self._snapshot.values(field) if name.casefold().startswith(written.casefold())]
        named = self._snapshot.vocabulary(NAMED[field]).beginning(plain(written)) if field in NAMED else []
        return query.Or(
            [query.Term(field, name) for name in begun] + [query.Term(NAMED[field], stem) for stem in named]
        )

    def _references(self, field: str, written: str) -> list[str]:
        return [name for name in self._snapshot.values(field) if name.casefold() == written]


def _as_reference(field: str, written: str) -> str:
    """A reference in lower case; `1950s` is the decade 1950, and kinds may be written as plurals."""
    lowered = written.strip().casefold()
    if field == "decade":
        return lowered.removesuffix("s").removesuffix("'")
    if field == "kind" and lowered not in ("process", "people", "persons"):
        return lowered.removesuffix("es") if lowered == "processes" else lowered.removesuffix("s")
    return "person" if field == "kind" and lowered in ("people", "persons") else lowered


def _anywhere(stem: str) -> Any:
    """The stem in a text or, counting for more, in a title."""
    return query.Or([query.Term("text", stem), query.Term("title", stem, boost=TITLE_BOOST)])


def _in_order(stems: tuple[str, ...], slop: int = 1) -> Any:
    if len(stems) == 1:
        return _anywhere(stems[0])
    words = list(stems)
    return query.Or(
        [query.Phrase("text", words, slop=slop), query.Phrase("title", words, slop=slop, boost=TITLE_BOOST)]
    )


def _way(stems: tuple[str, ...]) -> Any:
    return _in_order(stems)
