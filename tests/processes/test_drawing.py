"""Where the boxes and arrows of a drawn chain stand."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.processes.drawing import BOX_HEIGHT, BOX_WIDTH, ChainDrawing, draw_chain

REFS = [f"pr-{number}" for number in range(9)]
# Arrows from a lower number to a higher one cannot run in a circle.
CHAINS = st.sets(st.sampled_from(list(combinations(REFS, 2))), max_size=16)


def drawn(*arrows: tuple[str, str], names: str = "abcd") -> ChainDrawing:
    """A chain of processes named by one letter each."""
    return draw_chain({name: name.upper() for name in names}, arrows)


def test_a_circle_is_refused() -> None:
    """A chain that runs in a circle cannot be drawn."""
    with pytest.raises(ValueError, match="circle"):
        drawn(("a", "b"), ("b", "a"))


def test_nothing_draws_nothing() -> None:
    """No processes make an empty drawing without size."""
    drawing = draw_chain({}, [])
    assert (drawing.boxes, drawing.arrows, drawing.height) == ((), (), 0.0)


def test_arrows_to_what_is_not_drawn_are_left_out() -> None:
    """An arrow needs both its ends."""
    assert drawn(("a", "elsewhere"), ("a", "b")).arrows[0].after == "b"


def test_a_straight_chain_stands_straight() -> None:
    """Processes that follow one another stand one below another, without a bend."""
    drawing = drawn(("a", "b"), ("b", "c"), ("c", "d"))
    assert len({box.x for box in drawing.boxes}) == 1
    assert [box.y for box in drawing.boxes] == sorted(box.y for box in drawing.boxes)
    assert all("C" not in arrow.path for arrow in drawing.arrows)


def test_a_beginning_stands_just_before_what_it_feeds() -> None:
    """A side branch is drawn next to its use and not at the far top."""
    rows = {box.ref: box.y for box in drawn(("a", "b"), ("b", "c"), ("d", "c")).boxes}
    assert rows["d"] == rows["b"]


def test_long_names_are_broken_into_lines() -> None:
    """A name fits its box: at most three short lines."""
    drawing = draw_chain({"a": "Receiving and weighing the metal at the gate before anything else is done"}, [])
    assert len(drawing.boxes[0].lines) == 3
    assert all(len(line) <= 18 for line in drawing.boxes[0].lines)


@given(CHAINS)
def test_boxes_never_overlap_and_arrows_run_down(arrows: set[tuple[str, str]]) -> None:
    """In any chain all boxes stand apart, inside the drawing, and every arrow goes from above to below."""
    drawing = draw_chain({ref: ref for ref in REFS}, sorted(arrows))
    for one, other in combinations(drawing.boxes, 2):
        assert abs(one.x - other.x) >= BOX_WIDTH or abs(one.y - other.y) >= BOX_HEIGHT
    for box in drawing.boxes:
        assert BOX_WIDTH / 2 <= box.x <= drawing.width - BOX_WIDTH / 2
        assert BOX_HEIGHT / 2 <= box.y <= drawing.height - BOX_HEIGHT / 2
    heights = {box.ref: box.y for box in drawing.boxes}
    assert all(heights[arrow.before] < heights[arrow.after] for arrow in drawing.arrows)
    assert {(arrow.before, arrow.after) for arrow in drawing.arrows} == arrows
