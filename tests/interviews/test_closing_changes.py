"""Closures changed and turned back: exactly as they stood, never over a later change, and nobody's deed is no deed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import Any

import pytest
from sqlalchemy import select
from sqlalchemy.orm import Session

from archive.errors import Conflict, NotAllowed, Unacceptable
from archive.interviews.closing_change_edits import can_undo, change_span, undo_change
from archive.interviews.closing_edits import close_span, lift
from archive.interviews.closing_queries import clips_reached, closure_changes, lines_reached
from archive.interviews.intake.edits import measured
from archive.interviews.model import Recording
from archive.rights.decisions import Purpose, Role, Viewer
from archive.store.session import Store
from archive.values.timecode import Span
from tests.conftest import TODAY

LATER = dt.date(2031, 5, 3)
CARE = Viewer(Role.KEEPER, Purpose.CARE, TODAY)


@pytest.fixture
def session(shared_home: Store) -> Iterator[Session]:
    """A session whose changes are never committed."""
    with shared_home.session() as session:
        session.info["who"] = "tests"
        yield session


@pytest.fixture
def recording(session: Session) -> Recording:
    """The one with a closure from 0:08.060 to 0:11.950."""
    return session.scalars(select(Recording).where(Recording.ref == "I-1-a")).one()


def stand(recording: Recording) -> list[tuple[Any, ...]]:
    """Every closure of a recording as it stands."""
    return [(each.id, each.span, each.masked, each.reason, each.review_on) for each in recording.closures]


@pytest.mark.parametrize("viewer", [Viewer(role, Purpose.KIOSK, TODAY) for role in Role])
def test_what_a_stretch_reaches_is_told_in_care_alone(session: Session, recording: Recording, viewer: Viewer) -> None:
    """Whoever asks for another purpose is refused before anything is looked up, a keeper too."""
    for reached in (lines_reached, clips_reached):
        with pytest.raises(NotAllowed):
            reached(session, viewer, recording, Span(0, 1000))


def test_a_closure_cannot_be_left_without_reason_or_day(session: Session, recording: Recording) -> None:
    """Changed or new, it says why, and when it is looked at again; else it stays as it was."""
    before, key = stand(recording), recording.closures[0].id
    for reason, review in (("", LATER), ("x", None), ("x", TODAY)):
        with pytest.raises(Unacceptable):
            change_span(session, recording, key, Span(0, 1), reason=reason, review_on=review, on=TODAY)
    assert stand(recording) == before


def test_every_deed_is_turned_back_exactly(session: Session, recording: Recording) -> None:
    """Closed, changed, opened; then undone from the newest on, each step gives what stood before it."""
    stands = [stand(recording)]
    made = close_span(session, recording, Span(15_000, 16_000), reason="One", review_on=LATER, on=TODAY)
    stands.append(stand(recording))
    change_span(session, recording, made.id, Span(15_500, 17_000), reason="Two", review_on=LATER, on=TODAY)
    stands.append(stand(recording))
    lift(session, recording, made.id)
    deeds = closure_changes(session, recording)
    for deed, before in zip(deeds[:3], reversed(stands), strict=True):
        undo_change(session, recording, deed.id)
        assert stand(recording) == before


def test_a_later_change_is_never_lost(session: Session, recording: Recording) -> None:
    """An older deed cannot be undone alone; nor one of another recording."""
    key = recording.closures[0].id
    for reason in ("One", "Two"):
        change_span(session, recording, key, Span(8_060, 11_950), reason=reason, review_on=LATER, on=TODAY)
    newer, older = closure_changes(session, recording)[:2]
    other = session.scalars(select(Recording).where(Recording.ref == "I-2-a")).one()
    for where, deed in ((recording, older), (other, newer)):
        with pytest.raises(Conflict, match="Undo the newer change first"):
            undo_change(session, where, deed.id)
    assert can_undo(recording, newer)


def test_a_guard_that_moved_is_nobodys_deed(session: Session, recording: Recording) -> None:
    """Measuring moves the guard: that is not listed, bars no undo, and what comes back is guarded as is known now."""
    key = recording.closures[0].id
    lift(session, recording, key)
    (lifted,) = closure_changes(session, recording)
    undo_change(session, recording, lifted.id)
    measured(session, recording, {"pauses": [[7_700, 7_900]]}, "", [], "tests")
    session.flush()
    undone, _lifted = closure_changes(session, recording)
    assert stand(recording)[0][2].start_ms == 7_900
    undo_change(session, recording, undone.id)
    undo_change(session, recording, closure_changes(session, recording)[0].id)
    assert stand(recording)[0][:3] == (key, Span(8_060, 11_950), Span(7_900, 12_000))
