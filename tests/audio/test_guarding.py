"""How far a mask reaches beyond what was closed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.audio.guarding import AFTER_MS, BEFORE_MS, NEAR_MS, guarded_span
from archive.values.timecode import Span

CLOSURE = Span(10_000, 12_000)


@pytest.mark.parametrize(
    ("pauses", "wanted"),
    [
        ([], Span(9_940, 12_050)),
        # The guard's edges lie in pauses already.
        ([Span(9_800, 9_990), Span(12_000, 12_300)], Span(9_940, 12_050)),
        # A pause ends a little before, another begins a little after: the word between is masked whole.
        ([Span(9_400, 9_700), Span(12_300, 12_800)], Span(9_700, 12_300)),
        # Too far away.
        ([Span(9_000, 9_600), Span(12_400, 12_800)], Span(9_940, 12_050)),
        # The nearest of two.
        ([Span(9_650, 9_700), Span(9_800, 9_850), Span(12_100, 12_150), Span(12_200, 12_900)], Span(9_850, 12_100)),
        # A pause within the closure changes nothing.
        ([Span(10_500, 11_000)], Span(9_940, 12_050)),
    ],
)
def test_edges_go_to_pauses_that_are_near(pauses: list[Span], wanted: Span) -> None:
    """The guard, and the pauses that take its edges."""
    assert guarded_span(CLOSURE, pauses, 60_000) == wanted


def test_the_ends_of_the_recording() -> None:
    """A guard never reaches past either end, and a closure that overruns the sound a little stays whole."""
    assert guarded_span(Span(10, 500), (), 520) == Span(0, 520)
    assert guarded_span(Span(10, 700), (), 520) == Span(0, 700)


spans = st.tuples(st.integers(0, 5000), st.integers(1, 900)).map(lambda pair: Span(pair[0], pair[0] + pair[1]))


@given(spans, st.lists(spans, max_size=6))
def test_never_less_than_the_guard_and_never_much_more(closure: Span, pauses: list[Span]) -> None:
    """Whatever the pauses, the closure with its guard is masked, and at most 0.3 s more on either side."""
    found = guarded_span(closure, pauses, 10_000)
    assert found.start_ms <= max(0, closure.start_ms - BEFORE_MS)
    assert found.end_ms >= closure.end_ms + AFTER_MS
    assert found.start_ms >= closure.start_ms - BEFORE_MS - NEAR_MS
    assert found.end_ms <= closure.end_ms + AFTER_MS + NEAR_MS
