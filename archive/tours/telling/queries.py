"""Every select that tellings need to be written and looked over; what is closed to the viewer is in none."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session, selectinload

from archive.errors import LemelError
from archive.evidence.model import Evidence, Statement
from archive.evidence.queries import ShownStatement, statements_by_id
from archive.interviews.names import shown_names, words_of
from archive.objects.model import Demonstration, MuseumObject
from archive.reckoners.registry import reckon
from archive.reckoners.shape import Result
from archive.rights.decisions import Viewer
from archive.store.freshness import memory
from archive.store.model import Change
from archive.store.queries import found
from archive.tours.model import Telling
from archive.tours.queries import TELLING_WHOLE, telling_open
from archive.tours.telling.judging import Ground, Judged, judge


def telling(session: Session, viewer: Viewer, ref: str) -> Telling:
    """One telling open to the viewer, withdrawn or not, with all that it leads to."""
    mine = select(Telling).where(Telling.ref == ref, telling_open(viewer)).options(*TELLING_WHOLE)
    return found(session.scalar(mine), "telling", ref)


def every_telling(session: Session, viewer: Viewer) -> Sequence[Telling]:
    """All tellings open to the viewer, withdrawn ones too, with all that they lead to."""
    mine = select(Telling).where(telling_open(viewer)).options(selectinload(Telling.station), *TELLING_WHOLE)
    return session.scalars(mine.order_by(Telling.ref)).all()


def demonstrations(session: Session) -> Sequence[Demonstration]:
    """All demonstrations with their machines' papers and places."""
    machine = selectinload(Demonstration.machine)
    whole = (machine.selectinload(MuseumObject.clearances), machine.selectinload(MuseumObject.station))
    return session.scalars(select(Demonstration).options(*whole).order_by(Demonstration.ref)).all()


def ref_was_given(session: Session, ref: str) -> bool:
    """Whether a telling has, or ever had, this reference."""
    if session.scalar(select(Telling.id).where(Telling.ref == ref)) is not None:
        return True
    return session.scalar(select(Change.id).where(Change.record == f"telling:{ref}").limit(1)) is not None


def last_change(session: Session, ref: str) -> Change | None:
    """Who last changed a telling, and when."""
    mine = select(Change).where(Change.record == f"telling:{ref}").order_by(Change.id.desc())
    return session.scalar(mine.limit(1))


def grounds_of(session: Session, viewer: Viewer, keys: Iterable[int]) -> dict[int, Ground]:
    """The statements among the given keys that the viewer may know of, each with what bears it out."""
    kept: dict[int, Ground] = memory(session).setdefault(("grounds", viewer), {})
    wanted = set(keys)
    missing = wanted - set(kept)
    if missing:
        names = shown_names(session, viewer)
        shown = statements_by_id(session, viewer, missing)
        kept |= {key: _ground(one, names) for key, one in shown.items()}
    return {key: kept[key] for key in wanted if key in kept}


def grounds_named(session: Session, viewer: Viewer, refs: Iterable[str]) -> dict[int, Ground]:
    """The statements among the given references that the viewer may know of."""
    return grounds_of(session, viewer, session.scalars(select(Statement.id).where(Statement.ref.in_(list(refs)))))


def judged_script(script: str, grounds: Mapping[int, Ground], shown: Sequence[str]) -> tuple[Judged, ...]:
    """A script looked over, the statements in the order of their references."""
    return judge(script, sorted(grounds.values(), key=lambda ground: ground.ref), shown)


def judged_telling(session: Session, viewer: Viewer, row: Telling) -> tuple[Judged, ...]:
    """A kept telling looked over; remembered until anything changes."""
    kept: dict[int, tuple[Judged, ...]] = memory(session).setdefault(("judged", viewer), {})
    if row.id not in kept:
        grounds = grounds_of(session, viewer, [one.id for one in row.statements])
        kept[row.id] = judged_script(row.script, grounds, texts_of(row.object, row.demonstration))
    return kept[row.id]


def texts_of(thing: MuseumObject | None, demonstration: Demonstration | None) -> tuple[str, ...]:
    """What the record of the thing shown says of it."""
    shown = thing or (demonstration.machine if demonstration else None)
    said = _object_texts(shown) if shown else ()
    if demonstration is None:
        return said
    noise = f"{demonstration.noise_db:g} dB at {demonstration.noise_at_m:g} m" if demonstration.noise_db else ""
    times = f"{demonstration.minutes:g} minutes, {demonstration.warm_up_minutes:g} minutes"
    return (*said, times, f"{demonstration.stand_back_m:g} m", noise, *demonstration.steps, *demonstration.cautions)


def _ground(shown: ShownStatement, names: dict[int, str]) -> Ground:
    supports = [piece for piece in shown.evidence if piece.side == "for"]
    texts = [text for piece in supports for text in _texts(piece, names)]
    results = [result for piece in supports if (result := _worked(piece)) is not None]
    return Ground(shown.statement.ref, shown.statement.text, shown.standing, tuple(texts), tuple(results))


def _texts(piece: Evidence, names: dict[int, str]) -> tuple[str, ...]:
    if piece.kind == "segment" and piece.segment is not None:
        return (words_of(piece.segment, names),)
    if piece.kind == "object" and piece.object is not None:
        return _object_texts(piece.object)
    return (piece.document or piece.figure,)


def _object_texts(thing: MuseumObject) -> tuple[str, ...]:
    return (thing.name, thing.description, thing.dimensions, thing.made.text if thing.made else "")


def _worked(piece: Evidence) -> Result | None:
    """A reckoning's answer; one that no longer works out bears nothing out."""
    if piece.kind != "reckoning":
        return None
    try:
        return reckon(piece.reckoner, piece.inputs or {})
    except LemelError:
        return None
