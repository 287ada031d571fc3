"""What the alloy table holds of one alloy, each figure with its source, gaps told as gaps."""

from __future__ import annotations

from collections.abc import Iterator

from archive.reckoners.metal.alloys import Alloy, Cell, alloys, alloys_with
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, words
from archive.reckoners.sources import source

_SINGLE = {"density": "density", "solidus": "solidus", "liquidus": "liquidus"}
_TABLED = {"strength": "strengths", "hardness": "hardnesses", "shear": "shear_strengths", "elongation": "elongations"}

_KINDS = {
    "mix": "nominal mixture",
    "composition": "limits of composition",
    "anneal": "annealing",
    "strength": "tensile strength",
    "shear": "shear strength",
}


def _cell_told(cell: Cell) -> str:
    place = " ".join(part for part in (cell.temper, cell.form if cell.form != "strip" else "") if part)
    return f"{place} {cell}".strip()


def _composition(alloy: Alloy) -> str:
    ranges = alloy.every("composition")
    nominal = ", ".join(f"{share:g} % {element}" for element, share in alloy.mix.items())
    limits = ", ".join(f"{cell.form} {cell}" for cell in ranges)
    return f"{nominal} (limits: {limits})" if nominal and limits else nominal or limits


def _work(given: Given) -> Worked:
    alloy = alloys()[given.word("alloy")]
    values: dict[str, float | str] = {"name": alloy.name, "composition": _composition(alloy)}
    for what, key in _SINGLE.items():
        if cell := alloy.first(what):
            values[key] = cell.low
    if window := alloy.first("anneal"):
        values |= {"anneal_from": window.low, "anneal_to": window.high or window.low}
    for what, key in _TABLED.items():
        if cells := alloy.every(what):
            values[key] = "; ".join(_cell_told(cell) for cell in cells)
    wanting = [what for what in (*_SINGLE, "anneal", *_TABLED) if not alloy.every(what)]
    told = (f"No source here gives its {', '.join(wanting)}: left as gaps.",) if wanting else ()
    steps = (f"The table holds {len(alloy.cells)} figures for {alloy.name}.", *_by_source(alloy), *told)
    return Worked(values, steps, _disagreements(alloy), sources=tuple(cell.source for cell in alloy.cells))


def _by_source(alloy: Alloy) -> Iterator[str]:
    """Which cells come from which source, a sentence each."""
    for key in dict.fromkeys(cell.source for cell in alloy.cells):
        cells = [cell for cell in alloy.cells if cell.source == key]
        kinds = ", ".join(dict.fromkeys(_kind_told(cell) for cell in cells))
        yield f"From {source(key)}: {kinds}."


def _kind_told(cell: Cell) -> str:
    place = " ".join(part for part in (cell.temper, cell.form if cell.form in ("wire", "rod") else "") if part)
    kind = _KINDS.get(cell.what, cell.what)
    return f"{kind} ({place})" if place else kind


def _disagreements(alloy: Alloy) -> tuple[str, ...]:
    """Where two sources give different figures, both are told."""
    told = []
    for what in _SINGLE:
        figures = [f"{cell} ({source(cell.source).title})" for cell in alloy.every(what)]
        if len(figures) > 1:
            told.append(f"Sources differ for the {what}: {' and '.join(figures)}.")
    return tuple(told)


ALLOY = Reckoner(
    name="metal/alloy",
    title="The alloy table",
    about="Composition, density, melting range, annealing and strength by temper, as far as a source gives them.",
    inputs=(
        choice(
            "alloy", "Alloy", alloys_with("mix") | alloys_with("density"), "An alloy of the table.", default="C22000"
        ),
    ),
    outputs=(
        words("name", "Name"),
        words("composition", "Composition by weight"),
        Output("density", "Density", "g/cm³", 2),
        Output("solidus", "Begins to melt (solidus)", "°C", 0),
        Output("liquidus", "Wholly molten (liquidus)", "°C", 0),
        Output("anneal_from", "Annealing from", "°C", 0),
        Output("anneal_to", "Annealing to", "°C", 0),
        words("strengths", "Tensile strength"),
        words("hardnesses", "Hardness"),
        words("shear_strengths", "Shear strength"),
        words("elongations", "Stretch before breaking"),
    ),
    formula="looked up, not worked out",
    work=_work,
    sources=("alloy-name",),
    good_for=("Strip, unless wire or rod is said: temper names of wire mean more work than those of strip.",),
)
