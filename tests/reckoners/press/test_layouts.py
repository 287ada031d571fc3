"""Layouts held against plain geometry by shapely: nothing overlaps or sticks out, and brute force finds no more."""

from __future__ import annotations

import itertools
import math
import random

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon
from shapely.affinity import rotate, translate

from archive.reckoners.press.layouts import Found, Layout, Sheet, _laid, lay_out
from archive.reckoners.press.no_fit import convex_pieces, no_fit
from archive.reckoners.press.outlines import Outline, outline_written
from archive.reckoners.press.patterns import HEAD_TO_TAIL, half_turn_alike, patterns, turned
from archive.reckoners.registry import reckon

L_SHAPE = "polygon 0,0 30,0 30,10 10,10 10,30 0,30"
T_SHAPE = "polygon 0,0 40,0 40,10 25,10 25,30 15,30 15,10 0,10"
SHIELD = "M 0 0 A 20 20 0 0 1 20 20 L 0 20 Z"
WAVE = "M 0 0 C 10 -10 30 10 40 0 L 40 8 C 30 18 10 -2 0 8 Z"


def ragged(seed: int, corners: int) -> str:
    """A star-shaped outline with corners at random distances, the same for the same seed."""
    chance = random.Random(seed)
    radii = [6 + 14 * chance.random() for _ in range(corners)]
    places = [(r * math.cos(math.tau * i / corners), r * math.sin(math.tau * i / corners)) for i, r in enumerate(radii)]
    return "polygon " + " ".join(f"{x:.4f},{y:.4f}" for x, y in places)


def found_for(text: str, sheet: Sheet) -> Found:
    """The layouts of an outline that fits."""
    found = lay_out(outline_written(text, "outline"), sheet)
    assert found is not None
    return found


def laid(layout: Layout) -> list[Polygon]:
    """Every blank as a polygon on the sheet."""
    base = layout.outline.polygon
    return [
        translate(rotate(base, place.angle_deg, origin=(0, 0)), place.x_mm, place.y_mm) for place in layout.places()
    ]


SHAPES = ["circle 18 mm", "triangle 20 mm", "pentagon 20 mm", "rectangle 30 x 20 mm", L_SHAPE, T_SHAPE, SHIELD, WAVE]


@pytest.mark.parametrize("text", [*SHAPES, *(ragged(seed, 5 + seed) for seed in range(3))])
@pytest.mark.parametrize("bridge", [0.0, 0.9])
def test_no_blank_touches_another_or_leaves_the_sheet(text: str, bridge: float) -> None:
    """By shapely alone: as many blanks as counted, all within the edge, each pair at least the bridge apart."""
    sheet = Sheet(130, 100, bridge, 1.2)
    inside = shapely.box(1.2 - 1e-6, 1.2 - 1e-6, 130 - 1.2 + 1e-6, 100 - 1.2 + 1e-6)
    for layout in found_for(text, sheet).by_arrangement.values():
        blanks = laid(layout)
        assert len(blanks) == layout.count
        assert all(inside.contains(blank) for blank in blanks)
        near = shapely.STRtree(blanks).query(blanks, predicate="dwithin", distance=bridge + 1)
        pairs = [(blanks[i], blanks[j]) for i, j in near.T if i < j]
        if bridge:
            assert all(first.distance(second) >= bridge - 1e-6 for first, second in pairs)
        else:
            assert all(first.intersection(second).area < 1e-6 for first, second in pairs)


def free_moves(outline: Outline, angle: float, reach: int) -> np.ndarray:
    """Brute force: at every whole millimetre, whether the blank moved there lies clear of the one at rest."""
    blank = rotate(outline.polygon, angle, origin=(0, 0))
    steps = range(-reach, reach + 1)
    moved = [translate(blank, x, y) for y in steps for x in steps]
    clear = shapely.area(shapely.intersection(moved, blank)) < 1e-6
    return clear.reshape(2 * reach + 1, 2 * reach + 1)


def brute_count(outline: Outline, wide: int, high: int, angle: float) -> int:
    """Most blanks in rows of whole millimetres, by trying every pitch, shift and height."""
    low_x, low_y, high_x, high_y = rotate(outline.polygon, angle, origin=(0, 0)).bounds
    across, up = high_x - low_x, high_y - low_y
    reach = math.ceil(max(across, up))
    clear = free_moves(outline, angle, reach)
    if across > wide or up > high:
        return 0

    def is_clear(x: int, y: int) -> bool:
        return abs(x) > reach or abs(y) > reach or bool(clear[y + reach, x + reach])

    best = 0
    for pitch in range(1, wide + 1):
        if not all(is_clear(k * pitch, 0) for k in range(1, reach // pitch + 1)):
            continue
        in_full = math.floor((wide - across) / pitch + 1e-9) + 1
        for shift, rise in itertools.product(range(pitch), range(1, high + 1)):
            rows = math.floor((high - up) / rise + 1e-9) + 1
            if in_full * rows <= best:
                break
            every = itertools.product(range(1, rows), range(-reach // pitch - rows, reach // pitch + 2))
            if all(is_clear(j * shift % pitch + k * pitch, j * rise) for j, k in every):
                offsets = [j * shift % pitch for j in range(rows)]
                best = max(best, sum(math.floor((wide - across - o) / pitch + 1e-9) + 1 for o in offsets))
                break
    return best


@pytest.mark.parametrize(
    "text", ["circle 13 mm", "triangle 16 mm", "polygon 0,0 15,0 15,5 5,5 5,15 0,15", "rectangle 14 x 9 mm"]
)
def test_brute_force_finds_no_more(text: str) -> None:
    """Every row pattern in whole millimetres, at two angles each way of the sheet, by shapely's intersections alone."""
    outline = outline_written(text, "outline")
    best = found_for(text, Sheet(60, 44, 0, 0)).best.count
    brute = max(brute_count(outline, *size, angle) for angle in (0, 45) for size in ((60, 44), (44, 60)))
    assert 0 < brute <= best


@pytest.mark.parametrize(
    ("text", "wide", "high", "count"),
    [
        ("square 10 mm", 100, 100, 100),
        ("rectangle 30 x 20 mm", 60, 60, 6),
        ("rectangle 30 x 20 mm", 41, 30, 2),
        ("circle 10 mm", 10, 10, 1),
        ("circle 10 mm", 100, 10, 10),
        # Ten rows would be a square grid of 100; staggered rows lie 8.66 mm apart and eleven of 10 and 9 fit.
        ("circle 10 mm", 100, 100, 105),
        # Head to tail, triangles of side 20 stand every 10 mm in a strip of their own height.
        ("triangle 20 mm", 100, 17.33, 9),
    ],
)
def test_counts_that_anyone_can_check(text: str, wide: float, high: float, count: int) -> None:
    """Worked by hand."""
    assert found_for(text, Sheet(wide, high, 0, 0)).best.count == count


def test_turned_squares_can_beat_upright_ones() -> None:
    """Sides a hair too short for one more row: upright squares of 10 give 10 in 100 × 19.9 mm, turned ones 11."""
    found = found_for("square 10 mm", Sheet(100, 19.9, 0, 0))
    blanks = laid(found.best)
    assert len(blanks) == 11 > 10 == found.by_arrangement["rows"].count
    assert all(a.intersection(b).area < 1e-6 for a, b in itertools.combinations(blanks, 2))


def test_head_to_tail_beats_rows_for_triangles() -> None:
    """A strip of triangles gives nine head to tail and five in a row."""
    found = found_for("triangle 20 mm", Sheet(100, 17.33, 0, 0))
    assert found.best.pattern.arrangement == HEAD_TO_TAIL
    assert found.by_arrangement["rows"].count == 5


def test_a_row_head_to_tail_fits_a_strip_of_its_own_height() -> None:
    """Both ways up between the same two lines: nine triangles in one row, none if the strip is a hair lower."""
    outline = outline_written("triangle 20 mm", "outline")
    shape = turned(outline, 0.0, 0.0)
    paired = [pattern for pattern in patterns(shape) if len(pattern.rows[0].blanks) == 2]
    assert paired
    for pattern in paired:
        assert _laid(shape, Sheet(100, 17.33, 0, 0), pattern, False).count == 9
        assert _laid(shape, Sheet(100, 17.31, 0, 0), pattern, False).count == 0


def test_what_cannot_fit_gives_nothing() -> None:
    """A blank larger than the sheet, at any angle, is no layout."""
    assert lay_out(outline_written("square 50 mm", "outline"), Sheet(49, 49, 0, 0)) is None
    assert lay_out(outline_written("circle 10 mm", "outline"), Sheet(11, 11, 0, 1)) is None


coordinates = st.floats(min_value=-45, max_value=45)


@settings(max_examples=40, deadline=None)
@given(st.integers(min_value=0, max_value=5), coordinates, coordinates, st.booleans())
def test_outside_the_no_fit_polygon_nothing_overlaps(seed: int, x: float, y: float, turned: bool) -> None:
    """And strictly inside it, two convex blanks do overlap: shapely's intersection is the judge."""
    outline = outline_written(ragged(seed, 7), "outline")
    region = Polygon(no_fit(outline, turned=turned, bridge_mm=0))
    second = rotate(outline.polygon, 180 if turned else 0, origin=(0, 0))
    overlap = translate(second, x, y).intersection(outline.polygon).area
    place = shapely.Point(x, y)
    if not region.buffer(1e-6).contains(place):
        assert overlap < 1e-6
    elif outline.is_convex and region.buffer(-1e-3).contains(place):
        assert overlap > 0


@settings(max_examples=25, deadline=None)
@given(st.floats(min_value=0.1, max_value=5), coordinates, coordinates)
def test_outside_the_grown_polygon_the_bridge_is_kept(bridge: float, x: float, y: float) -> None:
    """The straight pieces that stand for arcs never cut the bridge short."""
    outline = outline_written("triangle 20 mm", "outline")
    region = Polygon(no_fit(outline, turned=False, bridge_mm=bridge))
    if not region.contains(shapely.Point(x, y)):
        assert translate(outline.polygon, x, y).distance(outline.polygon) >= bridge - 1e-6


@pytest.mark.parametrize("seed", range(4))
def test_convex_pieces_make_up_the_outline(seed: int) -> None:
    """No gap, no overlap, each piece convex."""
    outline = outline_written(ragged(seed, 14), "outline")
    pieces = [Polygon(piece) for piece in convex_pieces(np.asarray(outline.corners))]
    assert sum(piece.area for piece in pieces) == pytest.approx(outline.area_mm2)
    assert shapely.union_all(pieces).symmetric_difference(outline.polygon).area < 1e-6
    assert all(piece.convex_hull.area == pytest.approx(piece.area) for piece in pieces)


@pytest.mark.parametrize(
    ("text", "alike"),
    [("circle 9 mm", True), ("square 9 mm", True), ("hexagon 9 mm", True), ("pentagon 9 mm", False), (L_SHAPE, False)],
)
def test_half_a_turn(text: str, alike: bool) -> None:
    """Head to tail is tried only where it is another way to lay the blank."""
    assert half_turn_alike(outline_written(text, "outline")) is alike


@settings(max_examples=15, deadline=None)
@given(st.floats(min_value=0, max_value=4), st.floats(min_value=0, max_value=4))
def test_a_wider_bridge_never_gives_more(first: float, second: float) -> None:
    """Monotone, for discs, whose angle makes no difference."""
    low, high = sorted((first, second))
    counts = [found_for("circle 18 mm", Sheet(300, 200, bridge, 0)).best.count for bridge in (low, high)]
    assert counts[0] >= counts[1]


def test_millimetres_and_inches_give_one_layout() -> None:
    """The outline, the sheet and the bridge may each be told in either."""
    metric = {
        "outline": "polygon 0,0 25.4,0 12.7,25.4 mm",
        "length": "609.6 mm",
        "width": "304.8 mm",
        "bridge": "0.9 mm",
    }
    inches = {"outline": "polygon 0,0 1,0 0.5,1 in", "length": "24 in", "width": "1 ft", "bridge": "35.433071 thou"}
    first, second = reckon("press/sheet-layout", metric), reckon("press/sheet-layout", inches)
    for key in ("pieces", "used", "scrap_weight"):
        assert first.figure(key) == pytest.approx(second.figure(key), rel=1e-6)


def test_weight_and_worth_of_the_skeleton() -> None:
    """What is not a blank is scrap: the weights add up to the sheet, and the price is of the scrap."""
    result = reckon("press/sheet-layout", {"outline": "circle 18 mm", "price": "£4"})
    sheet_g = 1200 * 600 * 0.9 * 8.80 / 1000
    blanks_g = result.figure("pieces") * math.pi * 81 * 0.9 * 8.80 / 1000
    assert result.figure("scrap_weight") == pytest.approx(sheet_g - blanks_g)
    assert result.figure("scrap_worth") == pytest.approx(4 * (sheet_g - blanks_g) / 1000)
