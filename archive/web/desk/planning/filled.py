"""The form of wishes as it was filled: what stands in each field, and what the planner is asked with it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from werkzeug.datastructures import MultiDict

from archive.tours.model import THEMES
from archive.tours.wishes import Wishes, clock

SWITCHES = (
    "step_free",
    "narrow",
    "no_lift",
    "quiet",
    "no_sudden_noise",
    "captions",
    "spoken_description",
    "follow_the_metal",
    "demonstrations",
)
_PLAIN = (
    "date",
    "minutes",
    "group_size",
    "starts_at",
    "start",
    "finish",
    "audience",
    "depth",
    "language",
    "seats_every",
    "voice_every",
    "guide",
)
MUST, NOT = "must", "not"
_KINDS = ("station", "telling")
_WINDOW = re.compile(r"\s+(?:to|until)\s+|\s*[–—-]\s*")
_LONGEST = 1000


@dataclass(frozen=True)
class Filled:
    """Every field as it was written, by its name; nothing that was typed is lost."""

    values: Mapping[str, tuple[str, ...]]

    def one(self, name: str) -> str:
        """What stands in a field."""
        return next(iter(self.values.get(name, ())), "")

    def has(self, name: str, value: str) -> bool:
        """Whether a value is chosen in a field that takes several."""
        return value in self.values.get(name, ())

    def any_of(self, *names: str) -> bool:
        """Whether anything stands in one of the fields."""
        return any(self.one(name) for name in names)

    def wished(self, kind: str, refs: Iterable[str]) -> bool:
        """Whether any of the stations, or of the tellings, is asked for or left out by name."""
        return any(self.one(f"{kind}-{ref}") for ref in refs)


def filled_form(form: MultiDict[str, str]) -> Filled:
    """The form that was sent; each field is cut at a length that no honest one reaches."""
    return Filled({name: tuple(text.strip()[:_LONGEST] for text in texts) for name, texts in form.lists()})


def filled_with(wishes: Wishes) -> Filled:
    """The form that asks for these wishes."""
    values: dict[str, tuple[str, ...]] = {name: (_shown(getattr(wishes, name)),) for name in _PLAIN}
    values |= {name: ("yes",) for name in SWITCHES if getattr(wishes, name)}
    values["starts_at"] = ("" if wishes.starts_at is None else clock(wishes.starts_at),)
    windows = (f"{clock(begin)} to {clock(end)}" for begin, end in wishes.demonstration_windows)
    values["demonstration_windows"] = ("; ".join(windows),)
    values["closed_rooms"] = wishes.closed_rooms
    values |= {f"theme-{theme}": (str(weight),) for theme, weight in wishes.themes.items()}
    for kind in _KINDS:
        for answer in (MUST, NOT):
            values |= {f"{kind}-{ref}": (answer,) for ref in getattr(wishes, f"{answer}_{kind}s")}
    return Filled(values)


def wishes_asked(filled: Filled) -> dict[str, Any]:
    """What the form asks, under the planner's own names and as it was typed: the planner says what it cannot read."""
    asked: dict[str, Any] = {name: filled.one(name) for name in _PLAIN}
    asked |= {name: filled.one(name) == "yes" for name in SWITCHES}
    asked["themes"] = {theme: _weight(filled.one(f"theme-{theme}")) for theme in THEMES}
    asked["demonstration_windows"] = _windows(filled.one("demonstration_windows"))
    asked["closed_rooms"] = [room for room in filled.values.get("closed_rooms", ()) if room]
    for kind in _KINDS:
        for answer in (MUST, NOT):
            asked[f"{answer}_{kind}s"] = list(_answered(filled, f"{kind}-", answer))
    return asked


def _answered(filled: Filled, prefix: str, answer: str) -> Iterable[str]:
    named = (name for name in filled.values if name.startswith(prefix))
    return (name.removeprefix(prefix) for name in named if filled.one(name) == answer)


def _weight(text: str) -> Any:
    return int(text) if text.isascii() and text.isdigit() and len(text) < 3 else text or 0


def _windows(text: str) -> list[list[str]]:
    """Stretches of the day, "11:00 to 11:30; 14:00 to 14:30", as pairs; what is no pair is given on as it is."""
    parts = (part.strip() for part in re.split(r"[;\n]", text))
    return [_WINDOW.split(part) for part in parts if part]


def _shown(value: Any) -> str:
    return "" if value is None else f"{value:g}" if isinstance(value, int | float) else str(value)
