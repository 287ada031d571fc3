"""Searching as every face does it: the index finds keys, and each text is fetched again under the viewer's rights."""

from __future__ import annotations

import time
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy.orm import Session

from archive.interviews.queries import closed_segment_ids
from archive.rights.decisions import Viewer
from archive.search.access import open_keys
from archive.search.gateway import Hit, SearchIndex
from archive.search.keeping import check_in_step
from archive.search.schema import FACETS
from archive.search.showing import Names, Shown, names_for, shown_records
from archive.search.snippets import Marker
from archive.store.freshness import memory
from archive.store.session import Store


@dataclass(frozen=True)
class FoundRecord:
    """A hit as it may be shown. Times are milliseconds; `marks` are (start, end) of words in the snippet."""

    kind: str
    id: str
    title: str
    recording: str
    start: int | None
    end: int | None
    speaker: str
    snippet: str
    marks: Sequence[tuple[int, int]]
    interview: str
    url: str
    draft: bool = False

    def as_answer(self) -> dict[str, Any]:
        """The hit as `/api/v1/search` gives it, times in seconds; of an unchecked transcript it says so."""
        marked = {"draft": True} if self.draft else {}
        return {
            **marked,
            "kind": self.kind,
            "id": self.id,
            "title": self.title,
            "recording": self.recording,
            "start": None if self.start is None else self.start / 1000,
            "end": None if self.end is None else self.end / 1000,
            "speaker": self.speaker,
            "snippet": self.snippet,
            "url": self.url,
        }


@dataclass(frozen=True)
class Page:
    """One page of hits; `facets` counts all hits by field and reference, `speakers` names the narrators in it."""

    text: str
    total: int
    hits: Sequence[FoundRecord]
    facets: Mapping[str, Mapping[str, int]]
    speakers: Mapping[str, str]
    did_you_mean: str
    took_ms: float

    def as_answer(self) -> dict[str, Any]:
        """The page as `/api/v1/search` gives it."""
        hits = [hit.as_answer() for hit in self.hits]
        return {"total": self.total, "took_ms": round(self.took_ms, 2), "hits": hits}


def find(
    store: Store,
    index: SearchIndex,
    viewer: Viewer,
    text: str,
    filters: Mapping[str, Iterable[str]] | None = None,
    *,
    limit: int = 20,
    offset: int = 0,
    facets: Iterable[str] = FACETS,
) -> Page:
    """A page of what the viewer's words find among the records that the viewer may know of."""
    began = time.perf_counter()
    with store.session() as session:
        known = _Known(session, index, viewer)
        found = index.ask(text, known.keys, filters, limit=limit, offset=offset, facets=facets, closed=known.closed)
        shown = shown_records(session, viewer, _by_kind(found.hits), known.names)
        marker = Marker(found.wanted, [record.text for record in shown.values()])
        hits = [_found(shown[hit.kind, hit.id], marker) for hit in found.hits if (hit.kind, hit.id) in shown]
    return Page(
        text=text,
        total=found.total - (len(found.hits) - len(hits)),
        hits=hits,
        facets=found.facets,
        speakers=known.speakers(found.facets.get("speaker", {})),
        did_you_mean=found.did_you_mean,
        took_ms=(time.perf_counter() - began) * 1000,
    )


def suggest(store: Store, index: SearchIndex, viewer: Viewer, text: str, limit: int = 8) -> list[str]:
    """Ways to finish the last word of a text, from what the viewer may know of."""
    with store.session() as session:
        known = _Known(session, index, viewer)
        return index.suggest(text, known.keys, limit, closed=known.closed)


class _Known:
    """What one viewer may know of, worked out once for as long as the records stay as they are."""

    def __init__(self, session: Session, index: SearchIndex, viewer: Viewer) -> None:
        held = memory(session)
        check_in_step(session, index, held)
        if viewer not in held:
            held[viewer] = (open_keys(session, viewer), names_for(session, viewer), closed_segment_ids(session))
        self.keys: frozenset[str]
        self.names: Names
        self.closed: frozenset[int]
        self.keys, self.names, self.closed = held[viewer]

    def speakers(self, counted: Mapping[str, int]) -> dict[str, str]:
        """The shown names of the narrators that were counted, by reference."""
        return {ref: self.names.speakers.get(ref, "") for ref in counted}


def _by_kind(hits: Iterable[Hit]) -> dict[str, list[int]]:
    keys: defaultdict[str, list[int]] = defaultdict(list)
    for hit in hits:
        keys[hit.kind].append(hit.id)
    return dict(keys)


def _found(shown: Shown, marker: Marker) -> FoundRecord:
    around = marker.snippet(shown.text)
    return FoundRecord(
        kind=shown.kind,
        id=shown.id,
        title=shown.title,
        recording=shown.recording,
        start=shown.start,
        end=shown.end,
        speaker=shown.speaker,
        snippet=around.text,
        marks=around.marks,
        interview=shown.interview,
        url=shown.url,
        draft=shown.draft,
    )
