"""Every change to tours; none commits. Each deed writes a version, so that it can be undone and done again."""

from __future__ import annotations

import re
import unicodedata
from typing import Any

from sqlalchemy import delete
from sqlalchemy.orm import Session

from archive.errors import Conflict, Fault, NotFound, Unacceptable
from archive.plan.model import Station
from archive.plan.queries import station as station_named
from archive.plan.queries import stations
from archive.tours.model import Stop, StopTelling, Telling, Tour, TourVersion
from archive.tours.planning.building import ways_for
from archive.tours.planning.problem import TENTHS
from archive.tours.planning.solution import Solution
from archive.tours.queries import refs_taken, tellings_named, version_of
from archive.tours.queries import tour as tour_named
from archive.tours.waiting import tenths_up
from archive.tours.wishes import Wishes, read_wishes

_PLAIN = re.compile(r"[^a-z0-9]+")
_MOST_STOPS, _LONGEST_REF = 100, 48
# A tour says for whom it is; where nobody is named, it is for adults.
_ANYBODY = "adults"


def keep_tour(
    session: Session, who: str, *, ref: str | None, name: str, summary: str, wishes: Wishes, solution: Solution
) -> Tour:
    """Keep what the planner found: as a new tour, or, with a reference, in the place of what that tour was."""
    if not solution.fits:
        raise Conflict("Nothing fits these wishes, so there is no tour to keep. Change a wish and plan again.")
    row = tour_named(session, ref) if ref else Tour(ref=_new_ref(session, name), name=name.strip() or "A tour")
    if ref is None:
        session.add(row)
        row.version = 0
    elif row.version == 0:
        _begin_versions(session, who, row)
    row.name, row.summary = name.strip() or row.name, summary
    row.audience, row.minutes, row.group_size = wishes.audience or _ANYBODY, float(wishes.minutes), wishes.group_size
    row.needs = list(wishes.needs)
    row.inputs, row.outcome = wishes.as_data(), {**solution.as_data(), "version": row.version + 1}
    row.start, row.finish = (_station_or_none(session, one) for one in (wishes.start, wishes.finish))
    session.flush()
    pins = dict(wishes.pinned)
    state = [
        {
            "station": stop.station,
            "walk_minutes": stop.walk,
            "pinned": stop.station in pins,
            "tellings": [{"ref": one, "pinned": one in pins.get(stop.station, ())} for one in stop.tellings],
        }
        for stop in solution.stops
    ]
    _put(session, row, state)
    _write(session, who, row, "Planned")
    return row


def move_stop(session: Session, who: str, tour: Tour, *, stop: int, to: int) -> None:
    """Move the stop at a place to another place."""
    with_state = _Changing(session, who, tour)
    moved = with_state.stops.pop(with_state.place(stop))
    with_state.stops.insert(max(0, min(to, len(with_state.stops))), moved)
    with_state.done(f"Moved {_name(session, moved)} to place {min(max(to, 0), len(with_state.stops) - 1) + 1}")


def drop_stop(session: Session, who: str, tour: Tour, *, stop: int) -> None:
    """Leave a stop out."""
    state = _Changing(session, who, tour)
    dropped = state.stops.pop(state.place(stop))
    state.done(f"Dropped {_name(session, dropped)}")


def add_stop(session: Session, who: str, tour: Tour, *, station: str, at: int, tellings: tuple[str, ...]) -> None:
    """Stop at a station, at a place, and tell something there."""
    state = _Changing(session, who, tour)
    if len(state.stops) >= _MOST_STOPS:
        raise Conflict(f"A tour has {_MOST_STOPS} stops at most. Drop one first.")
    _check_told_at(session, station, tellings)
    added = {"station": station, "walk_minutes": 0.0, "pinned": False, "tellings": [_told(ref) for ref in tellings]}
    state.stops.insert(max(0, min(at, len(state.stops))), added)
    state.done(f"Added {_name(session, added)}")


def pin(session: Session, who: str, tour: Tour, *, stop: int, telling: str = "", pinned: bool = True) -> None:
    """Pin a stop, or one telling of it, so that it stays when the rest is finished; or let it go."""
    state = _Changing(session, who, tour)
    held = state.stops[state.place(stop)]
    row = held if not telling else held["tellings"][state.telling(stop, telling)]
    row["pinned"] = pinned
    what = f"something at {_name(session, held)}" if telling else _name(session, held)
    state.done(f"{'Pinned' if pinned else 'Let go of'} {what}")


def add_telling(session: Session, who: str, tour: Tour, *, stop: int, telling: str, at: int | None = None) -> None:
    """Tell one more thing at a stop, at a place among its tellings, else last."""
    state = _Changing(session, who, tour)
    held = state.stops[state.place(stop)]
    _check_told_at(session, held["station"], (telling,))
    if any(one["ref"] == telling for one in held["tellings"]):
        raise Conflict("It is told at this stop already.")
    count = len(held["tellings"])
    held["tellings"].insert(count if at is None else max(0, min(at, count)), _told(telling))
    state.done(f"Added something at {_name(session, held)}")


def drop_telling(session: Session, who: str, tour: Tour, *, stop: int, telling: str) -> None:
    """Leave a telling out of a stop."""
    state = _Changing(session, who, tour)
    held = state.stops[state.place(stop)]
    held["tellings"].pop(state.telling(stop, telling))
    state.done(f"Dropped something at {_name(session, held)}")


def move_telling(session: Session, who: str, tour: Tour, *, stop: int, telling: str, to: int) -> None:
    """Tell something earlier or later at its stop."""
    state = _Changing(session, who, tour)
    held = state.stops[state.place(stop)]
    moved = held["tellings"].pop(state.telling(stop, telling))
    held["tellings"].insert(max(0, min(to, len(held["tellings"]))), moved)
    state.done(f"Moved something at {_name(session, held)}")


def describe(session: Session, who: str, tour: Tour, *, name: str, summary: str) -> None:
    """Give a tour another name and summary."""
    if tour.version == 0:
        _begin_versions(session, who, tour)
    tour.name, tour.summary = name, summary
    _write(session, who, tour, "Named it")


def undo(session: Session, who: str, tour: Tour) -> None:
    """Go back to how the tour was before the last deed."""
    _step(session, tour, tour.version - 1, "There is nothing to undo.")


def redo(session: Session, who: str, tour: Tour) -> None:
    """Do again what was undone last."""
    _step(session, tour, tour.version + 1, "There is nothing to do again.")


def withdraw(session: Session, who: str, tour: Tour) -> None:
    """Put a tour away: it is kept, and not offered."""
    tour.withdrawn = True


def restore(session: Session, who: str, tour: Tour) -> None:
    """Offer a tour again that was put away."""
    tour.withdrawn = False


class _Changing:
    """A tour's stops as plain values while a deed changes them."""

    def __init__(self, session: Session, who: str, tour: Tour) -> None:
        if tour.version == 0:
            _begin_versions(session, who, tour)
        self._session, self._who, self._tour = session, who, tour
        self.stops: list[dict[str, Any]] = _state(tour)["stops"]

    def place(self, stop: int) -> int:
        """The place, if there is such a stop."""
        if not 0 <= stop < len(self.stops):
            raise NotFound(f"There is no stop {stop + 1} on this tour.")
        return stop

    def telling(self, stop: int, ref: str) -> int:
        """The place of a telling among those of a stop."""
        refs = [one["ref"] for one in self.stops[self.place(stop)]["tellings"]]
        if ref not in refs:
            raise NotFound(f"There is no telling '{ref[:64]}' at this stop.")
        return refs.index(ref)

    def done(self, said: str) -> None:
        """Work the walks out anew, keep the stops, and write the version."""
        _put(self._session, self._tour, _walked(self._session, self._tour, self.stops))
        _write(self._session, self._who, self._tour, said)


def _state(tour: Tour) -> dict[str, Any]:
    """A tour as a version keeps it."""
    return {
        "name": tour.name,
        "summary": tour.summary,
        "inputs": tour.inputs,
        "outcome": tour.outcome,
        "stops": [
            {
                "station": stop.station.ref,
                "walk_minutes": stop.walk_minutes,
                "pinned": stop.pinned,
                "tellings": [{"ref": one.telling.ref, "pinned": one.pinned} for one in stop.chosen],
            }
            for stop in tour.stops
        ],
    }


def _walked(session: Session, tour: Tour, stops: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """The stops with the minutes walked to each, for the group and the day of the tour's wishes."""
    if not tour.inputs.get("date") or not stops:
        return stops
    ways, needs, party = ways_for(session, read_wishes(tour.inputs))
    before = tour.start.ref if tour.start else stops[0]["station"]
    for stop in stops:
        if stop["station"] != before:
            leg = ways.leg(before, stop["station"], needs, party)
            if leg is not None:
                stop["walk_minutes"] = tenths_up(leg.minutes) / TENTHS
        else:
            stop["walk_minutes"] = 0.0
        before = stop["station"]
    return stops


def _put(session: Session, tour: Tour, stops: list[dict[str, Any]]) -> None:
    """Let the tour have these stops. What is no longer in the home is passed over."""
    places = {one.ref: one for one in stations(session)}
    told = tellings_named(session, {one["ref"] for stop in stops for one in stop["tellings"]})
    tour.stops.clear()
    session.flush()
    kept = [stop for stop in stops if stop["station"] in places]
    for position, stop in enumerate(kept):
        row = Stop(position=position, walk_minutes=float(stop["walk_minutes"]), pinned=bool(stop["pinned"]))
        row.station = places[stop["station"]]
        mine = [one for one in stop["tellings"] if one["ref"] in told]
        row.chosen = [
            StopTelling(position=number, telling=told[one["ref"]], pinned=bool(one["pinned"]))
            for number, one in enumerate(mine)
        ]
        tour.stops.append(row)
    session.flush()


def _write(session: Session, who: str, tour: Tour, said: str) -> None:
    """Write down how the tour stands; what was undone before is forgotten."""
    later = delete(TourVersion).where(TourVersion.tour_id == tour.id, TourVersion.number > tour.version)
    session.execute(later)
    tour.version += 1
    session.add(TourVersion(tour_id=tour.id, number=tour.version, who=who, said=said[:300], state=_state(tour)))
    session.flush()


def _begin_versions(session: Session, who: str, tour: Tour) -> None:
    """The first version of a tour that came with the collection: as it was loaded."""
    _write(session, who, tour, "Loaded with the collection")


def _step(session: Session, tour: Tour, number: int, none: str) -> None:
    version = version_of(session, tour, number)
    if version is None:
        raise Conflict(none)
    state = version.state
    tour.name, tour.summary = state["name"], state["summary"]
    tour.inputs, tour.outcome = state["inputs"], state["outcome"]
    _put(session, tour, state["stops"])
    tour.version = number


def _station_or_none(session: Session, ref: str | None) -> Station | None:
    return station_named(session, ref) if ref else None


def _name(session: Session, stop: dict[str, Any]) -> str:
    return station_named(session, stop["station"]).name


def _told(ref: str) -> dict[str, Any]:
    return {"ref": ref, "pinned": False}


def _check_told_at(session: Session, station: str, refs: tuple[str, ...]) -> None:
    """Unacceptable where a telling is not told at a station."""
    place = station_named(session, station)
    known: dict[str, Telling] = tellings_named(session, refs)
    faults = [
        Fault("telling", 0, f"There is no telling '{ref[:64]}' at {place.name}", "Choose one that is told there")
        for ref in refs
        if ref not in known or known[ref].station_id != place.id
    ]
    if faults:
        raise Unacceptable(faults, "The stop")


def _new_ref(session: Session, name: str) -> str:
    """A reference made of a name, with a number behind it where it is taken."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    base = f"t-{_PLAIN.sub('-', plain).strip('-')}"[:_LONGEST_REF].rstrip("-")
    base = base if base != "t" else "t-tour"
    taken = refs_taken(session, base)
    return base if base not in taken else next(ref for n in range(2, 10**6) if (ref := f"{base}-{n}") not in taken)
