"""What to drop: enough, pinned things never, and nothing better by trying everything."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from archive.tours.given.dropping import Drop, Droppable, what_to_drop


def tenth(tenths: int | None) -> float | None:
    """Tenths as minutes."""
    return None if tenths is None else tenths / 10


def after(to_come: list[Droppable], gone: set[str], start: float) -> float:
    """The minute at which all has been told that is not dropped; a machine begins no sooner than it may."""
    clock = without = start
    for telling in to_come:
        begins = None if telling.late is None else without - telling.late
        without = max(without, begins or without) + telling.minutes
        if telling.ref not in gone:
            clock = max(clock, begins or clock) + telling.minutes
    return clock


TELLINGS = st.lists(
    st.tuples(
        st.integers(1, 60),
        st.one_of(st.none(), st.integers(0, 80)),
        st.booleans(),
        st.one_of(st.none(), st.none(), st.integers(-60, 80)),
    ),
    max_size=8,
).map(
    lambda rows: [
        Droppable(f"tl-{number}", tenths / 10, tenth(worth), pinned, tenth(late))
        for number, (tenths, worth, pinned, late) in enumerate(rows)
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


def test_what_is_saved_before_a_machine_is_waited_there() -> None:
    """The group comes one minute later than it may begin: of the long talk before it only that minute is saved."""
    to_come = [Droppable("tl-talk", 5.0), Droppable("tl-run", 4.0, late=1.0, pinned=True), Droppable("tl-last", 2.0)]
    assert what_to_drop(to_come, 2.0) == (Drop(("tl-last",), 2.0, 0.0),)
    assert what_to_drop(to_come, 3.0) == (Drop(("tl-talk", "tl-last"), 3.0, 0.0),)
    assert what_to_drop(to_come, 4.0) == (Drop(("tl-talk", "tl-last"), 3.0, 1.0),)


def test_a_machine_that_is_dropped_is_not_waited_for() -> None:
    """Three minutes of waiting and four of running are saved by one thing."""
    to_come = [Droppable("tl-talk", 6.5), Droppable("tl-run", 4.0, late=-3.0)]
    assert what_to_drop(to_come, 6.0) == (Drop(("tl-run",), 7.0, 0.0),)


@given(TELLINGS, OVER)
def test_no_other_choice_is_better(tellings: list[Droppable], over: float) -> None:
    """Against every set there is: the first choice loses least, the last drops fewest; both save enough if any does."""
    choices = what_to_drop(tellings, over)
    free = [telling for telling in tellings if not telling.pinned]
    if over <= 0 or not free:
        assert choices == ()
        return
    sets = [some for count in range(len(free) + 1) for some in itertools.combinations(free, count)]
    ends = {some: saved(tellings, some) for some in sets}
    need = min(round(over * 10), max(ends.values()))
    enough = [some for some in sets if ends[some] >= need]
    by_ref = {telling.ref: telling for telling in tellings}
    for choice in choices:
        assert not any(by_ref[ref].pinned for ref in choice.tellings)
        assert round(choice.saves * 10) == ends[tuple(by_ref[ref] for ref in choice.tellings)] >= need
        assert round(choice.short * 10) == max(0, round(over * 10) - round(choice.saves * 10))
    if not choices:
        assert need == 0
        return
    assert loss([by_ref[ref] for ref in choices[0].tellings]) == min(map(loss, enough))
    assert len(choices[-1].tellings) == min(map(len, enough))


def saved(tellings: list[Droppable], some: tuple[Droppable, ...]) -> int:
    """The tenths by which a tour ends earlier, told minute by minute, with some of it dropped."""
    return round((after(tellings, set(), 100.0) - after(tellings, {one.ref for one in some}, 100.0)) * 10)


def loss(tellings: list[Droppable] | tuple[Droppable, ...]) -> int:
    """What dropping them loses, in tenths."""
    return sum(round((one.minutes if one.worth is None else one.worth) * 10) for one in tellings)
