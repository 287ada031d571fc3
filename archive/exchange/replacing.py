"""Making room for a collection in a home that holds one: a copy kept first, and what stays kept in place."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy.orm import Session

from archive.interviews.clips.edits import drop_all
from archive.interviews.model import Recording, Rendition
from archive.records import metadata
from archive.store.edits import empty_tables
from archive.store.queries import everything, has_collection
from archive.store.session import Store
from archive.store.snapshots import keep_snapshot
from archive.tours.model import Outing, Tour

# What a load leaves alone: it is the home's own and no part of the folder.
STAYS = frozenset(
    {
        *("account", "sign_in_try", "change", "event", "load", "kept_file", "alembic_version", "job"),
        *("outing", "outing_entry", "departure", "upload", "machine_run", "out_of_use"),
    }
)


@dataclass
class Remains:
    """What is tied to records that go, to be tied to those that come: outings by tour, copies by master."""

    outings: dict[int, str] = field(default_factory=dict)
    copies: list[tuple[str, Rendition]] = field(default_factory=list)


def keep_copy(store: Store) -> Path | None:
    """A copy of the whole database among the home's backups; None where there is nothing to lose."""
    with store.session() as session:
        if not has_collection(session):
            return None
    stamp = datetime.now(UTC).strftime("%Y-%m-%dT%H%M%S.%fZ")
    return keep_snapshot(store, store.settings.backups / f"before-load-{stamp}.sqlite")


def clear_records(session: Session) -> Remains:
    """Delete all records of the collection; gives what is to be put back."""
    tours = {tour.id: tour.ref for tour in everything(session, Tour)}
    masters = {recording.id: recording.master_sha256 for recording in everything(session, Recording)}
    remains = Remains(
        {outing.id: tours[outing.tour_id] for outing in everything(session, Outing) if outing.tour_id in tours},
        [
            (
                masters[copy.recording_id],
                Rendition(kind=copy.kind, form=copy.form, closed=copy.closed, sha256=copy.sha256),
            )
            for copy in everything(session, Rendition)
            if copy.kind != "supplied"
        ],
    )
    # Clips are cut anew when they are asked for; no file of them is kept on.
    drop_all(session)
    session.expunge_all()
    empty_tables(session, [table for table in metadata.sorted_tables if table.name not in STAYS])
    return remains


def put_back(session: Session, remains: Remains) -> None:
    """Tie outings to the tours that bear the same reference, and copies to recordings of the same master.

    A copy made for other closures than the new ones is never served, and dropped when copies are made.
    """
    tours = {tour.ref: tour.id for tour in everything(session, Tour)}
    for outing in everything(session, Outing):
        outing.tour_id = tours.get(remains.outings.get(outing.id, ""), outing.tour_id)
    recordings: dict[str, Recording] = {r.master_sha256: r for r in everything(session, Recording)}
    for master, copy in remains.copies:
        recording = recordings.get(master)
        if recording is not None and not any(
            (other.form, other.closed) == (copy.form, copy.closed) for other in recording.renditions
        ):
            recording.renditions.append(copy)
