"""What to drop: enough, pinned things never, and nothing better by trying everything."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from archive.tours.given.dropping import Drop, Droppable, what_to_drop

TELLINGS = st.lists(
    st.tuples(st.integers(1, 60), st.one_of(st.none(), st.integers(0, 80)), st.booleans()), max_size=8
).map(
    lambda rows: [
        Droppable(f"tl-{number}", tenths / 10, None if worth is None else worth / 10, pinned)
        for number, (tenths, worth, pinned) in enumerate(rows)
    ]
)
OVER = st.integers(-20, 200).map(lambda tenths: tenths / 10)


def test_nothing_is_dropped_in_good_time() -> None:
    """No minute too many, no choice."""
    assert what_to_drop([Droppable("tl-a", 2.0)], 0.0) == ()
    assert what_to_drop([Droppable("tl-a", 2.0)], -3.0) == ()


def test_two_choices_where_they_differ() -> None:
    """Two short tellings lose less than the long one, which is one thing alone."""
    short = [Droppable("tl-a", 1.0), Droppable("tl-b", 1.2), Droppable("tl-c", 3.0)]
    assert what_to_drop(short, 2.0) == (Drop(("tl-a", "tl-b"), 2.2, 0.0), Drop(("tl-c",), 3.0, 0.0))


def test_what_falls_short_says_by_how_much() -> None:
    """With all dropped that may be, the rest is told."""
    assert what_to_drop([Droppable("tl-a", 1.0), Droppable("tl-b", 9.0, pinned=True)], 4.0) == (
        Drop(("tl-a",), 1.0, 3.0),
    )


@given(TELLINGS, OVER)
def test_no_other_choice_is_better(tellings: list[Droppable], over: float) -> None:
    """Against every set there is: the first choice loses least, the last drops fewest; both save enough if any does."""
    choices = what_to_drop(tellings, over)
    free = [telling for telling in tellings if not telling.pinned]
    if over <= 0 or not free:
        assert choices == ()
        return
    need = min(round(over * 10), sum(round(telling.minutes * 10) for telling in free))
    sets = [some for count in range(len(free) + 1) for some in itertools.combinations(free, count)]
    enough = [some for some in sets if sum(round(one.minutes * 10) for one in some) >= need]
    by_ref = {telling.ref: telling for telling in tellings}
    for choice in choices:
        assert not any(by_ref[ref].pinned for ref in choice.tellings)
        assert round(choice.saves * 10) >= need
    assert loss([by_ref[ref] for ref in choices[0].tellings]) == min(map(loss, enough))
    assert len(choices[-1].tellings) == min(map(len, enough))


def loss(tellings: list[Droppable] | tuple[Droppable, ...]) -> int:
    """What dropping them loses, in tenths."""
    return sum(round((one.minutes if one.worth is None else one.worth) * 10) for one in tellings)
