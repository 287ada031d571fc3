"""A floor's drawing made ready to lie inside a page."""

from __future__ import annotations

import pytest

from archive.plan.drawing import Drawing, Frame, drawing_of, frame_around

NOTHING = Frame(0, 0, 0, 0)


@pytest.mark.parametrize("svg", ["", "not a drawing", "<svg>", "<g></g>"])
def test_what_is_no_drawing_gives_an_empty_one(svg: str) -> None:
    """A text without an SVG root draws nothing and has no size."""
    assert drawing_of(svg) == Drawing(NOTHING, "", "")


@pytest.mark.parametrize("box", ["", "0 0 10", "a b c d", "0 0 10 10 10"])
def test_a_box_that_cannot_be_read_has_no_size(box: str) -> None:
    """A broken viewBox leaves the drawing usable, without a frame."""
    assert drawing_of(f'<svg viewBox="{box}"><g/></svg>') == Drawing(NOTHING, "", "<g/>")


def test_the_root_gives_its_frame_and_strokes_and_nothing_else() -> None:
    """Width, names and styles of the root stay behind; its strokes and content come along."""
    svg = """<?xml version="1.0"?>
    <svg xmlns="http://www.w3.org/2000/svg" id="plan" width="36cm"
         viewBox="-5, 0 100 50.5" fill="none" stroke-width='3' onload="x()">
    <rect id="a"/><g/></svg>"""
    drawing = drawing_of(svg)
    assert drawing.frame == Frame(-5, 0, 100, 50.5)
    assert drawing.strokes == "fill=\"none\" stroke-width='3'"
    assert drawing.markup.strip() == '<rect id="a"/><g/>'


def test_a_frame_is_written_as_a_view_box() -> None:
    """A frame's text is what the viewBox attribute wants."""
    assert str(Frame(-5, 0, 100, 50.5)) == "-5 0 100 50.5"


def test_a_frame_holds_all_outlines_with_its_margin() -> None:
    """The frame around outlines reaches from the least to the greatest of each axis."""
    frame = frame_around([[(0, 10), (5, 12)], [(-3, 11)]])
    assert frame == Frame(-3, 10, 8, 2)
    assert frame.grown(1) == Frame(-4, 9, 10, 4)
    assert frame_around([]) == NOTHING
