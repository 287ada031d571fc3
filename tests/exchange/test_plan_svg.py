"""Drawings: what is left of them when clean, and where their shapes lie."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.exchange.faults import FaultList
from archive.exchange.plan_svg import Drawing, parse_drawing
from archive.exchange.svg_numbers import moved, path_points, transform
from archive.settings import shared_folder

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">'


def drawing(inside: str) -> Drawing:
    """A drawing without faults."""
    faults = FaultList()
    found = parse_drawing(f"{HEAD}{inside}</svg>", "p.svg", faults)
    assert faults.faults == []
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("inside", "gone"),
    [
        ("<!-- note --><rect/>", "note"),
        ("<metadata><x>who</x></metadata>", "who"),
        ("<defs><linearGradient id='g'/></defs>", "Gradient"),
        ('<g xmlns:s="http://drawing.example/"><s:view zoom="2"/></g>', "zoom"),
        ('<g xmlns:s="http://drawing.example/" s:label="layer"/>', "layer"),
        ('<rect class="a"/>', "class"),
        ('<rect style="fill:red;-x-own:1"/>', "own"),
        ('<rect fill="url(#g)"/>', "url"),
        ('<rect id="1 2"/>', "id"),
        ('<rect data-x="1"/>', "data-x"),
        ("<g>stray words</g>", "stray"),
    ],
)
def test_what_a_drawing_program_leaves_is_taken_out(inside: str, gone: str) -> None:
    """It is no fault, but it is not kept."""
    assert gone not in drawing(inside).svg


def test_what_style_paints_is_kept_as_attributes() -> None:
    """A drawing program writes its colours so."""
    svg = drawing('<rect id="a" fill="red" style="fill:#00ff00;stroke-width:2.5"/>').svg
    assert '<rect id="a" fill="#00ff00" stroke-width="2.5"/>' in svg


def test_words_stay_words() -> None:
    """Marks in a title are written as marks, not as elements."""
    assert "<title>a &lt;b&gt; &amp; c</title>" in drawing("<title>a &lt;b&gt; &amp; c</title>").svg


@pytest.mark.parametrize("name", ["cellar", "ground", "upper"])
def test_cleaning_a_clean_drawing_changes_nothing(name: str) -> None:
    """So an exported plan loads as the same plan."""
    text = (shared_folder("demo-collection") / "plan" / f"{name}.svg").read_text("utf-8")
    faults = FaultList()
    once = parse_drawing(text, "p.svg", faults)
    assert once is not None
    twice = parse_drawing(once.svg, "p.svg", faults)
    assert twice is not None
    assert twice.svg == once.svg
    assert faults.faults == []


SQUARE = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]


@pytest.mark.parametrize(
    "shape",
    [
        '<rect id="s" width="10" height="10px"/>',
        '<polygon id="s" points="0,0 10,0 10,10 0,10"/>',
        '<polyline id="s" points="0 0 10 0 10 10 0 10 0 0"/>',
        '<path id="s" d="M0 0H10V10H0Z"/>',
        '<path id="s" d="m0,0 10,0 0,10-10,0z"/>',
        '<path id="s" d="M0 0L10 0L10 10L0 10"/>',
        '<g transform="translate(-5 -5)"><rect id="s" x="5" y="5" width="10" height="10"/></g>',
        '<g transform="scale(2)"><rect id="s" width="5" height="5"/></g>',
        '<rect id="s" width="5" height="10" transform="matrix(2 0 0 1 0 0)"/>',
    ],
)
def test_the_same_square_is_found_however_it_is_drawn(shape: str) -> None:
    """Shapes, paths and transforms all come to the same corners."""
    assert drawing(shape).outline("s") == SQUARE
    assert drawing(shape).centre("s") == (5.0, 5.0)


@pytest.mark.parametrize(
    ("shape", "middle"),
    [
        ('<circle id="s" cx="3" cy="4" r="2"/>', (3, 4)),
        ('<ellipse id="s" cx="3" cy="4" rx="2" ry="1"/>', (3, 4)),
        ('<line id="s" x1="0" y1="0" x2="10" y2="4"/>', (5, 2)),
        ('<g id="s"><rect width="2" height="2"/><rect x="8" y="4" width="2" height="2"/></g>', (5, 3)),
        ('<g transform="rotate(90)"><circle id="s" cx="3" cy="4" r="2"/></g>', (-4, 3)),
        ('<circle id="s" cx="3" cy="4" r="2" transform="rotate(180 5 5)"/>', (7, 6)),
    ],
)
def test_the_middle_of_a_shape(shape: str, middle: tuple[float, float]) -> None:
    """A station's point, a door's point."""
    assert drawing(shape).centre("s") == pytest.approx(middle, abs=0.01)


def test_a_circle_drawn_by_arcs_is_round() -> None:
    """Every point of the arcs is the radius away from the middle (SVG 1.1, appendix F.6)."""
    (ring,) = path_points("M10 0 A10 10 0 0 1 -10 0 A10 10 0 0 1 10 0")
    assert all(math.hypot(x, y) == pytest.approx(10) for x, y in ring)
    assert min(y for _, y in ring) == pytest.approx(-10)
    assert max(y for _, y in ring) == pytest.approx(10)


def test_an_arc_too_far_for_its_radius_grows() -> None:
    """F.6.6: the radius is scaled up until it reaches."""
    (ring,) = path_points("M0 0 A1 1 0 0 1 10 0")
    assert all(math.hypot(x - 5, y) == pytest.approx(5) for x, y in ring)


@pytest.mark.parametrize(
    ("path", "end"),
    [
        ("M0 0a1 1 0 0110 0", (10, 0)),
        ("M.5.5-1-1", (-1, -1)),
        ("M1e1-1e1L2E1,3", (20, 3)),
        ("M0 0Q5 10 10 0T20 0", (20, 0)),
        ("M0 0C0 5 10 5 10 0S20-5 20 0", (20, 0)),
        ("M0 0 1 1 2 2", (2, 2)),
        ("M5 5l1 1zl2 2", (7, 7)),
    ],
)
def test_the_path_grammar(path: str, end: tuple[float, float]) -> None:
    """Numbers run together, flags without spaces, smooth curves, lines after a move, a line after a close."""
    assert path_points(path)[-1][-1] == pytest.approx(end)


def test_transforms_are_done_from_right_to_left() -> None:
    """As the list is written (SVG 1.1, section 7.6)."""
    assert moved((1, 0), transform("translate(10,0) scale(2) rotate(90)")) == pytest.approx((10, 2))
    assert moved((1, 1), transform("skewX(45)skewY(0)")) == pytest.approx((2, 1))


@given(st.text(st.sampled_from("MmLlHhVvCcSsQqTtAaZz0123456789.-+eE, \n"), max_size=60))
def test_any_path_gives_points_or_a_value_error(path: str) -> None:
    """No other error, and only finite points."""
    try:
        lines = path_points(path)
    except ValueError:
        return
    assert all(math.isfinite(x) and math.isfinite(y) for line in lines for x, y in line)


@given(st.text(max_size=80) | st.text(st.sampled_from("<>/svgrect=\"'! []&;-xmlns:#?"), max_size=80))
def test_any_text_gives_a_drawing_or_faults(text: str) -> None:
    """And nothing that is not allowed is ever left in it."""
    for whole in (text, f"{HEAD}{text}</svg>", f"{HEAD}<g {text}/></svg>"):
        faults = FaultList()
        found = parse_drawing(whole, "p.svg", faults)
        assert (found is None) == bool(faults.faults)
        if found is not None:
            assert not re.search(r"<(script|style|image|use|a)\b|\son\w+=|href", found.svg)
