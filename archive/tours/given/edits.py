"""Every change to outings, and to minutes that turned out otherwise; none commits."""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy.orm import Session

from archive.errors import Conflict
from archive.tours.given.handed import TAKEN_BACK, HandedEntry, HandedLog
from archive.tours.given.planned import as_data
from archive.tours.given.queries import outing_by_key, telling_to_change, tour_or_none
from archive.tours.model import Outing, OutingEntry


def take_in(session: Session, log: HandedLog, account_id: int | None) -> Outing:
    """Put a log among what is kept, once: what came before is not doubled, what is new is added.

    A line that was taken back on the device stays so, in whatever order the hand-ins come; its words go.
    """
    outing = outing_by_key(session, log.key) or _begin(session, log, account_id)
    if log.note:
        outing.note = log.note
    kept = {entry.key: entry for entry in outing.entries}
    for handed in log.entries:
        there = kept.get(handed.key)
        if there is None:
            there = kept[handed.key] = _line(handed)
            outing.entries.append(there)
        if handed.taken_back:
            there.kind, there.text = TAKEN_BACK, ""
    session.flush()
    return outing


def take_over(session: Session, minutes: Mapping[str, float]) -> None:
    """Give tellings, by reference, the minutes that were needed for them."""
    for ref, needed in minutes.items():
        telling_to_change(session, ref).minutes = needed


def put_back(session: Session, ref: str, *, now: float, before: float) -> None:
    """Give a telling the minutes it had; Conflict when somebody has changed them meanwhile."""
    telling = telling_to_change(session, ref)
    if abs(telling.minutes - now) > 1e-9:
        raise Conflict(f"“{ref}” has {telling.minutes:g} minutes by now, not {now:g}. Look again before you change it.")
    telling.minutes = before


def _begin(session: Session, log: HandedLog, account_id: int | None) -> Outing:
    tour = tour_or_none(session, log.tour)
    outing = Outing(
        key=log.key,
        tour_id=tour.id if tour else None,
        account_id=account_id,
        given_on=log.given_on,
        group_size=log.group_size,
        planned=as_data(log.planned),
        note=log.note,
    )
    session.add(outing)
    return outing


def _line(handed: HandedEntry) -> OutingEntry:
    return OutingEntry(
        key=handed.key,
        at=handed.at,
        kind=handed.kind,
        station=handed.station,
        telling=handed.telling,
        text=handed.text,
    )
