"""A thickness in millimetres, inches, thousandths, sixty-fourths and the nearest number of each gauge."""

from __future__ import annotations

from fractions import Fraction

from archive.reckoners.gauges import TABLES, Gauge, nearest
from archive.reckoners.measures import INCH_MM
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number, words

_SIXTY_FOURTHS = 64
_SHEET_OF_PAPER_MM = 0.1
_KEYS = {"SWG": "swg", "BG": "bg", "BWG": "bwg", "B&S": "bs", "US": "us"}


def sixty_fourths_told(thickness_mm: float) -> str:
    """The nearest sixty-fourth of an inch, in its lowest terms."""
    part = Fraction(round(thickness_mm / INCH_MM * _SIXTY_FOURTHS), _SIXTY_FOURTHS)
    whole, rest = divmod(part, 1)
    told = " ".join(str(piece) for piece in (whole, rest) if piece) or "0"
    return f"{told} in ({float(part) * INCH_MM:.3f} mm)"


def gauge_told(found: Gauge, thickness_mm: float) -> str:
    """A gauge number with its own thickness, and how far that is from the thickness asked."""
    off = found.thickness_mm - thickness_mm
    near = "exactly" if abs(off) < 5e-4 else f"{abs(off):.3f} mm {'thicker' if off > 0 else 'thinner'}"
    return f"{found.number} ({found.thickness_mm:.3f} mm, {near})"


def _work(given: Given) -> Worked:
    mm = given.number("thickness")
    inch = mm / INCH_MM
    values: dict[str, float | str] = {"mm": mm, "inch": inch, "thou": 1000 * inch, "fraction": sixty_fourths_told(mm)}
    found = {table: nearest(table, mm) for table in TABLES}
    values |= {_KEYS[table]: gauge_told(one, mm) for table, one in found.items()}
    steps = (
        f"{mm:.4f} mm / 25.4 = {inch:.4f} in.",
        *(f"{TABLES[table]}: nearest is {gauge_told(one, mm)}." for table, one in found.items()),
    )
    compare = f"As thick as about {mm / _SHEET_OF_PAPER_MM:.0f} sheets of office paper." if mm >= 0.1 else ""
    return Worked(values, steps, compare=compare, sources=tuple(one.source for one in found.values()))


GAUGE = Reckoner(
    name="units/gauge",
    title="Gauges and thicknesses",
    about="One thickness in every way that it is told: millimetres, inches and five gauges.",
    inputs=(
        number("thickness", "Thickness", "mm", 0.02, 15, "Such as 20 SWG, 0.9 mm, 1/32 in or 36 thou."),
    ),
    outputs=(
        Output("mm", "Millimetres", "mm", 4),
        Output("inch", "Inches", "in", 4),
        Output("thou", "Thousandths of an inch", "thou", 1),
        words("fraction", "Nearest sixty-fourth"),
        *(words(_KEYS[table], f"Nearest {name} ({table})") for table, name in TABLES.items()),
    ),
    formula="1 in = 25.4 mm exactly; each gauge is a table, and B&S is 0.005 in × 92^((36 − n) / 39)",
    work=_work,
    sources=("swg", "bg-1914", "bwg", "astm-b258", "us-gauge-memory", "paper"),
    good_for=("The tables as held here, some numbers from memory. Old gauge plates were worn, and differed by maker.",),
)  # fmt: skip
