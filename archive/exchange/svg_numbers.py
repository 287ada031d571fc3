"""Numbers, transforms and paths of SVG, worked out to points.

Source: W3C SVG 1.1 (second edition): section 7.6 (transform lists), 8.3 (path data), appendix F.6 (elliptical arcs).
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Sequence

Point = tuple[float, float]
Matrix = tuple[float, float, float, float, float, float]

UNMOVED: Matrix = (1, 0, 0, 1, 0, 0)
FARTHEST = 1e7
MOST_POINTS = 20_000
# A curve becomes this many straight pieces; a quarter circle is then within a thousandth of its radius.
PIECES = 16

_NUMBER = r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?"
_NUMBERS = re.compile(_NUMBER)
_LIST = re.compile(rf"\s*(?:{_NUMBER}(?:\s*,\s*|\s+|(?=[+-.]))?)*\s*")
_LENGTH = re.compile(rf"({_NUMBER})(?:px)?")
_TRANSFORM = re.compile(r"[\s,]*([A-Za-z]+)\s*\(([^()]*)\)[\s,]*")
_COMMAND = re.compile(r"\s*([MmLlHhVvCcSsQqTtAaZz])([^A-Za-z]*(?:[eE][^A-Za-z]+)*)")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}


def numbers(text: str) -> list[float]:
    """The numbers of a list; raises ValueError for anything else in it, and for what no drawing holds."""
    rest = _NUMBERS.sub(" ", text)
    if rest.strip(" \t\r\n,"):
        raise ValueError(f"'{text[:40]}' is no list of numbers")
    found = [float(number) for number in _NUMBERS.findall(text)]
    if len(found) > 2 * MOST_POINTS or any(not abs(number) <= FARTHEST for number in found):
        raise ValueError("numbers that no drawing needs")
    return found


def length(text: str) -> float:
    """A length in user units; raises ValueError for any other unit."""
    match = _LENGTH.fullmatch(text.strip())
    if not match:
        raise ValueError(f"'{text[:40]}' is no length in the drawing's own units")
    return numbers(match[1])[0]


def pairs(values: Sequence[float]) -> list[Point]:
    """Numbers two by two; raises ValueError for an odd one."""
    if len(values) % 2:
        raise ValueError("a point without its second number")
    return list(zip(values[::2], values[1::2], strict=True))


def moved(point: Point, matrix: Matrix) -> Point:
    """Where a transform puts a point."""
    a, b, c, d, e, f = matrix
    return a * point[0] + c * point[1] + e, b * point[0] + d * point[1] + f


def joined(outer: Matrix, inner: Matrix) -> Matrix:
    """The transform that does the inner one first."""
    a, b, c, d, e, f = outer
    g, h, i, j, k, m = inner
    return a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * m + e, b * k + d * m + f


def transform(text: str) -> Matrix:
    """The one matrix of a transform list; raises ValueError."""
    matrix, place = UNMOVED, 0
    while place < len(text):
        match = _TRANSFORM.match(text, place)
        if not match:
            raise ValueError(f"'{text[:40]}' is no transform")
        matrix = joined(matrix, _one_transform(match[1], numbers(match[2])))
        place = match.end()
    return matrix


def _one_transform(name: str, values: list[float]) -> Matrix:
    match name, values:
        case "matrix", [a, b, c, d, e, f]:
            return a, b, c, d, e, f
        case "translate", [x, *y] if len(y) <= 1:
            return 1, 0, 0, 1, x, y[0] if y else 0
        case "scale", [x, *y] if len(y) <= 1:
            return x, 0, 0, y[0] if y else x, 0, 0
        case "rotate", [degrees]:
            turn = math.radians(degrees)
            return math.cos(turn), math.sin(turn), -math.sin(turn), math.cos(turn), 0, 0
        case "rotate", [degrees, x, y]:
            about = joined((1, 0, 0, 1, x, y), _one_transform("rotate", [degrees]))
            return joined(about, (1, 0, 0, 1, -x, -y))
        case "skewX", [degrees]:
            return 1, 0, math.tan(math.radians(degrees)), 1, 0, 0
        case "skewY", [degrees]:
            return 1, math.tan(math.radians(degrees)), 0, 1, 0, 0
    raise ValueError(f"'{name}' with {len(values)} numbers is no transform")


def path_points(data: str) -> list[list[Point]]:
    """The pieces of a path, each from one M to the next, curves made straight; raises ValueError."""
    pen = _Pen()
    for letter, values in _steps(data):
        pen.draw(letter, values)
    if not pen.lines:
        raise ValueError("an empty path")
    return pen.lines


def _steps(data: str) -> Iterator[tuple[str, list[float]]]:
    place = 0
    data = data.rstrip()
    while place < len(data):
        match = _COMMAND.match(data, place)
        if not match:
            raise ValueError(f"'{data[place : place + 20]}' in a path")
        place = match.end()
        yield from _repeated(match[1], _arguments(match[1], match[2]))


def _arguments(letter: str, text: str) -> list[float]:
    if letter not in "Aa":
        return numbers(text)
    # The two flags of an arc may stand without anything between them and what follows: a1 1 0 00.5.5
    spread = re.sub(
        rf"({_NUMBER}[\s,]*{_NUMBER}[\s,]+{_NUMBER}[\s,]+)([01])[\s,]*([01])[\s,]*", r"\1\2 \3 ", text.strip()
    )
    return numbers(spread)


def _repeated(letter: str, values: list[float]) -> Iterator[tuple[str, list[float]]]:
    """A command's numbers in sets; after an M, further sets are lines."""
    takes = _TAKES[letter.upper()]
    if (takes == 0 and values) or (takes and (not values or len(values) % takes)):
        raise ValueError(f"{letter} in a path has {len(values)} numbers")
    if takes == 0:
        yield letter, []
    for start in range(0, len(values), takes or 1):
        yield letter, values[start : start + takes]
        letter = {"M": "L", "m": "l"}.get(letter, letter)


class _Pen:
    """Where the pen is, where its piece began, and the last control point for the smooth curves."""

    def __init__(self) -> None:
        self.lines: list[list[Point]] = []
        self.at: Point = (0.0, 0.0)
        self.began: Point = (0.0, 0.0)
        self.control: Point | None = None
        self.control_of = ""
        self.count = 0

    def draw(self, letter: str, values: list[float]) -> None:
        """Carry out one command."""
        name = letter.upper()
        if name != "M" and not self.lines:
            raise ValueError("a path that does not begin with M")
        if name == "M":
            self.at = self.began = self._points(letter, values)[0]
            self.lines.append([self.at])
        elif name == "Z":
            self._go([self.began])
        elif name in "HV":
            self._go([self._along(letter, values[0])])
        elif name == "A":
            end = self._points(letter, values[5:])[0]
            self._go(list(arc(self.at, end, values[0], values[1], values[2], bool(values[3]), bool(values[4]))))
        else:
            self._curve(name, self._points(letter, values))
        if name not in "CSQT":
            self.control = None

    def _points(self, letter: str, values: list[float]) -> list[Point]:
        x, y = self.at if letter.islower() else (0.0, 0.0)
        return [(x + dx, y + dy) for dx, dy in pairs(values)]

    def _along(self, letter: str, value: float) -> Point:
        x, y = self.at
        if letter in "Hh":
            return (x + value if letter == "h" else value, y)
        return (x, y + value if letter == "v" else value)

    def _curve(self, name: str, points: list[Point]) -> None:
        if name == "L":
            self._go(points)
            return
        family = "C" if name in "CS" else "Q"
        if name in "ST":
            reflected = self.at
            if self.control is not None and self.control_of == family:
                reflected = (2 * self.at[0] - self.control[0], 2 * self.at[1] - self.control[1])
            points = [reflected, *points]
        self.control, self.control_of = points[-2], family
        knots = [self.at, *points]
        self._go([_bezier(knots, step / PIECES) for step in range(1, PIECES + 1)])

    def _go(self, points: list[Point]) -> None:
        self.count += len(points)
        if self.count > MOST_POINTS:
            raise ValueError("a path of too many points")
        self.lines[-1].extend(points)
        self.at = points[-1] if points else self.at


def _bezier(knots: Sequence[Point], share: float) -> Point:
    """De Casteljau's construction."""
    while len(knots) > 1:
        knots = [
            (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share) for a, b in zip(knots, knots[1:], strict=False)
        ]
    return knots[0]


def arc(start: Point, end: Point, rx: float, ry: float, degrees: float, large: bool, sweep: bool) -> list[Point]:
    """Points of an elliptical arc after its start (F.6.5 and, for radii that are too small, F.6.6)."""
    rx, ry = abs(rx), abs(ry)
    if start == end:
        return []
    if rx == 0 or ry == 0:
        return [end]
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    half_x, half_y = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    x, y = cos * half_x + sin * half_y, -sin * half_x + cos * half_y
    grow = math.sqrt(max(1.0, (x / rx) ** 2 + (y / ry) ** 2))
    rx, ry = rx * grow, ry * grow
    below = (rx * y) ** 2 + (ry * x) ** 2
    root = math.sqrt(max(0.0, ((rx * ry) ** 2 - below) / below)) * (-1 if large == sweep else 1)
    cx, cy = root * rx * y / ry, -root * ry * x / rx
    first = math.atan2((y - cy) / ry, (x - cx) / rx)
    turn = math.atan2((-y - cy) / ry, (-x - cx) / rx) - first
    if sweep and turn < 0:
        turn += 2 * math.pi
    elif not sweep and turn > 0:
        turn -= 2 * math.pi
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    place: Callable[[float], Point] = lambda angle: (  # noqa: E731
        cos * (rx * math.cos(angle) + cx) - sin * (ry * math.sin(angle) + cy) + middle[0],
        sin * (rx * math.cos(angle) + cx) + cos * (ry * math.sin(angle) + cy) + middle[1],
    )
    steps = 2 * PIECES
    return [place(first + turn * step / steps) for step in range(1, steps)] + [end]
