"""The layout of blanks on a sheet, drawn to scale; of very many blanks only a corner of the sheet."""

from __future__ import annotations

import zlib
from itertools import islice

from archive.reckoners.figures.figure import Drawn, Figure
from archive.reckoners.figures.paper import Paper, told
from archive.reckoners.press.layouts import Layout, Place, Sheet, lay_out
from archive.reckoners.press.outlines import Outline, outline_written

MOST_DRAWN = 600
_MARGIN, _WIDTH, _UNDER = 12.0, 800.0, 48.0
_FINEST_MM = 0.01


def sheet_layout(drawn: Drawn) -> Figure | None:
    """The best layout found; a corner with some hundreds of blanks if there are more than can be seen."""
    outline = outline_written(drawn.words["outline"], "outline")
    numbers, bridge, edge = drawn.numbers, drawn.figure("bridge_kept"), drawn.figure("edge_kept")
    found = lay_out(outline, Sheet(numbers["length"], numbers["width"], bridge or 0.0, edge or 0.0))
    if found is None:
        return None
    best = found.best
    share = min(1.0, (MOST_DRAWN / best.count) ** 0.5)
    shown_mm = (best.sheet.length_mm * share, best.sheet.width_mm * share)
    paper = _drawing(best, outline, shown_mm)
    part = "" if share == 1 else f" Drawn is one corner, {shown_mm[0]:.0f} × {shown_mm[1]:.0f} mm."
    used = drawn.figure("used") or 0.0
    alternative = (
        f"{best.count:,} blanks ({outline.name}) on a sheet of {best.sheet.length_mm:g} × {best.sheet.width_mm:g} mm, "
        f"{best.pattern.arrangement}, {best.rows} rows, using {used:.1f} % of it.{part}"
    )
    rows = tuple((kind, f"{one.count:,}") for kind, one in found.by_arrangement.items())
    rows += (("best", f"{best.count:,}"), ("used", f"{used:.1f} %"))
    return Figure(
        paper.svg(alternative), "Blanks on the sheet", alternative, ("Laid", "Blanks"), rows,
        (part.strip(),) if part else (),
    )  # fmt: skip


def _drawing(layout: Layout, outline: Outline, shown_mm: tuple[float, float]) -> Paper:
    scale = (_WIDTH - 2 * _MARGIN) / shown_mm[0]
    high = shown_mm[1] * scale
    paper = Paper(_WIDTH, high + 2 * _MARGIN + _UNDER)
    paper.box((_MARGIN, _MARGIN), shown_mm[0] * scale, high, "drawn-sheet")
    key = f"{zlib.crc32(repr((outline.corners, layout.sheet)).encode()):08x}"
    paper.raw(_shape(outline, scale, key))
    paper.raw(
        f'<svg x="{told(_MARGIN)}" y="{told(_MARGIN)}" width="{told(shown_mm[0] * scale)}" height="{told(high)}">'
    )
    near = (place for place in layout.places() if place.x_mm <= shown_mm[0] * 1.1 and place.y_mm <= shown_mm[1] * 1.1)
    for place in islice(near, 2 * MOST_DRAWN):
        paper.raw(f'<use href="#{key}" transform="{_moved(place, scale)}"/>')
    paper.raw("</svg>")
    _scale_bar(paper, scale, shown_mm[0])
    return paper


def _shape(outline: Outline, scale: float, key: str) -> str:
    """One blank, to be laid again and again; about its own 0,0."""
    if outline.is_circle:
        radius = max(x for x, _ in outline.corners) * scale
        shape = f'<circle id="blank-{key}" class="drawn-blank" r="{radius:.2f}"/>'
    else:
        corners = outline.polygon.simplify(_FINEST_MM).exterior.coords[:-1]
        places = " ".join(f"{x * scale:.2f},{y * scale:.2f}" for x, y in corners)
        shape = f'<path id="blank-{key}" class="drawn-blank" d="M{places}Z"/>'
    return f"<defs>{shape}</defs>".replace(f"blank-{key}", key)


def _moved(place: Place, scale: float) -> str:
    turned = f" rotate({place.angle_deg:.2f})" if place.angle_deg else ""
    return f"translate({place.x_mm * scale:.2f} {place.y_mm * scale:.2f}){turned}"


def _scale_bar(paper: Paper, scale: float, wide_mm: float) -> None:
    """A bar of a round length under the sheet."""
    length = next(one for one in (500, 200, 100, 50, 20, 10, 5, 2, 1, 0.5) if one <= wide_mm / 3)
    y = paper.height - 18
    paper.line((_MARGIN, y), (_MARGIN + length * scale, y), "drawn-axis")
    for x in (_MARGIN, _MARGIN + length * scale):
        paper.line((x, y - 8), (x, y), "drawn-axis")
    paper.words((_MARGIN + length * scale + 14, y + 4), f"{length:g} mm", "drawn-tick", anchor="start")
