"""The home's search index as the faces ask it, and what an address may ask of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import cast

from flask import current_app, request

from archive.rights.decisions import Viewer
from archive.search.asking import Page, find
from archive.search.gateway import SearchIndex
from archive.search.schema import FACETS
from archive.web.requests import store_of_request

_INDEX = "lemel.index"


def search_index() -> SearchIndex:
    """The index of the request's home, opened once for an app."""
    held = current_app.extensions
    if _INDEX not in held:
        # Two first requests may both open one; setdefault keeps the same for both.
        held.setdefault(_INDEX, SearchIndex(store_of_request().settings.index))
    return cast(SearchIndex, held[_INDEX])


def ask(viewer: Viewer, text: str, filters: Mapping[str, Iterable[str]], *, limit: int, offset: int = 0) -> Page:
    """What a viewer's words find in the request's home; speakers of whom the viewer may not know are not counted."""
    page = find(store_of_request(), search_index(), viewer, text, filters, limit=limit, offset=offset)
    named = {ref: name for ref, name in page.speakers.items() if name}
    counted = {ref: count for ref, count in page.facets.get("speaker", {}).items() if ref in named}
    return replace(page, speakers=named, facets={**page.facets, "speaker": counted})


def filters_asked() -> dict[str, list[str]]:
    """The filters in the address: each facet may be given any number of times."""
    given = {facet: [value for value in request.args.getlist(facet) if value] for facet in FACETS}
    return {facet: values for facet, values in given.items() if values}
