"""Heat colours and temper colours by named chart, on one scale of heat; glow as swatches that are worked out."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from archive.reckoners.figures.black_body import srgb
from archive.reckoners.figures.figure import Drawn, Figure
from archive.reckoners.figures.paper import Paper, Place
from archive.reckoners.metal.colours import HEAT, SEEN, TEMPER, Chart

_TOP, _BOTTOM, _SCALE_X, _FIRST_X, _APART = 84.0, 24.0, 92.0, 186.0, 234.0
_LETTERS, _NAME_LETTERS = 22.0, 15
_GLOW_STEP_C = 25
_GLOW_NOTES = (
    "Each swatch is the colour of a black body at that heat, worked out by Planck's law and the standard observer of "
    "CIE 1931. Glowing iron is close to one. How bright it is drawn is not to scale.",
    "Chapman tells the heat at which a colour begins, the others the heat that it names.",
    "No screen shows the deepest reds, and a dazzled eye calls the hottest yellow or white.",
    SEEN,
)
_TEMPER_NOTES = (
    "No swatches stand here: no source gives the colours of the oxide film in figures. The names are the charts' own.",
    "The colour depends on time too: held long, a lower heat goes past straw.",
    SEEN,
)


class _Ladder:
    """A scale of heat that runs up the sheet."""

    def __init__(self, low: float, high: float, height: float) -> None:
        self.low, self.high = low, high
        self.paper = Paper(_FIRST_X + 3 * _APART, height)

    def y(self, heat: float) -> float:
        """How high a heat stands."""
        span = self.paper.height - _TOP - _BOTTOM
        return self.paper.height - _BOTTOM - (heat - self.low) / (self.high - self.low) * span

    def scale(self, step: int) -> None:
        """Figures at the side."""
        self.paper.words((12, 30), "°C", "drawn-title", anchor="start")
        for heat in range(int(self.low), int(self.high) + 1, step):
            self.paper.words((_SCALE_X - 12, self.y(heat) + 7), f"{heat:,}", "drawn-tick", anchor="end")
            self.paper.line((_SCALE_X - 6, self.y(heat)), (_SCALE_X, self.y(heat)), "drawn-axis")

    def chart(self, column: int, chart: Chart, here: float, *, swatches: bool) -> None:
        """A chart's names at their heats, spread so that none lies on another; the one for this heat stands out."""
        x = _FIRST_X + column * _APART
        for row, words in enumerate(wrap(chart.name, _NAME_LETTERS)):
            self.paper.words((x, 28 + 27 * row), words, "drawn-title", anchor="start")
        heights = spread([self.y(heat) for heat, _ in chart.colours], _LETTERS + 3)
        for (heat, name), height in zip(chart.colours, heights, strict=True):
            self.paper.line((x - 24, self.y(heat)), (x - 6, height), "drawn-guide")
            start: Place = (x, height + 6)
            if swatches:
                self.paper.box((x, height - 8), 24, 16, "drawn-swatch", srgb(heat))
                start = (x + 32, height + 6)
            kind = "drawn-chosen" if name == chart.colour(here) else "drawn-words"
            self.paper.words(start, name, kind, anchor="start", letters=_LETTERS)

    def mark(self, heat: float) -> None:
        """The heat that was asked for, across all charts."""
        y = self.y(min(max(heat, self.low), self.high))
        self.paper.line((_SCALE_X, y), (self.paper.width - 8, y), "drawn-pointer")
        self.paper.circle((_SCALE_X, y), 9, "drawn-point")


def spread(heights: Sequence[float], least: float) -> list[float]:
    """Heights going up the sheet, pushed apart to stand at least so far from one another, each near its own."""
    placed: list[float] = []
    for height in heights:
        placed.append(min(height, placed[-1] - least) if placed else height)
    drift = sum(was - now for was, now in zip(heights, placed, strict=True)) / len(placed)
    return [now + drift for now in placed]


def heat_colour(drawn: Drawn) -> Figure:
    """The colour of a glow, and what three charts call it."""
    heat = drawn.numbers["temperature"]
    ladder = _Ladder(400, 1600, 1040)
    for low in range(425, 1551, _GLOW_STEP_C):
        y = ladder.y(low + _GLOW_STEP_C)
        ladder.paper.box((_SCALE_X, y), 52, ladder.y(low) - y + 0.5, "drawn-glow", srgb(low + _GLOW_STEP_C / 2))
    ladder.scale(100)
    ladder.mark(heat)
    for column, chart in enumerate(HEAT):
        ladder.chart(column, chart, heat, swatches=True)
    return _figure(ladder, "The colour of hot metal", HEAT, heat, _GLOW_NOTES)


def temper_colour(drawn: Drawn) -> Figure:
    """What three charts call the colour that steel is let down to."""
    heat = drawn.numbers["temper"]
    ladder = _Ladder(210, 325, 820)
    ladder.scale(10)
    ladder.paper.line((_SCALE_X, ladder.y(210)), (_SCALE_X, ladder.y(325)), "drawn-axis")
    ladder.mark(heat)
    for column, chart in enumerate(TEMPER):
        ladder.chart(column, chart, heat, swatches=False)
    return _figure(ladder, "Temper colours", TEMPER, heat, _TEMPER_NOTES)


def _figure(ladder: _Ladder, title: str, charts: tuple[Chart, ...], heat: float, notes: tuple[str, ...]) -> Figure:
    named = "; ".join(f"{chart.name}: {chart.colour(heat)}" for chart in charts)
    alternative = f"{title}: {len(charts)} charts side by side on one scale of heat. At {heat:.0f} °C, {named}."
    rows = tuple((chart.name, f"{at:.0f} °C", name) for chart in charts for at, name in chart.colours)
    rows += tuple((chart.name, f"here: {heat:.0f} °C", chart.colour(heat)) for chart in charts)
    return Figure(ladder.paper.svg(alternative), title, alternative, ("Chart", "Heat", "Colour"), rows, notes)
