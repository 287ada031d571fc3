"""What a viewer may know of by name, for finding it in the lines: words of the trade, people, places, things."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.interviews.names import shown_names
from archive.interviews.queries import people
from archive.interviews.transcripts.suggesting import Known
from archive.objects.queries import objects
from archive.plan.queries import stations
from archive.rights.decisions import Viewer
from archive.store.freshness import memory
from archive.terms.queries import vocabulary
from archive.terms.spotting import Spot, Vocabulary

_SHORTEST = 3


@dataclass(frozen=True)
class Names:
    """Records with the words they go by; terms are spotted apart from names."""

    terms: tuple[Known, ...]
    others: tuple[Known, ...]
    _of_terms: Vocabulary
    _of_others: Vocabulary

    def terms_in(self, text: str) -> list[Spot]:
        """The thesaurus's words in a text; the key of each is its place in `terms`."""
        return self._of_terms.spots(text)

    def others_in(self, text: str) -> list[Known]:
        """The people, stations and objects named in a text, in order."""
        return [self.others[spot.key] for spot in self._of_others.spots(text)]


def names_known(session: Session, viewer: Viewer) -> Names:
    """The names under which the viewer may know things; worked out once for each state of the database."""
    held = memory(session)
    key = ("known", viewer)
    if key not in held:
        held[key] = _names(session, viewer)
    found: Names = held[key]
    return found


def _names(session: Session, viewer: Viewer) -> Names:
    shown = shown_names(session, viewer)
    terms = tuple(
        Known("term", each.ref, each.preferred, (each.preferred, *each.other_words)) for each in vocabulary(session)
    )
    others = (
        *(
            Known("person", each.ref, shown[each.id], tuple(_called(shown[each.id], each.name)))
            for each in people(session, viewer)
            if shown.get(each.id)
        ),
        *(Known("station", each.ref, each.name, (each.name,)) for each in stations(session)),
        *(Known("object", each.ref, each.name, (each.name,)) for each in objects(session)),
    )
    return Names(terms, others, Vocabulary(_words(terms)), Vocabulary(_words(others)))


def _called(shown: str, name: str) -> Iterator[str]:
    """The shown name; the last word of it too, where it is the person's own name in full."""
    yield shown
    if shown == name and " " in name:
        yield name.split()[-1]


def _words(known: Sequence[Known]) -> Iterable[tuple[str, int]]:
    """Names before other words, so that none is taken over by another's dialect."""
    for rank in (slice(0, 1), slice(1, None)):
        for place, each in enumerate(known):
            yield from ((word, place) for word in each.words[rank] if len(word) >= _SHORTEST)
