"""Reads an SVG path of one closed line into points, curves cut into short straight pieces."""

from __future__ import annotations

import cmath
import math
import re
from collections.abc import Callable, Iterator

from archive.reckoners.unread import NotRead

PIECES_OF_A_CURVE = 12
_TOKEN = re.compile(r"[MmLlHhVvCcSsQqTtAaZz]|[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,2})?")
_NEEDS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
_HOW = "Write one closed line with the commands M L H V C S Q T A Z, such as: M 0 0 L 20 0 L 10 15 Z"


class _Pen:
    """Where the pen is while a path is drawn; a point is a complex number."""

    def __init__(self) -> None:
        self.points: list[complex] = []
        self.at = 0j
        self.start = 0j
        self.handle: complex | None = None
        self.last = ""

    def line(self, to: complex) -> None:
        """A straight line to a point."""
        self.at = to
        self.points.append(to)

    def curve(self, place: Callable[[float], complex]) -> None:
        """Straight pieces along a curve; `place` gives the point at 0 to 1."""
        self.points += [place(i / PIECES_OF_A_CURVE) for i in range(1, PIECES_OF_A_CURVE + 1)]
        self.at = self.points[-1]


def points_of_path(path: str) -> list[tuple[float, float]]:
    """The corners of the one closed line that the path draws; raises NotRead."""
    pen = _Pen()
    for command, numbers in _commands(path):
        _draw(pen, command, numbers)
    return [(point.real, point.imag) for point in pen.points]


def _commands(path: str) -> Iterator[tuple[str, list[float]]]:
    """Each command with its numbers, repeated ones told apart."""
    if _TOKEN.sub("", path).strip(" ,\t\r\n"):
        raise NotRead("The path has something in it that is no command and no number", _HOW)
    command, numbers, seen = "", list[float](), 0
    for token in (*_TOKEN.findall(path), "end"):
        if token == "end" or token.isalpha():
            if command and (numbers or (seen == 0 and _NEEDS[command.upper()])):
                raise NotRead(f"“{command}” in the path has too few numbers", _HOW)
            if token == "Z" or token == "z":
                yield token, []
            command, seen = token, 0
            continue
        numbers.append(float(token))
        if not command or len(numbers) > _NEEDS[command.upper()]:
            raise NotRead("A number in the path belongs to no command", _HOW)
        if len(numbers) == _NEEDS[command.upper()]:
            yield _continued(command, seen), numbers
            numbers, seen = [], seen + 1


def _continued(command: str, seen: int) -> str:
    """Further pairs after M are lines."""
    return {"M": "L", "m": "l"}.get(command, command) if seen else command


def _draw(pen: _Pen, command: str, numbers: list[float]) -> None:
    """Draws one command."""
    kind, base = command.upper(), pen.at if command.islower() else 0j
    if kind == "M" and pen.points:
        raise NotRead("The path has more than one line", "An outline is one closed line, without holes")
    if not pen.points and kind != "M":
        raise NotRead("The path does not begin with M", _HOW)
    if kind == "Z":
        pen.at = pen.start
    elif kind in "ML":
        pen.line(base + complex(*numbers))
        pen.start = pen.at if kind == "M" else pen.start
    elif kind == "H":
        pen.line(complex(base.real + numbers[0], pen.at.imag))
    elif kind == "V":
        pen.line(complex(pen.at.real, base.imag + numbers[0]))
    elif kind == "A":
        _arc(pen, numbers, base + complex(numbers[5], numbers[6]))
    else:
        _bezier(pen, kind, [base + complex(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)])
    if kind not in "CSQT":
        pen.handle = None
    pen.last = kind


def _bezier(pen: _Pen, kind: str, points: list[complex]) -> None:
    """A cubic (C, S) or quadratic (Q, T) curve; S and T mirror the handle before."""
    start, end = pen.at, points[-1]
    same = pen.last in ("CS" if kind in "CS" else "QT")
    mirrored = 2 * start - pen.handle if same and pen.handle is not None else start
    if kind in "CS":
        first, second = (points[0], points[1]) if kind == "C" else (mirrored, points[0])
        pen.handle = second
        pen.curve(
            lambda t: (1 - t) ** 3 * start + 3 * (1 - t) ** 2 * t * first + 3 * (1 - t) * t**2 * second + t**3 * end
        )
    else:
        middle = points[0] if kind == "Q" else mirrored
        pen.handle = middle
        pen.curve(lambda t: (1 - t) ** 2 * start + 2 * (1 - t) * t * middle + t**2 * end)


def _arc(pen: _Pen, numbers: list[float], end: complex) -> None:
    """An arc of an ellipse from two ends, by the rule in appendix B.2.4 of SVG 2."""
    start, large, sweep = pen.at, bool(numbers[3]), bool(numbers[4])
    wide, high = abs(numbers[0]), abs(numbers[1])
    if not wide or not high or start == end:
        pen.line(end)
        return
    turn = cmath.rect(1, math.radians(numbers[2]))
    half = (start - end) / 2 / turn
    short = (half.real / wide) ** 2 + (half.imag / high) ** 2
    grow = math.sqrt(max(1.0, short))
    wide, high = wide * grow, high * grow
    short = min(1.0, short)
    push = math.sqrt((1 - short) / short) * (-1 if large == sweep else 1)
    middle = complex(push * wide * half.imag / high, -push * high * half.real / wide)
    first = cmath.phase(complex((half - middle).real / wide, (half - middle).imag / high))
    last = cmath.phase(complex((-half - middle).real / wide, (-half - middle).imag / high))
    swept = (last - first) % math.tau if sweep else -((first - last) % math.tau)
    centre = middle * turn + (start + end) / 2

    def place(share: float) -> complex:
        """The point so far along the arc."""
        angle = first + swept * share
        return complex(wide * math.cos(angle), high * math.sin(angle)) * turn + centre

    pen.curve(place)
