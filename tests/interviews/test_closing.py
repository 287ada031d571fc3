"""What is masked of a recording: every closure with its guard, merged, and never less."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import insert, select
from sqlalchemy.exc import IntegrityError

from archive.audio.guarding import AFTER_MS, BEFORE_MS
from archive.interviews.closing import guard, masked_spans
from archive.interviews.intake.edits import measured
from archive.interviews.model import Recording
from archive.rights.model import Closure
from archive.store.session import Store
from archive.values.timecode import Span

LENGTH_MS = 10_000


def test_no_closure_is_made_without_its_guard(home: Store) -> None:
    """Neither in Python nor by a row put straight into the table, nor with a mask that is less than the closure."""
    with pytest.raises(TypeError, match="span"):
        Closure(reason="x")  # type: ignore[call-arg]
    with home.changing("tests") as session:
        recording = session.scalars(select(Recording)).first()
        assert recording is not None
        bare = {"recording_id": recording.id, "start_ms": 1000, "end_ms": 2000, "reason": "x"}
        for masked in (
            {},
            {"masked_start_ms": 1001, "masked_end_ms": 2000},
            {"masked_start_ms": 0, "masked_end_ms": 1},
        ):
            with pytest.raises(IntegrityError), session.begin_nested():
                session.execute(insert(Closure).values(**bare, **masked))


def test_measuring_a_recording_guards_its_closures_anew(home: Store) -> None:
    """A collection comes without pauses; once they are known, the mask reaches to those that are near."""
    with home.changing("tests") as session:
        recording = session.scalars(select(Recording).where(Recording.ref == "I-1-a")).one()
        (closure,) = recording.closures
        first = closure.masked
        assert first == Span(closure.start_ms - BEFORE_MS, closure.end_ms + AFTER_MS)
        pauses = [[first.start_ms - 150, first.start_ms - 100], [first.end_ms + 200, first.end_ms + 400]]
        measured(session, recording, {"pauses": pauses}, "", [], "tests")
        assert masked_spans(recording) == (Span(first.start_ms - 100, first.end_ms + 200),)
        assert not guard(recording)


def test_what_overlaps_or_touches_is_masked_as_one() -> None:
    """In order, whichever was closed first."""
    recording = _recording([], [Span(5000, 6000), Span(1000, 2000), Span(2110, 3000), Span(1500, 1600)])
    assert masked_spans(recording) == (Span(940, 3050), Span(4940, 6050))
    assert masked_spans(_recording([], [])) == ()


spans = st.tuples(st.integers(0, LENGTH_MS - 1), st.integers(1, 900)).map(lambda at: Span(at[0], at[0] + at[1]))


@given(st.lists(spans, max_size=5), st.lists(spans, max_size=6))
def test_every_closure_with_its_guard_is_masked(closed: list[Span], pauses: list[Span]) -> None:
    """Whatever the pauses; and the spans come in order with something open between them."""
    recording = _recording(pauses, closed)
    found = masked_spans(recording)
    for span in closed:
        start, end = max(0, span.start_ms - BEFORE_MS), max(min(span.end_ms + AFTER_MS, LENGTH_MS), span.end_ms)
        assert any(each.start_ms <= start and end <= each.end_ms for each in found)
    assert all(one.end_ms < other.start_ms for one, other in zip(found, found[1:], strict=False))
    assert all(any(each.masked.overlaps(span) for each in recording.closures) for span in found)


def _recording(pauses: list[Span], closed: list[Span]) -> Recording:
    recording = Recording(duration_ms=LENGTH_MS, facts={"pauses": [[pause.start_ms, pause.end_ms] for pause in pauses]})
    recording.closures = [Closure(span, (), LENGTH_MS) for span in closed]
    guard(recording)
    return recording
