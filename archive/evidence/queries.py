"""Every select on statements for readers; each takes a viewer and shows only evidence that is open to it.

A statement whose every support is closed is hidden whole, since its words would tell what was closed.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sqlalchemy import ColumnElement, Select, and_, exists, func, or_, select
from sqlalchemy.orm import Session, aliased, selectinload

from archive.evidence.model import Evidence, Statement
from archive.evidence.standing import Piece, Standing, standing
from archive.interviews.model import Interview, Recording, Segment
from archive.interviews.queries import segment_open
from archive.rights.decisions import Viewer
from archive.store.queries import found

_ABOUT = (Statement.stations, Statement.processes, Statement.objects)


@dataclass(frozen=True)
class ShownStatement:
    """A statement as one viewer sees it: with the evidence open to that viewer, and the standing that follows.

    Its note is left out when any evidence is, since the note may speak of it.
    """

    statement: Statement
    evidence: tuple[Evidence, ...]
    standing: Standing
    note: str


@dataclass(frozen=True)
class ToldStatement:
    """A statement's words with the standing that follows from the evidence open to one viewer."""

    ref: str
    text: str
    standing: Standing


def statement_open(viewer: Viewer) -> ColumnElement[bool]:
    """The clause on Statement: it has an open support, or never had one that could be closed."""
    piece = aliased(Evidence)
    supported = exists().where(piece.statement_id == Statement.id, piece.side == "for")
    return or_(
        ~supported,
        exists().where(piece.statement_id == Statement.id, piece.side == "for", _open(viewer, piece)),
    )


def statements(session: Session, viewer: Viewer, about: ColumnElement[bool] | None = None) -> Sequence[ShownStatement]:
    """The statements a viewer may know of; `about` is a clause such as `Statement.stations.any(id=7)`."""
    wanted = _statements(viewer).options(*map(selectinload, _ABOUT))
    if about is not None:
        wanted = wanted.where(about)
    return _shown(session, viewer, session.scalars(wanted.order_by(Statement.ref)).all())


def told_statements(session: Session, viewer: Viewer, about: ColumnElement[bool]) -> Sequence[ToldStatement]:
    """The statements a viewer may know of, as they are told: words and standing, without what they rest on."""
    rows = session.scalars(_statements(viewer).where(about).order_by(Statement.ref)).all()
    columns = (Evidence.statement_id, Evidence.side, Evidence.kind, Evidence.source, Evidence.firsthand)
    mine = select(*columns).where(Evidence.statement_id.in_([row.id for row in rows]), _open(viewer, Evidence))
    pieces: dict[int, list[Piece]] = {row.id: [] for row in rows}
    for statement_id, side, kind, source, firsthand in session.execute(mine) if rows else ():
        pieces[statement_id].append(Piece(side, kind, source, firsthand))
    return [ToldStatement(row.ref, row.text, standing(pieces[row.id])) for row in rows]


def statements_by_id(session: Session, viewer: Viewer, ids: Iterable[int]) -> dict[int, ShownStatement]:
    """The statements among the given keys that a viewer may know of."""
    rows = session.scalars(_statements(viewer).where(Statement.id.in_(list(ids)))).all()
    return {shown.statement.id: shown for shown in _shown(session, viewer, rows)}


def statement(session: Session, viewer: Viewer, ref: str) -> ShownStatement:
    """One statement that a viewer may know of."""
    row = found(session.scalar(_statements(viewer).where(Statement.ref == ref)), "statement", ref)
    return _shown(session, viewer, [row])[0]


def open_statement_ids(session: Session, viewer: Viewer) -> frozenset[int]:
    """The keys of the statements that a viewer may know of."""
    return frozenset(session.scalars(select(Statement.id).where(statement_open(viewer))))


def _open(viewer: Viewer, piece: type[Evidence]) -> ColumnElement[bool]:
    heard = exists().where(Segment.id == piece.segment_id, Recording.id == Segment.recording_id, segment_open(viewer))
    return or_(piece.kind != "segment", and_(piece.segment_id.is_not(None), heard))


def _statements(viewer: Viewer) -> Select[Statement]:
    return select(Statement).where(statement_open(viewer))


def _shown(session: Session, viewer: Viewer, rows: Sequence[Statement]) -> list[ShownStatement]:
    """The rows with their open evidence, fetched in one go."""
    to_segment = selectinload(Evidence.segment).selectinload(Segment.recording)
    whole = to_segment.selectinload(Recording.interview).selectinload(Interview.narrators)
    mine = select(Evidence).where(Evidence.statement_id.in_([row.id for row in rows]), _open(viewer, Evidence))
    by_statement: dict[int, list[Evidence]] = {row.id: [] for row in rows}
    for piece in session.scalars(mine.options(whole, selectinload(Evidence.object)).order_by(Evidence.position)):
        by_statement[piece.statement_id].append(piece)
    kept = _evidence_counts(session, by_statement)
    return [_as_shown(row, by_statement[row.id], kept.get(row.id, 0)) for row in rows]


def _as_shown(row: Statement, evidence: list[Evidence], kept: int) -> ShownStatement:
    return ShownStatement(row, tuple(evidence), _standing(evidence), row.note if len(evidence) == kept else "")


def _evidence_counts(session: Session, keys: Iterable[int]) -> dict[int, int]:
    counted = select(Evidence.statement_id, func.count()).where(Evidence.statement_id.in_(list(keys)))
    return dict(session.execute(counted.group_by(Evidence.statement_id)).all())


def _standing(evidence: Iterable[Evidence]) -> Standing:
    return standing(Piece(piece.side, piece.kind, piece.source, piece.firsthand) for piece in evidence)
