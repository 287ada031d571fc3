"""What a guide wishes of a tour, as it is asked, kept and read again. Pure."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from typing import Any

from archive.errors import Unacceptable
from archive.tours.model import AUDIENCES, DEPTHS
from archive.tours.reading_wishes import WishReader

Pinned = tuple[str, tuple[str, ...]]
Window = tuple[int, int]

LANGUAGE = "en-GB"
MINUTES_LEAST, MINUTES_MOST, GROUP_MOST = 5, 480, 500


@dataclass(frozen=True)
class Wishes:
    """For whom, when, from where to where, for how long, of what, and what the group needs.

    Times of the day are minutes since midnight. An empty audience, depth or set of themes asks for nothing in
    particular. `pinned` are stations with tellings that must stay, in this order. `guide` is an account's name.
    """

    date: dt.date
    minutes: float = 45
    group_size: int = 12
    starts_at: int | None = None
    start: str | None = None
    finish: str | None = None
    audience: str = ""
    depth: str | None = None
    language: str = LANGUAGE
    themes: Mapping[str, int] = field(default_factory=dict)
    must_stations: tuple[str, ...] = ()
    must_tellings: tuple[str, ...] = ()
    not_stations: tuple[str, ...] = ()
    not_tellings: tuple[str, ...] = ()
    step_free: bool = False
    narrow: bool = False
    no_lift: bool = False
    quiet: bool = False
    no_sudden_noise: bool = False
    captions: bool = False
    spoken_description: bool = False
    seats_every: float | None = None
    voice_every: float | None = None
    follow_the_metal: bool = False
    demonstrations: bool = True
    demonstration_windows: tuple[Window, ...] = ()
    closed_rooms: tuple[str, ...] = ()
    guide: str = ""
    pinned: tuple[Pinned, ...] = ()

    def as_data(self) -> dict[str, Any]:
        """The wishes for JSON or TOML, without what is as it would be if nothing were said."""
        told = {one.name: getattr(self, one.name) for one in fields(self)}
        written = {name: _written(name, value) for name, value in told.items() if value is not None}
        usual = {one.name: _written(one.name, one.default) for one in fields(self)}
        return {
            name: value
            for name, value in written.items()
            if name in _ALWAYS or (value not in ([], {}, "") and value != usual[name])
        }

    @property
    def needs(self) -> tuple[str, ...]:
        """The needs of the group, in the words that a tour keeps."""
        asked = {
            "step-free": self.step_free,
            "narrow": self.narrow,
            "no-lift": self.no_lift,
            "quiet": self.quiet,
            "no-sudden-noise": self.no_sudden_noise,
            "seats": self.seats_every is not None,
            "captions": self.captions,
            "spoken-description": self.spoken_description,
        }
        return tuple(need for need, wanted in asked.items() if wanted)


_ALWAYS = ("date", "minutes", "group_size")
_CLOCKS = ("starts_at",)


def read_wishes(given: Mapping[str, Any]) -> Wishes:
    """The wishes in a mapping, as `as_data` writes them; Unacceptable with every fault where they cannot be meant."""
    read = WishReader(given)
    wishes = Wishes(
        date=read.day("date"),
        minutes=read.number("minutes", 45, MINUTES_LEAST, MINUTES_MOST),
        group_size=int(read.number("group_size", 12, 1, GROUP_MOST)),
        starts_at=read.clock("starts_at"),
        start=read.text("start") or None,
        finish=read.text("finish") or None,
        audience=read.choice("audience", AUDIENCES),
        depth=read.choice("depth", DEPTHS) or None,
        language=read.text("language") or LANGUAGE,
        themes=read.weights("themes"),
        must_stations=read.refs("must_stations"),
        must_tellings=read.refs("must_tellings"),
        not_stations=read.refs("not_stations"),
        not_tellings=read.refs("not_tellings"),
        closed_rooms=read.refs("closed_rooms"),
        step_free=read.flag("step_free"),
        narrow=read.flag("narrow"),
        no_lift=read.flag("no_lift"),
        quiet=read.flag("quiet"),
        no_sudden_noise=read.flag("no_sudden_noise"),
        captions=read.flag("captions"),
        spoken_description=read.flag("spoken_description"),
        follow_the_metal=read.flag("follow_the_metal"),
        demonstrations=read.flag("demonstrations", default=True),
        seats_every=read.optional("seats_every", 1, MINUTES_MOST),
        voice_every=read.optional("voice_every", 1, MINUTES_MOST),
        demonstration_windows=read.windows("demonstration_windows"),
        guide=read.text("guide"),
        pinned=read.pins("pinned"),
    )
    if wishes.demonstration_windows and wishes.starts_at is None and "starts_at" not in read.faulty:
        read.fault("starts_at", "Hours for demonstrations are given, but not when the tour starts", "Give 10:30 or so")
    read.unknown(one.name for one in fields(Wishes))
    if read.faults:
        raise Unacceptable(read.faults, "The wish list", left="nothing was planned")
    return wishes


def clock(minute: int) -> str:
    """A minute of the day as people write it: 10:30."""
    return f"{minute // 60:02d}:{minute % 60:02d}"


def _written(name: str, value: Any) -> Any:
    """A value as JSON and TOML can hold it."""
    if isinstance(value, dt.date):
        return value.isoformat()
    if name in _CLOCKS and value is not None:
        return clock(value)
    if name == "demonstration_windows":
        return [[clock(start), clock(end)] for start, end in value]
    if name == "pinned":
        return [{"station": station, "tellings": list(tellings)} for station, tellings in value]
    if isinstance(value, tuple):
        return list(value)
    return dict(value) if isinstance(value, Mapping) else value
