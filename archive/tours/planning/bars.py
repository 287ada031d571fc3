"""Why a telling cannot be chosen: the first of the wishes, rights, papers or places that bars it, in words. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from archive.objects.clearance import clearance_on
from archive.plan.model import Station
from archive.rights.decisions import spoken_date
from archive.tours.model import Telling
from archive.tours.wishes import Wishes

Bar = tuple[str, str]


@dataclass(frozen=True)
class Facts:
    """What is known besides the records: what is open that day, what is out of use, which clips have words to read."""

    open_then: frozenset[int]
    out_of_use: Mapping[tuple[str, str], str] = field(default_factory=dict)
    captioned: frozenset[int] = frozenset()


def station_bar(station: Station, wishes: Wishes, facts: Facts) -> Bar | None:
    """Why a station cannot be visited, and the wish that would let it in; None where it can."""
    room = station.room
    checks: Iterable[tuple[bool, str, str]] = (
        (station.ref in wishes.not_stations, "you wished to leave this station out", "not_stations"),
        (room.ref in wishes.closed_rooms, "you wished its room closed", "closed_rooms"),
        (("room", room.ref) in facts.out_of_use, "its room is out of use that day", ""),
        (("station", station.ref) in facts.out_of_use, "the station is out of use that day", ""),
        (
            wishes.group_size > room.capacity,
            f"its room holds {room.capacity}, and the group has {wishes.group_size}",
            "group_size",
        ),
        (wishes.quiet and not station.quiet, "it is not a quiet place", "quiet"),
    )
    return next(((why, wish) for true, why, wish in checks if true), None)


def telling_bar(telling: Telling, wishes: Wishes, facts: Facts) -> Bar | None:
    """Why a telling cannot be told at a station that can be visited."""
    told_in = telling.language.split("-")[0].lower()
    checks: Iterable[tuple[bool, str, str]] = (
        (telling.ref in wishes.not_tellings, "you wished to leave it out", "not_tellings"),
        (telling.id not in facts.open_then, f"it is not open for tours on {spoken_date(wishes.date)}", "date"),
        (
            told_in != wishes.language.split("-")[0].lower(),
            f"it is in {telling.language}",
            "language",
        ),
        (
            wishes.captions and telling.clip_id is not None and telling.clip_id not in facts.captioned,
            "it has no captions",
            "captions",
        ),
        (
            wishes.spoken_description and telling.kind in ("object", "demonstration") and not telling.script.strip(),
            "nothing is written to describe it aloud",
            "spoken_description",
        ),
    )
    found = next(((why, wish) for true, why, wish in checks if true), None)
    return found or _machine_bar(telling, wishes)


def _machine_bar(telling: Telling, wishes: Wishes) -> Bar | None:
    """Papers come before wishes: no wish lets a machine run without them."""
    told = telling.demonstration
    if told is None:
        return None
    state = clearance_on(told.machine.clearances, wishes.date)
    if not state.valid:
        return state.lacking[0][0].lower() + state.lacking[0][1:].rstrip("."), ""
    if not wishes.demonstrations:
        return "you wished for no machine to run", "demonstrations"
    if wishes.quiet:
        return "a machine that runs is not quiet", "quiet"
    if wishes.no_sudden_noise and told.sudden:
        return "its noise comes all at once", "no_sudden_noise"
    return None
