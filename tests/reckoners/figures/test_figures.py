"""Figures: whole, told in words, without style of their own, and with their points where they belong."""

from __future__ import annotations

import math
import re
from xml.etree import ElementTree

import pytest

from archive.reckoners.figures import FIGURES, figure_for
from archive.reckoners.figures.axes import Axes, Axis, plain_axis, round_step
from archive.reckoners.figures.figure import Figure
from archive.reckoners.figures.glow import spread
from archive.reckoners.figures.paper import LETTERS, Paper
from archive.reckoners.registry import RECKONERS, reckon

SVG = "{http://www.w3.org/2000/svg}"
GIVEN: list[tuple[str, dict[str, str]]] = [
    ("metal/lever-silver-copper", {}),
    ("metal/lever-silver-copper", {"copper": "0 %"}),
    ("metal/lever-silver-copper", {"copper": "60 %", "figures": "textbook"}),
    ("metal/lever-copper-zinc", {}),
    ("metal/lever-copper-zinc", {"zinc": "10 %", "temperature": "300 °C"}),
    ("metal/cold-reduction", {"before": "1.43 mm", "after": "0.9 mm", "alloy": "C26000"}),
    ("metal/cold-reduction", {"before": "1.43 mm", "after": "0.9 mm", "alloy": "sterling"}),
    ("metal/cold-reduction", {"before": "2 mm", "after": "1.2 mm", "form": "wire", "alloy": "C26000"}),
    ("metal/cold-reduction", {"before": "10 mm", "after": "0.9 mm"}),
    ("metal/cold-reduction", {"before": "1 mm", "after": "1 mm"}),
    ("metal/heat-colour", {}),
    ("metal/heat-colour", {"temperature": "200 °C"}),
    ("metal/tool-steel", {}),
    ("metal/tool-steel", {"temper": "400 °C"}),
    ("press/drop-stamp-blow", {"light_fall": "0.4 m", "friction": "10 %"}),
    ("press/drop-stamp-blow", {"mass": "20000 kg", "fall": "8 to 10 m"}),
    ("press/fly-press-blow", {}),
    ("press/fly-press-blow", {"balls": "0", "arm": "5 kg"}),
    ("press/sheet-layout", {}),
    ("press/sheet-layout", {"outline": "polygon 0,0 40,0 30,25 mm", "length": "300 mm", "width": "200 mm"}),
    ("hazard/hearing-loss", {}),
    ("hazard/hearing-loss", {"edition": "2017", "sex": "male"}),
    ("hazard/noise-time", {}),
    ("hazard/noise-time", {"level": "130 dB"}),
]
every = pytest.mark.parametrize(("name", "given"), GIVEN, ids=lambda part: str(part))


def drawn(name: str, given: dict[str, str]) -> tuple[Figure, ElementTree.Element]:
    """The figure of a reckoning and its drawing."""
    figure = figure_for(reckon(name, given))
    assert figure is not None
    return figure, ElementTree.fromstring(figure.svg)


def places(tree: ElementTree.Element, kind: str) -> list[tuple[float, float]]:
    """Where the circles of a class lie."""
    circles = [circle for circle in tree.iter(f"{SVG}circle") if circle.get("class") == kind]
    return [(float(circle.get("cx", 0)), float(circle.get("cy", 0))) for circle in circles]


def test_a_sum_without_a_figure_has_none() -> None:
    """Where nothing is drawn the answer is None, and every figure belongs to a sum that there is."""
    assert figure_for(reckon("metal/fineness", {"fineness": "18 ct"})) is None
    assert set(FIGURES) <= set(RECKONERS)
    assert {name for name, _ in GIVEN} == set(FIGURES)


@every
def test_every_figure_is_whole(name: str, given: dict[str, str]) -> None:
    """Well-formed, no style of its own, words for those who do not see it, a table behind it, letters large enough."""
    figure, tree = drawn(name, given)
    assert "style" not in figure.svg
    assert "nan" not in figure.svg
    assert tree.get("role") == "img"
    assert tree.get("aria-label") == figure.alternative
    assert len(figure.alternative) > 60
    assert figure.rows
    assert {len(row) for row in figure.rows} == {len(figure.head)}
    for text in tree.iter(f"{SVG}text"):
        assert text.text
        assert float(text.get("font-size", 0)) >= LETTERS - 2


@every
def test_nothing_is_drawn_off_the_sheet(name: str, given: dict[str, str]) -> None:
    """Every point, line end and box lies within the frame."""
    figure, tree = drawn(name, given)
    _, _, width, height = map(float, tree.get("viewBox", "").split())
    numbers = [
        (float(part.get(x, 0)), float(part.get(y, 0)))
        for kind, ends in (
            ("circle", ("cx", "cy")),
            ("line", ("x1", "y1")),
            ("line", ("x2", "y2")),
            ("rect", ("x", "y")),
        )
        for part in tree.iter(f"{SVG}{kind}")
        for x, y in (ends,)
    ]
    for path in tree.iter(f"{SVG}path"):
        if path.get("class") != "drawn-blank":
            numbers += [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+),(-?[\d.]+)", path.get("d", ""))]
    assert all(-0.1 <= x <= width + 0.1 and -0.1 <= y <= height + 0.1 for x, y in numbers), figure.title


def test_axes_map_values_to_places() -> None:
    """The ends of both axes are the corners of the frame, the middle is the middle, a logarithm its own."""
    axes = Axes(Paper(), Axis("a", 0, 10, ()), Axis("b", 100, 300, ()))
    assert axes.at(0, 100) == (axes.left, axes.bottom)
    assert axes.at(10, 300) == (axes.right, axes.top)
    assert axes.at(5, 200) == pytest.approx(((axes.left + axes.right) / 2, (axes.top + axes.bottom) / 2))
    assert Axis("c", 100, 10_000, (), logarithmic=True).share(1000) == pytest.approx(0.5)
    assert Axis("d", 60, 0, ()).share(15) == pytest.approx(0.75)


@pytest.mark.parametrize(("least", "step"), [(0.9, 1), (1, 1), (1.1, 2), (3, 5), (7, 10), (0.03, 0.05), (4000, 5000)])
def test_ticks_stand_at_round_figures(least: float, step: float) -> None:
    """Steps are 1, 2 or 5 times a power of ten, and the axis ends on a tick."""
    assert round_step(least) == pytest.approx(step)
    axis = plain_axis("a", 0, least * 5.5)
    assert axis.ticks[-1][0] == axis.high >= least * 5.5 * (1 - 1e-9)


def test_the_alloy_stands_on_the_eutectic_line() -> None:
    """20 % copper stands a fifth of the way along, at 779.1 °C; its lever runs from 8.27 to 92.53 %."""
    _, tree = drawn("metal/lever-silver-copper", {"copper": "20 %"})
    axes = Axes(Paper(), plain_axis("", 0, 100, 5), Axis("", 640, 1150, ()))
    assert places(tree, "drawn-point") == [pytest.approx(axes.at(20, 779.1), abs=0.06)]
    lever = next(path for path in tree.iter(f"{SVG}path") if path.get("class") == "drawn-lever")
    found = [float(x) for x in re.findall(r"([\d.]+),", lever.get("d", ""))]
    assert found == pytest.approx([axes.at(8.27, 0)[0], axes.at(92.53, 0)[0]], abs=0.06)


def test_the_blow_lies_on_its_line() -> None:
    """50 kg over 1.2 m is 588 J. Source: reference F3. The point is there on axes to 1.5 m and 800 J."""
    figure, tree = drawn("press/drop-stamp-blow", {"mass": "50 kg", "fall": "1.2 m"})
    axes = Axes(Paper(), plain_axis("", 0, 1.5, 5), plain_axis("", 0, 735.5, 5))
    assert places(tree, "drawn-point") == [pytest.approx(axes.at(1.2, 588.4), abs=0.06)]
    assert "588 J" in figure.alternative


def test_the_audiogram_dips_at_four_kilohertz() -> None:
    """Further down is worse: of the line of both at the median the deepest mark is that of 4,000 Hz."""
    _, tree = drawn("hazard/hearing-loss", {})
    both = places(tree, "drawn-mark")[6:12]
    assert max(both, key=lambda place: place[1]) == both[4]


def test_the_times_stand_at_the_level_asked_for() -> None:
    """At 95 dB(A) the upper action value leaves 48 min, the lower 15.2."""
    figure, tree = drawn("hazard/noise-time", {"level": "95 dB"})
    lower, upper = places(tree, "drawn-point")
    assert lower[0] == upper[0]
    assert lower[1] > upper[1]
    hours = math.log(0.8 * 60) / math.log(24 * 60)
    axes = Axes(Paper(), Axis("", 75, 120, ()), Axis("", 0, 1, ()))
    assert upper == pytest.approx(axes.at(95, hours), abs=0.06)
    assert ("UK upper action value, 85 dB(A)", "48.0 min") in figure.rows


def test_every_blank_is_drawn_or_a_corner_is_told() -> None:
    """A few blanks are all there; of thousands a corner is drawn, and the figure says so."""
    few, tree = drawn("press/sheet-layout", {"outline": "circle 60 mm", "length": "300 mm", "width": "200 mm"})
    count = next(row[1] for row in few.rows if row[0] == "best")
    assert len(list(tree.iter(f"{SVG}use"))) == int(count)
    assert few.notes == ()
    many, tree = drawn("press/sheet-layout", {"outline": "circle 8 mm"})
    assert len(list(tree.iter(f"{SVG}use"))) < 1500
    assert "one corner" in many.notes[0]


def test_swatches_stand_for_glow_alone() -> None:
    """Heat colours have a swatch for each name, temper colours none, and each figure says why."""
    hot, tree = drawn("metal/heat-colour", {})
    named = [box for box in tree.iter(f"{SVG}rect") if box.get("class") == "drawn-swatch"]
    assert len(named) == len(hot.rows) - 3
    assert all(re.fullmatch("#[0-9a-f]{6}", box.get("fill", "")) for box in named)
    assert any("CIE 1931" in note for note in hot.notes)
    temper, tree = drawn("metal/tool-steel", {})
    assert not list(tree.iter(f"{SVG}rect"))
    assert any("no source gives" in note for note in temper.notes)
    for figure in (hot, temper):
        assert any("Lamps, screens, daylight and eyes differ" in note for note in figure.notes)


def test_names_that_stand_close_are_spread() -> None:
    """No two are nearer than asked, their order stays, and those far apart stay where they were."""
    placed = spread([100.0, 95.0, 92.0, 40.0], 10)
    assert all(lower - upper >= 10 - 1e-9 for lower, upper in zip(placed, placed[1:], strict=False))
    assert spread([100.0, 60.0], 10) == [100.0, 60.0]
