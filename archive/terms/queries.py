"""Every select on the thesaurus, which is open to all viewers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session, selectinload

from archive.store.queries import found
from archive.terms.model import Term, TermRelation


@dataclass(frozen=True)
class Word:
    """What is needed of a term to find it in a text and explain it there."""

    id: int
    ref: str
    preferred: str
    other_words: list[str]
    said_as: str
    meaning: str


def terms(session: Session) -> Sequence[Term]:
    """All terms by preferred word, with their relations."""
    return session.scalars(select(Term).options(selectinload(Term.relations)).order_by(Term.preferred)).all()


def term(session: Session, ref: str) -> Term:
    """One term by reference."""
    return found(session.scalar(select(Term).where(Term.ref == ref)), "term", ref)


def vocabulary(session: Session) -> Sequence[Word]:
    """Every term's words and meaning, and nothing else of it."""
    columns = (Term.id, Term.ref, Term.preferred, Term.other_words, Term.said_as, Term.meaning)
    return [Word(*row) for row in session.execute(select(*columns).order_by(Term.id))]


def related_terms(session: Session, term: Term) -> dict[str, Sequence[Term]]:
    """The broader, narrower and related terms; related is read both ways."""
    return {
        "broader": _ends(session, TermRelation.term_id == term.id, "broader", TermRelation.other_id),
        "narrower": _ends(session, TermRelation.other_id == term.id, "broader", TermRelation.term_id),
        "related": sorted(
            {
                *_ends(session, TermRelation.term_id == term.id, "related", TermRelation.other_id),
                *_ends(session, TermRelation.other_id == term.id, "related", TermRelation.term_id),
            },
            key=lambda other: other.preferred,
        ),
    }


def _ends(session: Session, at: object, kind: str, far: object) -> Sequence[Term]:
    reached = select(far).where(at, TermRelation.kind == kind)  # type: ignore[call-overload]
    return session.scalars(select(Term).where(Term.id.in_(reached)).order_by(Term.preferred)).all()
