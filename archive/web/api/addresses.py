"""Where a record is shown to the one who asks: the kiosk for visitors, the Reading room for those signed in."""

from __future__ import annotations

from dataclasses import replace

from flask import url_for

from archive.rights.decisions import Role, Viewer
from archive.search.asking import FoundRecord
from archive.values.timecode import format_seconds, media_fragment
from archive.web.reading.links import record_url, time_url


def page_of(viewer: Viewer, kind: str, ref: str) -> str | None:
    """The page of a record; None for a statement before a visitor, which has none in the kiosk."""
    if viewer.role is not Role.VISITOR:
        return record_url(kind, ref)
    if kind == "statement":
        return None
    return {
        "person": url_for("kiosk.plan") + f"people/{ref}",
        "interview": url_for("kiosk.plan") + f"interviews/{ref}",
    }.get(kind) or record_url(kind, ref)


def hit_for(viewer: Viewer, hit: FoundRecord) -> FoundRecord:
    """A hit with the address that its finder can open; without one where the finder has no page of it."""
    if hit.recording:
        return replace(hit, url=stretch_of(viewer, hit.interview, hit.recording, hit.start or 0, hit.end or 0))
    return hit if hit.kind == "hazard" else replace(hit, url=page_of(viewer, hit.kind, hit.id) or "")


def stretch_of(viewer: Viewer, interview: str, recording: str, start_ms: int, end_ms: int) -> str:
    """The page of an interview at a stretch of one recording."""
    if viewer.role is not Role.VISITOR:
        return time_url(interview, recording, start_ms, end_ms)
    page = f"{url_for('kiosk.plan')}interviews/{interview}?recording={recording}&t={format_seconds(start_ms)}"
    return f"{page}#{media_fragment(start_ms, end_ms)}"
