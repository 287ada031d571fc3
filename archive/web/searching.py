"""The home's search index as the faces ask it, and what an address may ask of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import cast

from flask import Flask, current_app, request

from archive.errors import Fault, Unacceptable
from archive.rights.decisions import Viewer
from archive.search.asking import Page, find
from archive.search.following import follow
from archive.search.gateway import SearchIndex
from archive.search.schema import FACETS
from archive.store.session import Store
from archive.web.requests import store_of_request

MOST_VALUES = 20

_INDEX = "lemel.index"


def attach_index(app: Flask, store: Store) -> None:
    """Give an app its home's index, which from now on follows every change made through the store."""
    index = SearchIndex(store.settings.index)
    follow(store, index)
    app.extensions[_INDEX] = index


def search_index() -> SearchIndex:
    """The index of the request's home."""
    return cast(SearchIndex, current_app.extensions[_INDEX])


def ask(viewer: Viewer, text: str, filters: Mapping[str, Iterable[str]], *, limit: int, offset: int = 0) -> Page:
    """What a viewer's words find in the request's home; speakers of whom the viewer may not know are not counted."""
    page = find(store_of_request(), search_index(), viewer, text, filters, limit=limit, offset=offset)
    named = {ref: name for ref, name in page.speakers.items() if name}
    counted = {ref: count for ref, count in page.facets.get("speaker", {}).items() if ref in named}
    return replace(page, speakers=named, facets={**page.facets, "speaker": counted})


def filters_asked() -> dict[str, list[str]]:
    """The filters in the address: each facet may be given several times; Unacceptable when there are too many."""
    given = {facet: list(dict.fromkeys(filter(None, request.args.getlist(facet)))) for facet in FACETS}
    faults = [
        Fault(facet, 0, f"{len(values)} values are given", f"Give up to {MOST_VALUES}")
        for facet, values in given.items()
        if len(values) > MOST_VALUES
    ]
    if faults:
        raise Unacceptable(faults, "The address")
    return {facet: values for facet, values in given.items() if values}
