"""Times found while somebody changed the transcript: what they wrote stands, and nothing that was found is lost."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as some

from archive.interviews.found_times import beside_theirs
from archive.interviews.transcripts.lines import Line, faults_of

BASE = [
    Line(at * 5_000, at * 5_000 + 5_000, "", "A", f"{word} was said here", 0.0, True, key=at)
    for at, word in enumerate(("one", "two", "three", "four"))
]
FOUND = [
    replace(line, start_ms=1_000 * at, end_ms=1_000 * at + 900, confidence=0.9, doubtful=False)
    for at, line in enumerate(BASE)
]


def starts(lines: list[Line]) -> list[int]:
    """When each begins."""
    return [line.start_ms for line in lines]


def test_words_mended_meanwhile_take_the_time_found() -> None:
    """Who speaks and what is said is theirs, when it is said is what was heard."""
    mended = [BASE[0], replace(BASE[1], text="too was said here", label="B", confidence=None), *BASE[2:]]
    lines, theirs = beside_theirs(BASE, FOUND, mended)
    assert (starts(lines), theirs) == ([0, 1_000, 2_000, 3_000], 0)
    assert (lines[1].text, lines[1].label, lines[1].doubtful) == ("too was said here", "B", False)


def test_a_time_given_meanwhile_stands() -> None:
    """A person who moved a line and is sure of it is right; what was found after it gives way, and is doubtful."""
    moved = [*BASE[:2], replace(BASE[2], start_ms=3_500, end_ms=4_000, confidence=None, doubtful=False), BASE[3]]
    lines, theirs = beside_theirs(BASE, FOUND, moved)
    assert (starts(lines), theirs) == ([0, 1_000, 3_500, 3_500], 1)
    assert [line.doubtful for line in lines] == [False, False, False, True]


def test_lines_cut_and_taken_away_meanwhile() -> None:
    """They are as they were left, between the times found about them."""
    cut = [
        BASE[0],
        replace(BASE[1], end_ms=7_000, text="two was"),
        replace(BASE[1], start_ms=7_000, text="said here", key=None),
        BASE[3],
    ]
    lines, theirs = beside_theirs(BASE, FOUND, cut)
    assert [line.text for line in lines] == [line.text for line in cut]
    assert theirs == 2
    assert starts(lines) == [0, 3_000, 3_000, 3_000]
    assert lines[1].doubtful


_MOVES = some.lists(some.tuples(some.integers(0, 3), some.integers(0, 19_000), some.booleans()), max_size=4)


@given(_MOVES)
def test_whatever_was_moved_it_can_be_kept(moves: list[tuple[int, int, bool]]) -> None:
    """All lines are there, in order, each with a length."""
    theirs = list(BASE)
    for at, start, doubtful in moves:
        theirs[at] = replace(theirs[at], start_ms=start, end_ms=start + 500, confidence=None, doubtful=doubtful)
    lines, _own = beside_theirs(BASE, FOUND, theirs)
    assert sorted(line.text for line in lines) == sorted(line.text for line in BASE)
    assert list(faults_of(lines, 20_000, frozenset())) == []
