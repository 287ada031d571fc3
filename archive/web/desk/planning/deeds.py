"""A deed on a tour as a button names it: its word, then the place, telling or station that it is done to."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.errors import Conflict, Fault, NotFound, Unacceptable
from archive.rights.decisions import Viewer
from archive.tours import edits
from archive.tours.judging import additions
from archive.tours.model import Tour
from archive.tours.queries import tellings
from archive.tours.queries import tour as tour_named
from archive.web.desk.pages import tour_sheet_of
from archive.web.desk.planning.standing import problem_as_it_stands, standings, wishes_like


@dataclass(frozen=True)
class Hand:
    """Who changes which tour, and in which session."""

    session: Session
    viewer: Viewer
    who: str
    tour: Tour


Deed = Callable[[Hand, Sequence[str]], None]


def do_deed(session: Session, viewer: Viewer, who: str, ref: str, *, version: str, deed: str) -> str:
    """Do what a button names, on the tour as its page showed it; gives "undo" or "redo" for a step, else "done"."""
    tour = tour_named(session, ref)
    if version != str(tour.version):
        raise Conflict("Somebody changed this tour since you loaded the page. Load it again and look at it first.")
    word, *rest = deed.split(" ")
    known = _DEEDS.get(word)
    if known is None or len(rest) != known[0]:
        raise Unacceptable([Fault("deed", 0, f"'{deed[:40]}' is nothing that can be done to a tour", "Use a button")])
    if "date" not in tour.inputs:
        # A tour that came without wishes gets those that are known of it, so that its ways are worked out by them.
        tour.inputs = wishes_like(tour, viewer.on).as_data()
    known[1](Hand(session, viewer, who, tour), rest)
    return word if word in ("undo", "redo") else "done"


def _move(hand: Hand, rest: Sequence[str]) -> None:
    edits.move_stop(hand.session, hand.who, hand.tour, stop=_place(rest[0]), to=_place(rest[1]))


def _drop(hand: Hand, rest: Sequence[str]) -> None:
    edits.drop_stop(hand.session, hand.who, hand.tour, stop=_place(rest[0]))


def _pin(pinned: bool) -> Deed:
    def deed(hand: Hand, rest: Sequence[str]) -> None:
        telling = _open(hand, rest[1]) if len(rest) > 1 else ""
        edits.pin(hand.session, hand.who, hand.tour, stop=_place(rest[0]), telling=telling, pinned=pinned)

    return deed


def _move_telling(hand: Hand, rest: Sequence[str]) -> None:
    stop, telling, to = _place(rest[0]), _open(hand, rest[1]), _place(rest[2])
    edits.move_telling(hand.session, hand.who, hand.tour, stop=stop, telling=telling, to=to)


def _drop_telling(hand: Hand, rest: Sequence[str]) -> None:
    edits.drop_telling(hand.session, hand.who, hand.tour, stop=_place(rest[0]), telling=_open(hand, rest[1]))


def _add(hand: Hand, rest: Sequence[str]) -> None:
    """Add a telling where it costs least: to the stop at its station, or at a stop made for it."""
    problem = problem_as_it_stands(hand.session, hand.viewer, hand.tour)
    stops = standings(problem, tour_sheet_of(hand.session, hand.viewer, hand.tour))
    adding = next((one for one in additions(problem, stops) if one.telling == rest[0]), None)
    if adding is None or adding.barred:
        raise Conflict(
            f"This cannot be told on this tour: {adding.barred}." if adding else "This cannot be told on this tour."
        )
    here = next((stop for stop in stops if stop.station == adding.station), None)
    if here is not None:
        edits.add_telling(hand.session, hand.who, hand.tour, stop=here.position, telling=rest[0])
        return
    before = stops[adding.position or 0 : (adding.position or 0) + 1]
    at = before[0].position if before else len(hand.tour.stops)
    edits.add_stop(hand.session, hand.who, hand.tour, station=adding.station, at=at, tellings=(rest[0],))


def _undo(hand: Hand, _rest: Sequence[str]) -> None:
    edits.undo(hand.session, hand.who, hand.tour)


def _redo(hand: Hand, _rest: Sequence[str]) -> None:
    edits.redo(hand.session, hand.who, hand.tour)


# Each word with the number of words that follow it.
_DEEDS: dict[str, tuple[int, Deed]] = {
    "move": (2, _move),
    "drop": (1, _drop),
    "pin": (1, _pin(True)),
    "unpin": (1, _pin(False)),
    "pin-telling": (2, _pin(True)),
    "unpin-telling": (2, _pin(False)),
    "move-telling": (3, _move_telling),
    "drop-telling": (2, _drop_telling),
    "add": (1, _add),
    "undo": (0, _undo),
    "redo": (0, _redo),
}


def _open(hand: Hand, ref: str) -> str:
    """A telling that the viewer may know of: of one that is closed, nobody learns here that it is on the tour."""
    if not any(row.ref == ref for row in tellings(hand.session, hand.viewer)):
        raise NotFound(f"There is no telling '{ref[:64]}' at this stop.")
    return ref


def _place(word: str) -> int:
    if not word.isascii() or not word.isdigit() or len(word) > 4:
        raise Unacceptable([Fault("deed", 0, f"'{word[:20]}' is no place on a tour", "Use a button")])
    return int(word)
