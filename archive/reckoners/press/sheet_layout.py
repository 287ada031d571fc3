"""How many blanks of any outline a sheet gives, how they are best laid, and what the skeleton is worth."""

from __future__ import annotations

from archive.errors import OutOfRange
from archive.reckoners.press.layouts import Found, Layout, Sheet, lay_out
from archive.reckoners.press.outlines import Outline, outline_written
from archive.reckoners.press.patterns import HEAD_TO_TAIL, ROWS, STAGGERED
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number, refuse, text, words

MOST_BLANKS = 500_000
_COUNT_KEYS = {ROWS: "in_rows", STAGGERED: "staggered", HEAD_TO_TAIL: "head_to_tail"}


def bridge_mm(thickness_mm: float) -> float:
    """Metal left between blanks: 0.8 mm up to that thickness, the thickness to 3.2 mm, then 3.2 mm.

    Source: P. C. Sharma, Production Engineering (from memory).
    """
    return min(max(thickness_mm, 0.8), 3.2)


def edge_mm(thickness_mm: float, height_mm: float) -> float:
    """Metal left at the edges: t + 0.015 h, h the breadth of the blank. Source: Sharma (from memory)."""
    return thickness_mm + 0.015 * height_mm


def single_row_used(across_mm: float, bridge: float, edge: float) -> float:
    """Share of a strip that becomes round blanks in one row: (pi / 4) d^2 / ((d + b) (d + 2 a)). From memory."""
    return 0.7853981633974483 * across_mm**2 / ((across_mm + bridge) * (across_mm + 2 * edge))


def _sheet(given: Given, outline: Outline) -> Sheet:
    """The sheet with its bridge and edge; what is not given follows the rule for the thickness."""
    thickness, bridge, edge = given.number("thickness"), given.maybe("bridge"), given.maybe("edge")
    low_x, low_y, high_x, high_y = outline.polygon.bounds
    breadth = min(high_x - low_x, high_y - low_y)
    sheet = Sheet(
        given.number("length"),
        given.number("width"),
        bridge_mm(thickness) if bridge is None else bridge,
        edge_mm(thickness, breadth) if edge is None else edge,
    )
    if sheet.length_mm * sheet.width_mm > MOST_BLANKS * outline.area_mm2:
        raise OutOfRange(f"This would be more than {MOST_BLANKS:,} blanks. Give a smaller sheet or a larger blank.")
    return sheet


def _work(given: Given) -> Worked:
    outline = outline_written(given.word("outline"), "outline")
    sheet = _sheet(given, outline)
    found = lay_out(outline, sheet)
    if found is None:
        size = f"{sheet.length_mm:g} × {sheet.width_mm:g} mm with {sheet.edge_mm:.2f} mm kept at the edges"
        raise refuse("outline", f"Not one {outline.name} fits a sheet of {size}", "Give a larger sheet")
    best = found.best
    values: dict[str, float | str] = {
        "pieces": float(best.count), "arrangement": best.pattern.arrangement, "angle": best.pattern.angle_deg,
        "rows": float(best.rows), "way": "across the sheet" if best.across else "along the sheet",
        "bridge_kept": sheet.bridge_mm, "edge_kept": sheet.edge_mm,
        "closest": 100 * outline.area_mm2 / found.closest.area_each_mm2,
    }  # fmt: skip
    values |= {_COUNT_KEYS[kind]: float(one.count) for kind, one in found.by_arrangement.items()}
    weights = _weights(given, outline, best)
    steps = (*_steps(outline, found, sheet), *_weight_steps(given, weights))
    used = weights["used"]
    compare = f"Of every 100 g of sheet, {used:.0f} g leaves as blanks and {100 - used:.0f} g goes back to the melt."
    return Worked(values | weights, steps, _warnings(outline, sheet), compare)


def _weights(given: Given, outline: Outline, best: Layout) -> dict[str, float]:
    """Shares, weights and worth."""
    whole_mm2 = best.sheet.length_mm * best.sheet.width_mm
    grams_each_mm2 = given.number("thickness") * given.number("density") / 1000
    scrap_kg = (whole_mm2 - best.count * outline.area_mm2) * grams_each_mm2 / 1000
    price = given.maybe("price")
    return {
        "used": 100 * best.count * outline.area_mm2 / whole_mm2,
        "blank_weight": outline.area_mm2 * grams_each_mm2,
        "scrap_weight": scrap_kg * 1000,
    } | ({} if price is None else {"scrap_worth": scrap_kg * price})


def _steps(outline: Outline, found: Found, sheet: Sheet) -> tuple[str, ...]:
    best = found.best
    pattern = best.pattern
    lift = ", ".join(f"{row.up:.2f}" for row in pattern.rows)
    tried = "; ".join(f"{kind} {one.count:,}" for kind, one in found.by_arrangement.items())
    return (
        f"One {outline.name} is {outline.area_mm2:.2f} mm².",
        f"Bridge {sheet.bridge_mm:.2f} mm, edge {sheet.edge_mm:.2f} mm.",
        f"Best of the angles and ways tried: {tried}.",
        f"Laid at {pattern.angle_deg:.1f}°: pitch {pattern.pitch_mm:.2f} mm, rows {lift} mm apart, {best.rows} rows.",
    )


def _weight_steps(given: Given, weights: dict[str, float]) -> tuple[str, ...]:
    told = [f"Used {weights['used']:.1f} %; skeleton and edges {weights['scrap_weight']:,.0f} g."]
    if "scrap_worth" in weights:
        kilos, price = weights["scrap_weight"] / 1000, given.number("price")
        told.append(f"{kilos:.3f} kg × £{price:.2f} a kilogram = £{weights['scrap_worth']:.2f}.")
    return tuple(told)


def _warnings(outline: Outline, sheet: Sheet) -> tuple[str, ...]:
    told = []
    if not outline.is_convex:
        told.append("This outline bends inwards: blanks are slid together, never hooked into closed pockets.")
    if sheet.bridge_mm == 0:
        told.append("With no bridge the blanks touch. A press needs some metal between them.")
    return tuple(told)


SHEET_LAYOUT = Reckoner(
    name="press/sheet-layout",
    title="Blanks from a sheet",
    about="How many blanks of any outline a sheet gives, the best way to lay them, and the metal left over.",
    inputs=(
        text("outline", "Outline of the blank",
             "circle 18 mm, rectangle 30 x 20 mm, hexagon 12 mm (its side), polygon 0,0 20,0 10,15 mm, "
             "or an SVG path of one closed line.", default="circle 18 mm"),
        number("length", "Length of the sheet", "mm", 5, 5000, "The longer side.", default="1200 mm"),
        number("width", "Width of the sheet", "mm", 5, 3000, "The shorter side, or the width of a strip.",
               default="600 mm"),
        number("thickness", "Thickness", "mm", 0.05, 10, "Such as 0.9 mm or 20 SWG.", default="0.9 mm"),
        number("bridge", "Bridge", "mm", 0, 50, "Metal left between blanks; by a rule for the thickness if left out.",
               optional=True),
        number("edge", "Edge", "mm", 0, 100, "Metal left at the edges; by a rule for the thickness if left out.",
               optional=True),
        number("density", "Density", "g/cm³", 1, 25, "8.80 for gilding metal, 8.53 for cartridge brass.",
               default="8.80"),
        number("price", "Price of scrap", "£", 0, 1e6, "What a kilogram of this scrap brings, in pounds.",
               optional=True),
    ),
    outputs=(
        Output("pieces", "Blanks from the sheet", "pieces", 0),
        words("arrangement", "Laid"),
        words("way", "Rows run"),
        Output("angle", "Outline turned by", "°", 1),
        Output("rows", "Rows", "rows", 0),
        Output("in_rows", "Blanks in straight rows", "pieces", 0),
        Output("staggered", "Blanks in staggered rows", "pieces", 0),
        Output("head_to_tail", "Blanks head to tail", "pieces", 0),
        Output("used", "Share of the sheet used", "%", 1),
        Output("closest", "Share used on an endless sheet, laid closest", "%", 2),
        Output("blank_weight", "Weight of a blank", "g", 2),
        Output("scrap_weight", "Weight of skeleton and edges", "g", 0),
        Output("scrap_worth", "Worth of it", "£", 2),
        Output("bridge_kept", "Bridge", "mm", 2),
        Output("edge_kept", "Edge", "mm", 2),
    ),
    formula="used = blanks × area of a blank / (length × width); rows as close as the bridge allows",
    work=_work,
    sources=("sharma", "packing-circles", "packing-pentagons", "packing-kuperberg"),
    good_for=(
        "One size of blank, in rows that all repeat. A layout by hand may still gain a blank in a corner.",
        "Curves are cut into short straight pieces, and angles are sought in steps: it finds a good layout, and proves "
        "none best.",
    ),
    most_about=2,
)  # fmt: skip
