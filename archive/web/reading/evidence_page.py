"""Statements with their evidence: one at a time, and the contested ones with voices for and against side by side."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from flask_babel import gettext as _
from flask_babel import lazy_gettext
from sqlalchemy.orm import Session

from archive.evidence.model import Evidence, Statement
from archive.evidence.queries import ShownStatement, statements
from archive.evidence.standing import Standing
from archive.interviews.names import shown_names, speaker_of, words_of
from archive.rights.decisions import Viewer
from archive.values.timecode import format_clock
from archive.web.reading.links import Link, kind_in_words, record_url, segment_url
from archive.web.reckoning.sums import Sum, sum_kept

_STANDINGS = {
    Standing.DOCUMENTED: lazy_gettext("documented"),
    Standing.COMPUTED: lazy_gettext("computed"),
    Standing.RECALLED_BY_SEVERAL: lazy_gettext("recalled by several"),
    Standing.RECALLED_BY_ONE: lazy_gettext("recalled by one"),
    Standing.HANDED_DOWN: lazy_gettext("handed down"),
    Standing.CONTESTED: lazy_gettext("contested"),
    Standing.UNSUPPORTED: lazy_gettext("unsupported"),
}


@dataclass(frozen=True)
class Piece:
    """One piece of evidence as it is read; `heard` says whether the speaker only had it from others.

    A reckoning carries its sum, worked out anew.
    """

    kind: str
    words: str
    who: str
    time: str
    url: str
    heard: bool
    sum: Sum | None = None
    draft: bool = False


@dataclass(frozen=True)
class Account:
    """A statement with what speaks for and against it."""

    ref: str
    url: str
    text: str
    note: str
    standing: str
    warns: bool
    pro: tuple[Piece, ...]
    con: tuple[Piece, ...]
    about: tuple[Link, ...]


@dataclass(frozen=True)
class AccountsPage:
    """The statements on which accounts disagree."""

    accounts: tuple[Account, ...]


def accounts_page(session: Session, viewer: Viewer) -> AccountsPage:
    """Every statement that is contested by what this viewer may hear."""
    contested = [one for one in statements(session, viewer) if one.standing is Standing.CONTESTED]
    return AccountsPage(tuple(accounts_of(session, viewer, contested)))


def accounts_of(session: Session, viewer: Viewer, shown: Iterable[ShownStatement]) -> list[Account]:
    """Statements as they are read."""
    names = shown_names(session, viewer)
    return [_account(one, names) for one in shown]


def _account(shown: ShownStatement, names: dict[int, str]) -> Account:
    statement = shown.statement
    sides = {side: [piece for piece in shown.evidence if piece.side == side] for side in ("for", "against")}
    return Account(
        ref=statement.ref,
        url=record_url("statement", statement.ref),
        text=statement.text,
        note=shown.note,
        standing=standing_in_words(shown.standing),
        warns=shown.standing in {Standing.CONTESTED, Standing.UNSUPPORTED},
        pro=tuple(_piece(piece, names) for piece in sides["for"]),
        con=tuple(_piece(piece, names) for piece in sides["against"]),
        about=_about(statement),
    )


def standing_in_words(standing: Standing) -> str:
    """A standing in the reader's language."""
    return str(_STANDINGS[standing])


def _about(statement: Statement) -> tuple[Link, ...]:
    kinds = (("station", statement.stations), ("process", statement.processes), ("object", statement.objects))
    return tuple(
        Link(kind_in_words(kind), record.name, record_url(kind, record.ref))
        for kind, records in kinds
        for record in records
    )


def _piece(piece: Evidence, names: dict[int, str]) -> Piece:
    if piece.kind == "segment" and piece.segment is not None:
        segment = piece.segment
        time, who = format_clock(segment.start_ms), speaker_of(segment, names)
        words, heard, draft = words_of(segment, names), not piece.firsthand, segment.recording.is_draft
        return Piece(_("voice"), words, who, time, segment_url(segment), heard, draft=draft)
    if piece.kind == "object" and piece.object is not None:
        ref = piece.object.ref
        return Piece(_("object"), piece.object.name, ref, "", record_url("object", ref), False)
    if piece.kind == "reckoning":
        return _reckoned(piece)
    return Piece(_("document"), piece.document, "", "", "", False)


def _reckoned(piece: Evidence) -> Piece:
    worked = sum_kept(piece.reckoner, piece.inputs or {}, kiosk=False)
    if worked is None:
        return Piece(_("reckoning"), piece.figure, piece.reckoner, "", "", False)
    words = piece.figure or worked.line
    return Piece(_("reckoning"), words, worked.result.reckoner.title, "", worked.url, False, worked)
