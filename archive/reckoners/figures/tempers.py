"""Cold reduction drawn: strength, or the number of gauge steps, against how much has been taken off."""

from __future__ import annotations

from archive.reckoners.figures.axes import Axes, plain_axis
from archive.reckoners.figures.figure import Drawn, Figure
from archive.reckoners.figures.paper import Paper
from archive.reckoners.metal.alloys import TEMPER_NUMBERS, Cell, alloys
from archive.reckoners.metal.cold_reduction import strip_reduction_percent, wire_reduction_percent

_SHORT = {"annealed": "soft", "quarter hard": "¼", "half hard": "½", "three-quarter hard": "¾", "extra hard": "extra"}


def cold_reduction(drawn: Drawn) -> Figure:
    """Strength by temper where the alloy's is known, else the tempers on the curve of gauge numbers."""
    form, alloy = drawn.words["form"], alloys().get(drawn.words.get("alloy", ""))
    cells = [] if alloy is None else [cell for cell in alloy.every("strength", form) if cell.temper in TEMPER_NUMBERS]
    if alloy is not None and len(cells) > 1:
        return _strength(drawn, alloy.name, sorted(cells, key=lambda cell: TEMPER_NUMBERS[cell.temper]))
    return _numbers(drawn)


def _off(numbers: float, form: str) -> float:
    return strip_reduction_percent(numbers) if form == "strip" else wire_reduction_percent(numbers)


def _across(drawn: Drawn, form: str) -> tuple[str, float]:
    """The title of the axis across, and how far it must reach."""
    most = max(_off(10, form), drawn.figure("reduction") or 0.0)
    what = "Taken off the thickness, %" if form == "strip" else "Taken off the area, %"
    return what, min(100.0, most)


def _strength(drawn: Drawn, name: str, cells: list[Cell]) -> Figure:
    form, reduction = drawn.words["form"], drawn.figure("reduction") or 0.0
    title, most = _across(drawn, form)
    ends = [(_off(TEMPER_NUMBERS[cell.temper], form), cell.low, _high(cell), cell.temper) for cell in cells]
    paper = Paper()
    axes = Axes(
        paper,
        plain_axis(title, 0, most),
        plain_axis("Tensile strength, N/mm²", 0, 1.1 * max(end[2] for end in ends), 6),
    )
    axes.area([(off, high) for off, _, high, _ in ends] + [(off, low) for off, low, _, _ in reversed(ends)])
    for off, low, high, temper in ends:
        axes.curve([(off, low), (off, high)], "drawn-bar")
        last = temper == ends[-1][3]
        place, anchor = ((34.0, -14.0), "end") if last else ((0.0, -12.0), "middle")
        axes.label(off, high, _SHORT.get(temper, temper), off=place, anchor=anchor)
    told = _marked(axes, reduction, drawn.figure("strength_from"), drawn.figure("strength_to"))
    alternative = (
        f"Tensile strength of {name} {form} against reduction by cold work. It rises from {cells[0]} "
        f"({cells[0].temper}) to {cells[-1]} ({cells[-1].temper}). "
        f"Marked: {reduction:.1f} % off, {drawn_temper(drawn)}, {told}."
    )
    rows = tuple((cell.temper, f"{off:.1f} %", str(cell)) for cell, (off, *_) in zip(cells, ends, strict=True))
    rows += (("here: " + drawn_temper(drawn), f"{reduction:.1f} %", told),)
    notes = ("Each bar is the range that a source gives for a temper; between tempers it is drawn straight.",)
    return Figure(
        paper.svg(alternative), f"Cold work and strength: {name}", alternative,
        ("Temper", "Reduction", "Tensile strength"), rows, notes,
    )  # fmt: skip


def _marked(axes: Axes, reduction: float, least: float | None, most: float | None) -> str:
    """Marks the strength here, in the middle of its range, and tells it."""
    if least is None:
        return "no strength is told at this reduction"
    middle = (least + (least if most is None else most)) / 2
    axes.guides(reduction, middle)
    axes.point(reduction, middle)
    return f"at least {least:.0f} N/mm²" if most is None else f"{least:.0f} to {most:.0f} N/mm²"


def _high(cell: Cell) -> float:
    return cell.low if cell.high is None else cell.high


def drawn_temper(drawn: Drawn) -> str:
    """The temper that came out, in words."""
    return str(drawn.result.value("temper").value)


def _numbers(drawn: Drawn) -> Figure:
    form, reduction, numbers = drawn.words["form"], drawn.figure("reduction") or 0.0, drawn.figure("numbers") or 0.0
    title, most = _across(drawn, form)
    far = max(10.0, numbers)
    paper = Paper()
    axes = Axes(paper, plain_axis(title, 0, most), plain_axis("Gauge numbers worked (B&S)", 0, far, 6))
    axes.curve([(_off(far * step / 60, form), far * step / 60) for step in range(61)])
    for temper, count in TEMPER_NUMBERS.items():
        axes.point(_off(count, form), count, "drawn-mark")
        # Early tempers are told below the curve, later ones above it; the corner needs no words.
        off, anchor = ((-14.0, -6.0), "end") if count > 3 else ((12.0, 20.0), "start")
        if count:
            axes.label(_off(count, form), count, temper, off=off, anchor=anchor)
    axes.guides(reduction, numbers)
    axes.point(reduction, numbers)
    alternative = (
        f"Gauge numbers worked against reduction of {form}: each number takes off less than the one before. The "
        f"tempers stand on the curve, half hard at {_off(2, form):.1f} %, hard at {_off(4, form):.1f} %, spring at "
        f"{_off(8, form):.1f} %. Marked: {reduction:.1f} % off, {drawn_temper(drawn)}."
    )
    rows = tuple((temper, str(count), f"{_off(count, form):.1f} %") for temper, count in TEMPER_NUMBERS.items())
    rows += (("here: " + drawn_temper(drawn), f"{numbers:.2f}", f"{reduction:.1f} %"),)
    return Figure(
        paper.svg(alternative), "Cold work and temper", alternative, ("Temper", "Gauge numbers", "Reduction"), rows
    )
