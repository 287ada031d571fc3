"""What an API address may ask: its parameters, the viewer behind it, and the page of a list it wants."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import asdict
from typing import Any, TypeVar

from flask import Response, jsonify, request, url_for

from archive.errors import Fault, NotAllowed, Unacceptable
from archive.rights.decisions import Purpose, Role, Viewer
from archive.web import requests

Row = TypeVar("Row")

MOST = 100
USUAL = 20
FARTHEST = 10_000
_MOST_TOLD = 20
PAGING = ("limit", "offset")


def api_viewer() -> Viewer:
    """Who asks and what for; a visitor, who is not signed in, for the kiosk alone."""
    asking = requests.viewer(requests.purpose_asked())
    if asking.role is Role.VISITOR and asking.purpose is not Purpose.KIOSK:
        raise NotAllowed("Without signing in you may ask for the purpose kiosk alone. Sign in to ask for others.")
    return asking


def only_parameters(*allowed: str) -> None:
    """Unacceptable when the address has a parameter that means nothing here, such as a misspelt one."""
    known = sorted({*allowed, "purpose"})
    strange = sorted(set(request.args) - set(known))[:_MOST_TOLD]
    if strange:
        words = "Allowed are: " + ", ".join(known)
        raise Unacceptable(
            [Fault(name[:30], 0, f"'{name[:30]}' means nothing here", words) for name in strange], "The address"
        )


def limit_and_offset() -> tuple[int, int]:
    """How many, and from which on; Unacceptable when either is out of bounds."""
    limit = requests.whole_number("limit", USUAL, most=10**9)
    offset = requests.whole_number("offset", 0, most=10**9)
    faults = []
    if not 1 <= limit <= MOST:
        faults.append(Fault("limit", 0, f"{limit} is not a limit", f"Give a number from 1 to {MOST}"))
    if offset > FARTHEST:
        faults.append(Fault("offset", 0, f"{offset} is too far", f"Give a number from 0 to {FARTHEST}"))
    if faults:
        raise Unacceptable(faults, "The address")
    return limit, offset


def answer_list(rows: Sequence[Row], record_of: Callable[[Row], Any]) -> Response:
    """One page of a list that holds only what is open, with the addresses of the pages beside it."""
    limit, offset = limit_and_offset()
    items = [asdict(record_of(row)) for row in rows[offset : offset + limit]]
    return jsonify({"total": len(rows), **pages(len(rows), limit, offset), "items": items})


def pages(total: int, limit: int, offset: int) -> dict[str, Any]:
    """Where a page lies in its list, and the next and previous ones."""
    after = _page_url(limit, offset + limit) if offset + limit < total else None
    before = _page_url(limit, max(0, offset - limit)) if offset else None
    return {"limit": limit, "offset": offset, "next": after, "previous": before}


def _page_url(limit: int, offset: int) -> str:
    kept: dict[str, Any] = {name: request.args.getlist(name) for name in request.args if name not in PAGING}
    return url_for(str(request.endpoint), **(request.view_args or {}), **kept, limit=limit, offset=offset)


def refs(records: Iterable[Any]) -> tuple[str, ...]:
    """The references of records."""
    return tuple(record.ref for record in records)
