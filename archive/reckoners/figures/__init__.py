"""Results drawn as SVG, with axes, units, words for those who do not see them, and the table behind them.

`figure_for(result)` gives the figure of a result, or None where none is drawn. To add one: a function from `Drawn` to
`Figure` in a file named for what is drawn, and a line in `FIGURES`. Drawings take classes alone, no style and no
colour but a swatch's own; static/css/figures.css says how they look.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from archive.reckoners.figures import blanks, blows, glow, hearing, phases, tempers
from archive.reckoners.figures.figure import Drawn, Figure, drawn
from archive.reckoners.shape import Result

FIGURES: Mapping[str, Callable[[Drawn], Figure | None]] = {
    "metal/lever-silver-copper": phases.silver_copper,
    "metal/lever-copper-zinc": phases.copper_zinc,
    "metal/cold-reduction": tempers.cold_reduction,
    "metal/heat-colour": glow.heat_colour,
    "metal/tool-steel": glow.temper_colour,
    "press/drop-stamp-blow": blows.drop_stamp,
    "press/fly-press-blow": blows.fly_press,
    "press/sheet-layout": blanks.sheet_layout,
    "hazard/hearing-loss": hearing.audiogram,
    "hazard/noise-time": hearing.noise_time,
}


def figure_for(result: Result) -> Figure | None:
    """The figure of a result; None where none is drawn."""
    draw = FIGURES.get(result.reckoner.name)
    return None if draw is None else draw(drawn(result))
