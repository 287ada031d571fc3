"""The pen the plan is drawn with: SVG shapes in the page's own colour."""

from __future__ import annotations

from dataclasses import dataclass, field


def number(value: float) -> str:
    return f"{value:.1f}".rstrip("0").rstrip(".")


@dataclass
class Pen:
    """Collects SVG shapes; every shape is a line drawing in the page's own colour."""

    marks: list[str] = field(default_factory=list)

    def _add(self, shape: str, width: float, dash: str = "", fill: bool = False) -> None:
        dashes = f' stroke-dasharray="{dash}"' if dash else ""
        filling = ' fill="currentColor"' if fill else ""
        self.marks.append(f'<{shape} stroke-width="{number(width)}"{dashes}{filling}/>')

    def rect(self, x: float, y: float, w: float, h: float, *, r: float = 0, width: float = 3, dash: str = "") -> None:
        corner = f' rx="{number(r)}"' if r else ""
        self._add(f'rect x="{number(x)}" y="{number(y)}" width="{number(w)}" height="{number(h)}"{corner}', width, dash)

    def circle(self, x: float, y: float, r: float, *, width: float = 3, dash: str = "", fill: bool = False) -> None:
        self._add(f'circle cx="{number(x)}" cy="{number(y)}" r="{number(r)}"', width, dash, fill)

    def line(self, x1: float, y1: float, x2: float, y2: float, *, width: float = 2, dash: str = "") -> None:
        self._add(f'line x1="{number(x1)}" y1="{number(y1)}" x2="{number(x2)}" y2="{number(y2)}"', width, dash)

    def path(self, d: str, *, width: float = 3, dash: str = "") -> None:
        self._add(f'path d="{d}"', width, dash)

    def ticks(self, x: float, y: float, w: float, h: float, count: int, *, width: float = 1.5) -> None:
        """Short lines across a strip: teeth, treads or boards."""
        for n in range(1, count):
            if w >= h:
                self.line(x + w * n / count, y, x + w * n / count, y + h, width=width)
            else:
                self.line(x, y + h * n / count, x + w, y + h * n / count, width=width)
