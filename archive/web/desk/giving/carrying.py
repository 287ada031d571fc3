"""What of a tour is carried out of reach: the list that a device keeps to, and the ZIP that opens from disk."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from flask import url_for
from sqlalchemy.orm import Session

from archive.exchange.pack import one_style, plain_script, zip_of
from archive.interviews.clips.cutting import sound_of
from archive.interviews.clips.sound import recipe
from archive.interviews.model import Clip
from archive.rights.decisions import Viewer
from archive.settings import shared_folder
from archive.store.session import Store
from archive.tours.given.levels import level_on_tour
from archive.web.desk.giving.page import FloorPage, floor_page, heard_items
from archive.web.pages import show

STYLES = (
    *("tokens", "page", "forms", "marks"),
    *(f"desk/{part}" for part in ("desk", "strip", "walk", "sheet", "running", "giving")),
)
PACK_SCRIPT = "giving/pack-page.js"
# What is carried plays on every device, old ones too.
CARRIED_FORM = "mp3"
# The worker is registered, not loaded; the rest is for the pack alone.
_NOT_KEPT = {"giving/worker.js", PACK_SCRIPT, "giving/file-log.js"}


@dataclass(frozen=True)
class KeptTour:
    """Everything of one tour that a device may keep today, with a version that changes when any of it does."""

    ref: str
    version: str
    until: str
    files: tuple[str, ...]
    sounds: int

    def as_answer(self) -> dict[str, Any]:
        """The list as the worker reads it."""
        return {
            "tour": self.ref,
            "version": self.version,
            "until": self.until,
            "files": list(self.files),
            "sounds": self.sounds,
        }


def kept_tour(store: Store, session: Session, viewer: Viewer, ref: str, guide: str) -> KeptTour:
    """The list for one tour on the viewer's day."""
    page = page_with_sounds(session, viewer, ref, guide=guide, starts=None)
    level = level_on_tour(store, session, viewer, ref)
    marks = [recipe(clip, CARRIED_FORM, level).made_from for clip in _heard(page)]
    told = "\n".join([show("desk/giving/give.html", page)[0], *marks, _static_mark()])
    files = (
        url_for("giving.give", ref=ref),
        url_for("desk.sheet", ref=ref),
        *page.sounds.values(),
        *(url_for("static", filename=name) for name in static_names()),
    )
    return KeptTour(
        ref, hashlib.sha256(told.encode()).hexdigest()[:32], page.until.isoformat(), files, len(page.sounds)
    )


def page_with_sounds(session: Session, viewer: Viewer, ref: str, *, guide: str, starts: int | None) -> FloorPage:
    """The page of a tour whose voices are heard from this app."""
    page = floor_page(session, viewer, ref, starts=starts, guide=guide)
    asked: dict[str, Any] = {"form": CARRIED_FORM, "tour": ref, "for": viewer.purpose.value}
    return replace(page, sounds={clip.ref: url_for("media.clip", ref=clip.ref, **asked) for clip in _heard(page)})


def pack_of(store: Store, session: Session, viewer: Viewer, ref: str, guide: str) -> bytes:
    """The ZIP: no file in it is named after what it tells, and the same tour gives the same bytes on the same day."""
    page = floor_page(session, viewer, ref, starts=None, guide=guide, carried=True)
    level = level_on_tour(store, session, viewer, ref)
    sounds = {clip.ref: f"sounds/voice-{number:02d}.{CARRIED_FORM}" for number, clip in enumerate(_heard(page), 1)}
    packed = {
        sounds[clip.ref]: store.files.path(sound_of(store, session, clip, CARRIED_FORM, level)).read_bytes()
        for clip in _heard(page)
    }
    page = replace(page, sounds=sounds)
    texts = {
        "index.html": show("desk/giving/pack.html", page)[0],
        "sheet.html": show("desk/giving/pack_sheet.html", page)[0],
        "style.css": one_style(_text(f"css/{part}.css") for part in STYLES),
        "script.js": plain_script(PACK_SCRIPT, dict(_modules())),
        **{f"plan/{walked.floor.ref}.svg": walked.floor.svg for walked in page.floors},
    }
    return zip_of(packed | {name: text.encode() for name, text in texts.items()})


def _heard(page: FloorPage) -> list[Clip]:
    """The clips of a page, each once, in their order. The page holds none but those that are open to its viewer."""
    return list({clip.ref: clip for item in heard_items(page.sheet) if (clip := item.telling.clip)}.values())


def static_names() -> list[str]:
    """The static files that the giving page and the sheet load."""
    scripts = sorted(name for name, _text in _modules() if name not in _NOT_KEPT)
    return [
        "check.svg",
        *(f"css/{part}.css" for part in STYLES),
        "js/desk/print-button.js",
        *(f"js/desk/{name}" for name in scripts),
    ]


def _modules() -> Iterator[tuple[str, str]]:
    """The scripts of giving and of starting a machine, by their paths among those of the Desk."""
    desk = shared_folder("static") / "js/desk"
    for path in sorted([*desk.glob("start-check.js"), *desk.glob("giving/*.js"), *desk.glob("running/*.js")]):
        yield path.relative_to(desk).as_posix(), path.read_text("utf-8")


def _static_mark() -> str:
    """What changes when any of the static files does."""
    paths = [shared_folder("static") / name for name in static_names()]
    return "".join(_digest(path, path.stat().st_mtime_ns) for path in paths)


@lru_cache(maxsize=128)
def _digest(path: Path, _changed: int) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


def _text(name: str) -> str:
    return (shared_folder("static") / name).read_text("utf-8")
