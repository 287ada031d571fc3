"""A floor's drawing as clean SVG, and the shapes in it by their ids.

What could run, load or hide something is refused; what a drawing program leaves for itself is taken out. The clean
text holds only shapes, groups, words and the attributes that paint them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any
from xml.etree.ElementTree import Element, ParseError, TreeBuilder
from xml.sax.saxutils import escape, quoteattr

from defusedxml import DefusedXmlException
from defusedxml.ElementTree import DefusedXMLParser

from archive.exchange import svg_footprint, svg_shapes
from archive.exchange.faults import FaultList, Place, shown
from archive.exchange.svg_numbers import UNMOVED, Matrix, Point, joined, numbers, transform

SVG = "{http://www.w3.org/2000/svg}"
DEEPEST, MOST_ELEMENTS = 40, 50_000
SHAPES = {"rect", "circle", "ellipse", "line", "polyline", "polygon", "path"}
KEPT = SHAPES | {"svg", "g", "title", "desc", "text", "tspan"}
# Left by drawing programs, and shows nothing by itself.
DROPPED = {"defs", "metadata", "namedview"}
_PAINT = {
    "fill",
    "fill-opacity",
    "fill-rule",
    "stroke",
    "stroke-width",
    "stroke-opacity",
    "stroke-linecap",
    "stroke-linejoin",
    "stroke-miterlimit",
    "stroke-dasharray",
    "stroke-dashoffset",
    "opacity",
    "visibility",
    "display",
    "vector-effect",
    "paint-order",
    "font-family",
    "font-size",
    "font-weight",
    "font-style",
    "text-anchor",
    "dominant-baseline",
    "letter-spacing",
    "color",
}
_GEOMETRY = {
    "x",
    "y",
    "x1",
    "y1",
    "x2",
    "y2",
    "cx",
    "cy",
    "r",
    "rx",
    "ry",
    "d",
    "points",
    "width",
    "height",
    "transform",
    "dx",
    "dy",
    "rotate",
}
_ROOT = {"viewBox", "preserveAspectRatio"}
_SAFE_VALUE = re.compile(r"[A-Za-z0-9#%(),.+\-\s_'\"]*")
_ID = re.compile(r"[A-Za-z_][A-Za-z0-9_.:-]{0,119}")
_XML_SPACE = "{http://www.w3.org/XML/1998/namespace}"
PLAIN_ALLOWED = "A plan holds shapes, groups and words alone; save it as plain SVG"


NO_DOCTYPE = f"Take the DOCTYPE out. {PLAIN_ALLOWED}"
_ELSEWHERE = re.compile(r"javascript:|(?:^|[^a-z])data:|url\((?!#)")


@dataclass(frozen=True)
class Drawing:
    """The clean text and each element that has an id, with the transform that it stands under."""

    svg: str
    elements: dict[str, tuple[Element, Matrix]] = field(repr=False)

    def outline(self, element: str) -> list[Point]:
        """The one outline of a shape in user units; KeyError for no such id, ValueError for no outline."""
        return svg_shapes.outline(*self.elements[element])

    def footprint(self, element: str, thickness: float) -> list[Point]:
        """What a shape, group or line covers of the floor; KeyError for no such id, ValueError for no shape."""
        return svg_footprint.footprint(*self.elements[element], thickness)

    def centre(self, element: str) -> Point:
        """The middle of a shape or group; KeyError for no such id, ValueError for no shape."""
        return svg_shapes.centre(*self.elements[element])


class _Builder(TreeBuilder):
    """Builds the tree and writes down the line of each element."""

    def __init__(self) -> None:
        super().__init__()
        self.lines: dict[int, int] = {}
        self.parser: Any = None
        self.depth = 0

    def start(self, tag: Any, attrs: Any, /) -> Element:
        self.depth += 1
        if self.depth > DEEPEST:
            raise ValueError(f"groups nest deeper than {DEEPEST}")
        if len(self.lines) > MOST_ELEMENTS:
            raise ValueError(f"it has more than {MOST_ELEMENTS} elements")
        element = super().start(tag, attrs)
        self.lines[id(element)] = self.parser.CurrentLineNumber
        return element

    def end(self, tag: Any, /) -> Element:
        self.depth -= 1
        return super().end(tag)


def parse_drawing(text: str, where: str, faults: FaultList) -> Drawing | None:
    """The drawing of a plan; None, with faults, if there is anything that may not be in one."""
    builder = _Builder()
    parser = DefusedXMLParser(target=builder, forbid_dtd=True)
    builder.parser = parser.parser
    before = len(faults.faults)
    try:
        parser.feed(text)
        root = parser.close()
    except DefusedXmlException:
        line = parser.parser.CurrentLineNumber
        faults.add(
            Place(where, line), "it declares a document type or entities", f"Take the DOCTYPE out. {PLAIN_ALLOWED}"
        )
        return None
    except ParseError as problem:
        faults.add(Place(where, problem.position[0]), f"it is not XML: {shown(str(problem))}", "Save it as SVG again")
        return None
    except (ValueError, LookupError) as problem:
        faults.add(Place(where, parser.parser.CurrentLineNumber), shown(str(problem)), PLAIN_ALLOWED)
        return None
    _check_root(root, where, faults)
    cleaner = _Cleaner(builder.lines, where, faults)
    svg = "".join(cleaner.written(root, UNMOVED, 0))
    return Drawing(svg, cleaner.elements) if len(faults.faults) == before else None


def _check_root(root: Element, where: str, faults: FaultList) -> None:
    if root.tag != SVG + "svg":
        faults.add(Place(where, 1), f"its first element is {shown(root.tag)}", "It must be svg, of the SVG namespace")
        return
    try:
        x, y, width, height = numbers(root.get("viewBox", ""))
        good = width > 0 and height > 0 and root.get("transform") is None
    except ValueError:
        good = False
    if not good:
        faults.add(Place(where, 1), "it has no good viewBox", 'Write viewBox="0 0 width height" and no transform there')


@dataclass
class _Cleaner:
    """Writes the clean text and gathers ids."""

    lines: dict[int, int]
    where: str
    faults: FaultList
    elements: dict[str, tuple[Element, Matrix]] = field(default_factory=dict)

    def written(self, element: Element, outer: Matrix, depth: int) -> Iterator[str]:
        """The pieces of an element's clean text."""
        tag = element.tag.removeprefix(SVG) if isinstance(element.tag, str) else ""
        if tag in DROPPED or "}" in tag:
            self._look_inside(element)
            return
        if tag not in KEPT or (tag == "svg" and depth):
            self._refuse(element, f"the element {shown(tag)}")
            return
        matrix = joined(outer, self._transform(element))
        attributes = self._attributes(element, tag)
        self._gather(element, matrix)
        yield "\n" * bool(depth) + f"<{tag}" + ' xmlns="http://www.w3.org/2000/svg"' * (depth == 0)
        yield "".join(f" {name}={quoteattr(value)}" for name, value in attributes.items())
        inside = [_words(element.text, tag)]
        for child in element:
            inside += [*self.written(child, matrix, depth + 1), _words(child.tail, tag)]
        content = "".join(inside)
        yield f">{content}</{tag}>" if content else "/>"

    def _gather(self, element: Element, matrix: Matrix) -> None:
        name = element.get("id", "")
        if name in self.elements:
            self._refuse(element, f"the id {shown(name)} stands twice")
        if _ID.fullmatch(name):
            self.elements[name] = element, matrix

    def _transform(self, element: Element) -> Matrix:
        try:
            return transform(element.get("transform", ""))
        except ValueError as problem:
            self._refuse(element, f"the transform {shown(element.get('transform', ''))}: {problem}")
            return UNMOVED

    def _attributes(self, element: Element, tag: str) -> dict[str, str]:
        kept: dict[str, str] = {}
        for name, value in (*element.attrib.items(), *self._styles(element)):
            self._check(element, name, value)
            allowed = name in _PAINT or name in _GEOMETRY or (tag == "svg" and name in _ROOT)
            if tag == "svg" and name in ("x", "y", "width", "height"):
                continue
            if (allowed and _SAFE_VALUE.fullmatch(value)) and "url" not in value.lower():
                kept[name] = " ".join(value.split())
            elif name == "id" and _ID.fullmatch(value):
                kept[name] = value
        return kept

    def _styles(self, element: Element) -> Iterator[tuple[str, str]]:
        """What a style attribute paints, as attributes; it wins over them, as in SVG."""
        for part in element.get("style", "").split(";"):
            name, _, value = part.partition(":")
            if name.strip() in _PAINT:
                yield name.strip(), value.strip()

    def _check(self, element: Element, name: str, value: str) -> None:
        plain = name.rpartition("}")[2].lower()
        folded = "".join(value.lower().split())
        if plain.startswith("on"):
            self._refuse(element, f"the attribute {shown(plain)}, which runs something")
        elif (
            plain in ("href", "src")
            or "javascript:" in folded
            or "data:" in folded
            or ("url(" in folded and "url(#" not in folded)
        ):
            self._refuse(element, f"the attribute {shown(plain)}, which leads elsewhere")
        elif "@import" in folded or "expression(" in folded:
            self._refuse(element, f"the attribute {shown(plain)}, which may run something")

    def _look_inside(self, element: Element) -> None:
        """What is taken out is still not allowed to hold what is refused: it may be there for no good."""
        for inner in element.iter():
            tag = str(inner.tag).rpartition("}")[2].lower()
            if tag in ("script", "foreignobject", "iframe", "image", "animate", "set", "handler"):
                self._refuse(inner, f"the element {shown(tag)}")

    def _refuse(self, element: Element, found: str) -> None:
        self.faults.add(Place(self.where, self.lines.get(id(element), 0)), found, PLAIN_ALLOWED)


def _words(text: str | None, tag: str) -> str:
    """Words where words are shown; elsewhere white space is only layout."""
    return escape(text or "") if tag in ("title", "desc", "text", "tspan") else ""
