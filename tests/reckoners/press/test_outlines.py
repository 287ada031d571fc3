"""Outlines are read as people write them, and refused in plain words."""

from __future__ import annotations

import math

import pytest

from archive.errors import OutOfRange, Unacceptable
from archive.reckoners.press.outlines import REGULAR, outline_written
from archive.reckoners.registry import reckon

BAD = [
    "blob",
    "circle",
    "circle -3 mm",
    "circle nan",
    "circle about 18 mm",
    "circle 9 furlongs",
    "circle 1e9",
    "square 0",
    "rectangle 30",
    "rectangle 30 x 20 x 10",
    "rectangle 30 x x",
    "polygon",
    "polygon 0,0 1,1",
    "polygon 0,0 10,10 20,20",
    "polygon 0,0 20,20 20,0 0,20",
    "polygon 0,0 nan,3 5,5",
    "polygon 0,0 9,0 9 9",
    "M 0 0",
    "M 0 0 L 10 0 L 10",
    "L 0 0 10 0 10 10 Z",
    "M 0 0 L 10 0 L 10 10 Z M 2 2 L 3 2 L 3 3 Z",
    "M 0 0 B 10 0 L 10 10 Z",
    "M 0 0 L 1e99 0 L 1e99 1e99 Z",
    "M 0 0 <script> L 10 0 L 10 10 Z",
    "M 0 0 " + "L 1 1 " * 2000,
    "polygon " + " ".join(f"{i},{i * i}" for i in range(400)),
]


@pytest.mark.parametrize("text", BAD, ids=lambda text: text[:24])
def test_what_is_no_outline_is_refused(text: str) -> None:
    """Each under the field of the outline, with what may be written."""
    with pytest.raises(Unacceptable) as caught:
        reckon("press/sheet-layout", {"outline": text})
    assert [fault.where for fault in caught.value.faults] == ["outline"]
    assert all(fault.found and fault.allowed for fault in caught.value.faults)


def test_a_blank_too_large_for_the_sheet_is_refused() -> None:
    """The refusal tells the sheet and the edge kept."""
    with pytest.raises(Unacceptable, match="Not one circle of 700 mm fits"):
        reckon("press/sheet-layout", {"outline": "circle 700 mm"})


def test_too_many_blanks_are_refused() -> None:
    """A sheet of millions of specks is no layout that anyone asks for."""
    with pytest.raises(OutOfRange, match="500,000"):
        reckon("press/sheet-layout", {"outline": "circle 0.5 mm", "length": "5000", "width": "3000"})


@pytest.mark.parametrize(("name", "sides"), REGULAR.items())
def test_regular_shapes_by_their_side(name: str, sides: int) -> None:
    """The area of a regular shape of side a is n a² / (4 tan(pi / n))."""
    outline = outline_written(f"{name} 10 mm", "outline")
    assert outline.area_mm2 == pytest.approx(sides * 100 / (4 * math.tan(math.pi / sides)))
    assert outline.is_convex


@pytest.mark.parametrize(
    ("text", "area"),
    [
        ("circle 1 in", math.pi * 25.4**2 / 4),
        ("round 20 mm", math.pi * 100),
        ("rectangle 30 x 20 mm", 600),
        ("rectangle 3 cm x 20 mm", 600),
        ("rectangle 1 by 2 in", 2 * 25.4**2),
        ("polygon 0,0 10,0 10,10 0,10", 100),
        ("polygon 0,0 1,0 1,1 0,1 in", 25.4**2),
        ("M 0 0 L 10 0 L 10 10 L 0 10 Z", 100),
        ("m0,0 10,0 0,10 -10,0z", 100),
        ("M0 0H10V10H0Z", 100),
        ("M0 0h10v10h-10z", 100),
        ("M 0 0 H 1 V 1 H 0 Z in", 25.4**2),
        # A parabola from 0,0 to 20,0 with its handle at 10,15 holds two thirds of the triangle on its handle.
        ("M 0 0 Q 10 15 20 0 Z", 100),
        ("M 0 0 q 10 15 20 0 z", 100),
        # The same curve as a cubic.
        ("M 0 0 C 6.6666667 10 13.3333333 10 20 0 Z", 100),
        # Two arches, the second mirrored by T and by S: the areas on either side of the line are alike.
        ("M 0 0 Q 10 15 20 0 T 40 0 L 40 -20 L 0 -20 Z", 800),
        ("M 0 0 C 6.6666667 10 13.3333333 10 20 0 S 33.3333333 -10 40 0 L 40 -20 L 0 -20 Z", 800),
        ("M -10 0 A 10 10 0 1 1 10 0 A 10 10 0 1 1 -10 0 Z", math.pi * 100),
        ("M 10 0 A 10 10 0 0 1 0 10 L 0 0 Z", math.pi * 25),
        ("M 10 0 A 10 10 0 0 0 0 10 L 0 0 Z", 100 - (100 - math.pi * 25) - 2 * (math.pi * 25 - 50)),
        ("M -20 0 A 20 10 0 1 1 20 0 A 20 10 0 1 1 -20 0 Z", math.pi * 200),
    ],
)
def test_areas_by_their_closed_forms(text: str, area: float) -> None:
    """Curves are cut into straight pieces, which costs up to 1.2 % of a full circle in two arcs."""
    assert outline_written(text, "outline").area_mm2 == pytest.approx(area, rel=0.02)


def test_an_arc_too_small_is_grown() -> None:
    """An ellipse that cannot reach both ends is grown until it does, as the standard of SVG asks."""
    small = outline_written("M -10 0 A 1 1 0 1 1 10 0 Z", "outline")
    right = outline_written("M -10 0 A 10 10 0 1 1 10 0 Z", "outline")
    assert small.area_mm2 == pytest.approx(right.area_mm2)
