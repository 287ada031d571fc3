"""A sheet to draw on: shapes and words as SVG, told by class alone, so that colours follow the page and the printer."""

from __future__ import annotations

from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

# In a figure 1000 px wide, as on a kiosk, letters are some 33 px high: readable at three metres.
LETTERS = 24
Place = tuple[float, float]


def told(number: float) -> str:
    """A number in a drawing, short."""
    return f"{number:.1f}".removesuffix(".0")


class Paper:
    """An SVG drawing in the making."""

    def __init__(self, width: float = 720, height: float = 540) -> None:
        self.width, self.height = width, height
        self._parts: list[str] = []

    def line(self, start: Place, end: Place, kind: str) -> None:
        """A straight line."""
        (x1, y1), (x2, y2) = start, end
        self._parts.append(f'<line class="{kind}" x1="{told(x1)}" y1="{told(y1)}" x2="{told(x2)}" y2="{told(y2)}"/>')

    def path(self, points: Iterable[Place], kind: str, *, closed: bool = False) -> None:
        """A line through points, or a closed shape."""
        places = " ".join(f"{told(x)},{told(y)}" for x, y in points)
        self._parts.append(f'<path class="{kind}" d="M{places}{"Z" if closed else ""}"/>')

    def circle(self, middle: Place, radius: float, kind: str) -> None:
        """A circle."""
        self._parts.append(f'<circle class="{kind}" cx="{told(middle[0])}" cy="{told(middle[1])}" r="{told(radius)}"/>')

    def box(self, corner: Place, width: float, height: float, kind: str, fill: str = "") -> None:
        """An upright box; `fill` is for a colour that is itself what is shown."""
        filled = f' fill="{fill}"' if fill else ""
        x, y = corner
        self._parts.append(
            f'<rect class="{kind}"{filled} x="{told(x)}" y="{told(y)}" width="{told(width)}" height="{told(height)}"/>'
        )

    def words(
        self, place: Place, text: str, kind: str = "drawn-words", *, anchor: str = "middle", letters: float = LETTERS
    ) -> None:
        """Words at a place."""
        x, y = place
        self._parts.append(
            f'<text class="{kind}" x="{told(x)}" y="{told(y)}" text-anchor="{anchor}" font-size="{told(letters)}">'
            f"{escape(text)}</text>"
        )

    def upright(self, place: Place, text: str, kind: str = "drawn-title") -> None:
        """Words that run up the page, for the axis at the side."""
        x, y = place
        self._parts.append(
            f'<text class="{kind}" transform="translate({told(x)} {told(y)}) rotate(-90)" text-anchor="middle" '
            f'font-size="{LETTERS}">{escape(text)}</text>'
        )

    def raw(self, markup: str) -> None:
        """Markup made elsewhere from numbers alone."""
        self._parts.append(markup)

    def svg(self, alternative: str) -> str:
        """The whole drawing, with its words for those who do not see it."""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="drawn" viewBox="0 0 {told(self.width)} '
            f'{told(self.height)}" role="img" aria-label={quoteattr(alternative)}>{"".join(self._parts)}</svg>'
        )
