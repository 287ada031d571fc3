"""Statements, tellings and tours that fall with words: those that rest on nothing that stays open, and no others."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from sqlalchemy import select
from sqlalchemy.orm import Session

from archive.evidence.closing_queries import statements_falling
from archive.evidence.model import Evidence, Statement
from archive.interviews.model import Clip, Segment
from archive.store.session import Store
from archive.tours.closing_queries import tellings_falling, tours_touched


@pytest.fixture
def session(shared_home: Store) -> Iterator[Session]:
    """A session whose changes are never committed."""
    with shared_home.session() as session:
        yield session


@pytest.fixture
def line(session: Session) -> int:
    """The line on which the statement s-tools rests, and nothing else does."""
    mine = select(Evidence.segment_id).join(Statement).where(Statement.ref == "s-tools", Evidence.side == "for")
    found = session.scalars(mine).one()
    assert found is not None
    return found


def test_nothing_falls_with_no_words(session: Session) -> None:
    """Not even a statement that rests on nothing."""
    assert statements_falling(session, [], [1, 2, 3]) == []
    assert tours_touched(session, [row.id for row in tellings_falling(session, [], [])]) == []


def test_a_statement_falls_with_its_last_open_support(session: Session, line: int) -> None:
    """What speaks against it does not hold it; a second line does until it is closed too; a document always does."""
    statement = session.scalars(select(Statement).where(Statement.ref == "s-tools")).one()
    assert [row.ref for row in statements_falling(session, [line], [])] == ["s-tools"]
    other = session.scalars(select(Segment.id).where(Segment.id != line)).first()
    more = Evidence(position=9, side="for", kind="segment", segment_id=other, source="P-9")
    statement.evidence.append(more)
    session.flush()
    assert statements_falling(session, [line], []) == []
    assert [row.ref for row in statements_falling(session, [line], [other or 0])] == ["s-tools"]
    more.kind, more.segment_id, more.document = "document", None, "A book"
    session.flush()
    assert statements_falling(session, [line], [other or 0]) == []


def test_tellings_and_tours_fall_with_clips_and_statements(session: Session, line: int) -> None:
    """By either way; a telling that was withdrawn is told no more, and its tour loses nothing."""
    clip = session.scalars(select(Clip.id).where(Clip.ref == "C-1")).one()
    statements = [row.id for row in statements_falling(session, [line], [])]
    for fallen in (tellings_falling(session, [clip], []), tellings_falling(session, [], statements)):
        assert [row.ref for row in fallen] == ["tl-voice"]
        assert [row.ref for row in tours_touched(session, [row.id for row in fallen])] == ["t-short"]
    fallen[0].withdrawn = True
    session.flush()
    assert tellings_falling(session, [clip], statements) == []
