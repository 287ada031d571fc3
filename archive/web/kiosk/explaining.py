"""Prose with the thesaurus's words explained where they stand, each once a page."""

from __future__ import annotations

import html
import re
from collections.abc import Iterable, Iterator

from markupsafe import Markup, escape
from sqlalchemy.orm import Session

from archive.terms.queries import Word, vocabulary
from archive.terms.spotting import Vocabulary
from archive.web.prose import prose

_TAG = re.compile(r"(<[^<>]*>)")
_DISTINCT = 6  # letters
_BUTTON = Markup('<button type="button" class="explained" popovertarget="word-{}">{}</button>')


class Explainer:
    """Marks words in one page's prose after another, and remembers which, so that the page can explain them."""

    def __init__(self, session: Session, near: Iterable[int] = ()) -> None:
        """`near` holds the keys of the terms that the page's subject names."""
        self._words = {word.id: word for word in vocabulary(session)}
        self._near = frozenset(near)
        self._vocabulary = Vocabulary(_spellings(self._words))
        self._explained: list[int] = []
        self._passed_over: set[int] = set()

    @property
    def words(self) -> tuple[Word, ...]:
        """The words marked so far, in order."""
        return tuple(self._words[key] for key in self._explained)

    def pass_over(self, term_id: int) -> None:
        """Leave a word alone, on the page that is about it."""
        self._passed_over.add(term_id)

    def __call__(self, text: str) -> Markup:
        """The HTML of a stretch of prose. Only the text between its tags is looked at."""
        parts = _TAG.split(prose(text))
        return Markup("".join(part if part.startswith("<") else self._marked(html.unescape(part)) for part in parts))

    def _marked(self, text: str) -> Markup:
        done, pieces = 0, []
        for spot in self._vocabulary.spots(text, self._passed_over, self._fits):
            word = self._words[spot.key]
            pieces += [escape(text[done : spot.start]), _BUTTON.format(word.ref, text[spot.start : spot.end])]
            self._explained.append(spot.key)
            self._passed_over.add(spot.key)
            done = spot.end
        return Markup("").join([*pieces, escape(text[done:])])

    def _fits(self, word: str, key: int) -> bool:
        """Dialect and short words are everyday words too (eye, back, tap): they count only near their subject."""
        if key in self._near or " " in word:
            return True
        return len(word) >= _DISTINCT and word == self._words[key].preferred.casefold()


def _spellings(words: dict[int, Word]) -> Iterator[tuple[str, int]]:
    """Preferred words first, so that none is taken over by another term's dialect."""
    for word in words.values():
        yield word.preferred, word.id
    for word in words.values():
        for other in word.other_words:
            yield other, word.id
