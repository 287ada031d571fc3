"""Heat colours and temper colours by named chart: the charts disagree, so none is told without its name."""

from __future__ import annotations

from dataclasses import dataclass

from archive.reckoners.measures import convert
from archive.reckoners.shape import Given, Reckoner, Worked, number, words

SEEN = "Lamps, screens, daylight and eyes differ: a colour is a guide, not a measure."


@dataclass(frozen=True)
class Chart:
    """A chart: (°C, colour) from cold to hot. In one of `ranges` each figure begins a range, else it is a point."""

    key: str
    name: str
    ranges: bool
    colours: tuple[tuple[float, str], ...]

    def colour(self, temperature_c: float) -> str:
        """The colour at a heat: that of the range, or of the nearest point; below the chart there is none."""
        first, last = self.colours[0], self.colours[-1]
        if temperature_c < first[0] - self._reach:
            return f"none: the chart begins at {first[0]:.0f} °C"
        if self.ranges:
            return max(entry for entry in self.colours if entry[0] <= temperature_c)[1]
        if temperature_c > last[0] + self._reach:
            return f"beyond the chart, which ends with {last[1]} at {last[0]:.0f} °C"
        return min(self.colours, key=lambda entry: abs(entry[0] - temperature_c))[1]

    @property
    def _reach(self) -> float:
        """How far beyond its end points a chart of points is still read: half of the first step."""
        return 0.0 if self.ranges else (self.colours[1][0] - self.colours[0][0]) / 2


def _fahrenheit(*colours: tuple[float, str]) -> tuple[tuple[float, str], ...]:
    return tuple((convert(heat, "°F", "°C"), name) for heat, name in colours)


HEAT = (
    Chart("chapman", "Chapman, 1972", True, (
        (426, "black red"), (594, "very dark red"), (705, "dark red"), (815, "cherry"), (871, "light cherry"),
        (982, "orange"), (1093, "yellow"), (1259, "yellow-white"), (1315, "white"),
    )),
    Chart("stirling", "Stirling Boiler Company, 1905", False, (
        (525, "just visible"), (699, "dull red"), (800, "dull cherry"), (900, "full cherry"), (1000, "clear cherry"),
        (1100, "deep orange"), (1200, "clear orange"), (1300, "white"), (1400, "bright white"),
        (1500, "dazzling white"),
    )),
    Chart("taylor-white", "Taylor and White, 1900", False, (
        (532, "dark blood red"), (566, "dark red"), (635, "dark cherry"), (677, "medium cherry"), (746, "full red"),
        (843, "light red"), (899, "salmon"), (941, "light orange"), (996, "yellow"), (1079, "light yellow"),
        (1204, "white"),
    )),
)  # fmt: skip
TEMPER = (
    Chart("colvin-juthe", "Colvin and Juthe", False, _fahrenheit(
        (430, "yellow"), (450, "yellow"), (460, "straw-yellow"), (500, "brown-yellow"), (530, "light purple"),
        (550, "dark purple"), (580, "pale blue"), (600, "blue"),
    )),
    Chart("butt", "Butt", False, _fahrenheit(
        (430, "very pale straw"), (450, "straw"), (470, "darker straw"), (490, "yellow"), (500, "brown yellow"),
        (520, "tinged purple"), (530, "purple"), (550, "dark purple"), (570, "blue"), (600, "dark blue"),
    )),
    Chart("workshop-colours", "metric workshop list", False, (
        (230, "pale yellow"), (240, "dark yellow"), (250, "brown"), (260, "brown-purple"), (270, "purple"),
        (280, "dark purple"), (300, "blue"),
    )),
)  # fmt: skip


def colours_at(charts: tuple[Chart, ...], temperature_c: float) -> dict[str, float | str]:
    """The colour by each chart, under the chart's key made an output key."""
    return {output_key(chart): chart.colour(temperature_c) for chart in charts}


def output_key(chart: Chart) -> str:
    """The key of a chart as the key of an output."""
    return chart.key.replace("-", "_")


def _work(given: Given) -> Worked:
    heat = given.number("temperature")
    values = colours_at(HEAT, heat)
    steps = tuple(f"{chart.name}: {chart.colour(heat)}." for chart in HEAT)
    return Worked(values, steps, (f"The three charts differ by some 150 °C for “cherry”. {SEEN}",))


HEAT_COLOUR = Reckoner(
    name="metal/heat-colour",
    title="The colour of hot metal",
    about="What colour a heat was called, by three charts that do not agree.",
    inputs=(
        number(
            "temperature", "Heat", "°C", 200, 1600, "In the fire, in a dim light.", default="750 °C", sound=(426, 1500)
        ),
    ),
    outputs=tuple(words(output_key(chart), chart.name) for chart in HEAT),
    formula="looked up in each chart, not worked out",
    work=_work,
    sources=("chapman", "stirling", "taylor-white"),
    good_for=("Glowing metal in a dim light. No chart here goes below 426 °C, where nothing is seen.",),
)
