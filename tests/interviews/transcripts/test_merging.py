"""Two people's changes brought together: what one changed is taken, what both changed is left to choose."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from archive.interviews.transcripts.lines import Line
from archive.interviews.transcripts.merging import merge

WORDS = ["the", "press", "stamp", "came", "down", "on", "brass", "and", "dust", "lay", "thick", "in"]


def line(number: int, text: str) -> Line:
    """A line of two seconds."""
    return Line(number * 2000, number * 2000 + 2000, "P-1", "", text, key=number + 1)


BASE = [line(number, f"{WORDS[number]} {WORDS[number + 1]} {number}") for number in range(8)]


def split_at(lines: list[Line], at: int) -> list[Line]:
    """The lines with one cut in two."""
    whole = lines[at]
    middle = (whole.start_ms + whole.end_ms) // 2
    first, rest = whole.text.split(" ", 1)
    parts = [replace(whole, end_ms=middle, text=first), replace(whole, start_ms=middle, text=rest, key=None)]
    return [*lines[:at], *parts, *lines[at + 1 :]]


def test_what_both_changed_is_left_to_choose() -> None:
    """The same line mended in two ways stands side by side; nothing is chosen for anybody."""
    mine = [replace(BASE[0], text="Mine."), *BASE[1:]]
    theirs = [replace(BASE[0], text="Theirs."), *BASE[1:]]
    parts = merge(BASE, mine, theirs)
    open_parts = [part for part in parts if part.taken_from == "choose"]
    assert [(part.mine[0].text, part.theirs[0].text) for part in open_parts] == [("Mine.", "Theirs.")]


def test_a_line_split_by_one_and_mended_by_the_other_is_left_to_choose() -> None:
    """Both halves stand on one side, the mended whole on the other: no word comes twice by itself."""
    theirs = [BASE[0], replace(BASE[1], text="press stamp 1 mended"), *BASE[2:]]
    parts = [part for part in merge(BASE, split_at(BASE, 1), theirs) if part.taken_from == "choose"]
    assert [(len(part.mine), len(part.theirs)) for part in parts] == [(2, 1)]


def test_neighbouring_lines_are_merged_without_asking() -> None:
    """One mends a line, the other the next: both are taken."""
    mine = [replace(BASE[0], text="Mine."), *BASE[1:]]
    theirs = [BASE[0], replace(BASE[1], text="Theirs."), *BASE[2:]]
    parts = merge(BASE, mine, theirs)
    assert {part.taken_from for part in parts} == {"same", "mine", "theirs"}
    assert [each.text for part in parts for each in part.lines][:3] == ["Mine.", "Theirs.", BASE[2].text]


def test_alike_changes_are_one() -> None:
    """What both changed in the same way is no question."""
    both = [replace(BASE[0], text="Mended."), *BASE[1:]]
    assert {part.taken_from for part in merge(BASE, both, both)} == {"same"}


@st.composite
def changed(draw: st.DrawFn) -> list[Line]:
    """The lines after a few changes of one person."""
    lines = list(BASE)
    for _ in range(draw(st.integers(0, 4))):
        at = draw(st.integers(0, len(lines) - 1))
        deed = draw(st.sampled_from(["text", "split", "drop", "end"]))
        if deed == "text":
            lines[at] = replace(
                lines[at], text=" ".join(draw(st.lists(st.sampled_from(WORDS), min_size=1, max_size=4)))
            )
        elif deed == "split" and " " in lines[at].text and lines[at].end_ms - lines[at].start_ms > 10:
            lines = split_at(lines, at)
        elif deed == "drop" and len(lines) > 1:
            lines = lines[:at] + lines[at + 1 :]
        elif deed == "end" and lines[at].end_ms - lines[at].start_ms > 20:
            lines[at] = replace(lines[at], end_ms=lines[at].end_ms - 10)
    return lines


@given(mine=changed(), theirs=changed())
def test_nothing_that_anybody_wrote_is_lost(mine: list[Line], theirs: list[Line]) -> None:
    """All of each one's lines stand in the parts, in order; a part is only left open where both differ from before."""
    parts = merge(BASE, mine, theirs)
    assert [each for part in parts for each in part.mine] == mine
    assert [each for part in parts for each in part.theirs] == theirs
    assert [each for part in parts for each in part.base] == BASE
    for part in parts:
        if part.taken_from == "choose":
            assert part.mine != part.base
            assert part.theirs != part.base


@given(theirs=changed())
def test_who_changed_nothing_gets_the_others_lines(theirs: list[Line]) -> None:
    """With no changes of my own, the merged transcript is the other's, and the other way round."""
    assert [each.bare for part in merge(BASE, BASE, theirs) for each in part.lines] == [each.bare for each in theirs]
    assert [each.bare for part in merge(BASE, theirs, BASE) for each in part.lines] == [each.bare for each in theirs]
