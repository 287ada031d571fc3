"""Ties of lines to what they speak of, made and undone one by one. Nothing commits here."""

from __future__ import annotations

import datetime as dt
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from archive.errors import Fault, Unacceptable
from archive.interviews.model import Recording, Segment, Tie
from archive.objects.model import MuseumObject
from archive.people.model import Person
from archive.plan.model import Station
from archive.processes.model import Process
from archive.store.queries import found
from archive.terms.model import Term

_KINDS: dict[str, Any] = {
    "object": MuseumObject,
    "process": Process,
    "station": Station,
    "person": Person,
    "term": Term,
}


def accept_tie(session: Session, recording: Recording, segment: int, kind: str, ref: str, who: str, on: dt.date) -> Tie:
    """Say that a line speaks of a record. A tie that was proposed is accepted; one that stands is left alone."""
    line, target = _line(session, recording, segment), _target(session, kind, ref)
    for tie in line.ties:
        if tie.kind == kind and tie.target is target:
            if tie.state != "accepted":
                tie.state, tie.made_by, tie.made_on = "accepted", who, on
            return tie
    made = Tie(segment_id=line.id, **{f"{kind}_id": target.id}, state="accepted", made_by=who, made_on=on)
    line.ties.append(made)
    session.flush()
    return made


def drop_tie(session: Session, recording: Recording, segment: int, kind: str, ref: str) -> None:
    """Say that a line does not speak of a record after all."""
    line, target = _line(session, recording, segment), _target(session, kind, ref)
    for tie in [tie for tie in line.ties if tie.kind == kind and tie.target is target]:
        line.ties.remove(tie)
    session.flush()


def _line(session: Session, recording: Recording, segment: int) -> Segment:
    wanted = select(Segment).where(Segment.id == segment, Segment.recording_id == recording.id)
    return found(session.scalar(wanted), "line", str(segment))


def _target(session: Session, kind: str, ref: str) -> Any:
    if kind not in _KINDS:
        raise Unacceptable(
            [Fault("kind", 0, f"'{kind[:20]}' is no kind", "Allowed are: " + ", ".join(_KINDS))], "The tie"
        )
    return found(session.scalar(select(_KINDS[kind]).where(_KINDS[kind].ref == ref)), kind, ref)
