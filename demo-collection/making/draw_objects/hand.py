"""The one hand all object pictures are drawn in: an ink line that varies, hatching, cream paper, one brass wash.

A drawing is a list of marks in its own units. It is fitted to the sheet when it is inked, so that line weights and the
gaps of the hatching are the same in every picture.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, field
from pathlib import Path

from PIL import Image, ImageChops, ImageDraw, ImageFilter
from shapely import LineString, Polygon, affinity, unary_union
from shapely.geometry.base import BaseGeometry

Point = tuple[float, float]
Colour = tuple[int, int, int]

PAPER: Colour = (0xFF, 0xFD, 0xF8)
INK: Colour = (0x21, 0x1C, 0x15)
BRASS: Colour = (0xE3, 0xC0, 0x69)
BRASS_LINE: Colour = (0x66, 0x4B, 0x0C)
FINE = 3  # the sheet is inked this many times larger, then reduced
MARGIN = 74.0


@dataclass
class Fill:
    shape: BaseGeometry
    tone: str


@dataclass
class Line:
    points: list[Point]
    weight: float
    colour: Colour = INK


@dataclass
class Hatch:
    shape: BaseGeometry
    angle: float
    gap: float
    weight: float
    colour: Colour = INK


@dataclass
class Ruled:
    """Lines that follow a round form, each with the light it gets; the darker, the closer they are kept."""

    lines: list[tuple[list[Point], float]]
    colour: Colour = INK


Mark = Fill | Line | Hatch | Ruled


@dataclass
class Drawing:
    """Marks in the order they are laid down: later fills cover earlier lines."""

    portrait: bool = False
    marks: list[Mark] = field(default_factory=list)

    def fill(self, shape: BaseGeometry | list[Point], tone: str = "paper") -> None:
        self.marks.append(Fill(as_shape(shape), tone))

    def line(self, points: list[Point], weight: float = 2.2, colour: Colour = INK) -> None:
        self.marks.append(Line(list(points), weight, colour))

    def loop(self, points: list[Point], weight: float = 2.2, colour: Colour = INK) -> None:
        self.line([*points, points[0]], weight, colour)

    def hatch(self, shape: BaseGeometry | list[Point], level: int = 1, angle: float = 58.0,
              colour: Colour = INK) -> None:
        """Level 1 is a light tone, 2 a middle tone, 3 crossed and dark."""
        gap = {1: 14.0, 2: 8.6, 3: 7.0}[level]
        region = as_shape(shape)
        self.marks.append(Hatch(region, angle, gap, 1.5, colour))
        if level == 3:
            self.marks.append(Hatch(region, angle - 72, gap + 1, 1.4, colour))

    def ruled(self, lines: list[tuple[list[Point], float]], colour: Colour = INK) -> None:
        self.marks.append(Ruled(lines, colour))

    def area(self, shape: BaseGeometry | list[Point], tone: str = "paper", level: int = 0, angle: float = 58.0,
             weight: float = 2.6) -> None:
        """A filled, hatched and outlined area, the commonest mark of all."""
        region = as_shape(shape)
        self.fill(region, tone)
        if level:
            self.hatch(region, level, angle, colour=line_colour(tone))
        self.outline(region, weight)

    def outline(self, region: BaseGeometry, weight: float = 2.6) -> None:
        for part in getattr(region, "geoms", [region]):
            for ring in (part.exterior, *part.interiors):
                self.line([(x, y) for x, y in ring.coords], weight)

    def save(self, path: Path, seed: str) -> None:
        _Inker(self, seed).sheet().save(path, "WEBP", quality=42, method=6)


def line_colour(tone: str) -> Colour:
    return BRASS_LINE if tone == "brass" else INK


def as_shape(shape: BaseGeometry | list[Point]) -> BaseGeometry:
    if isinstance(shape, list):
        shape = Polygon(shape)
    return shape if shape.is_valid else shape.buffer(0)


def spline(points: list[Point], closed: bool = False, step: int = 14) -> list[Point]:
    """A smooth curve through the points."""
    pts = [points[-1], *points, points[0], points[1]] if closed else [points[0], *points, points[-1]]
    curve: list[Point] = []
    for a, b, c, d in zip(pts, pts[1:], pts[2:], pts[3:], strict=False):
        for n in range(step):
            t = n / step
            curve.append((_bend(a[0], b[0], c[0], d[0], t), _bend(a[1], b[1], c[1], d[1], t)))
    if not closed:
        curve.append(points[-1])
    return curve


def _bend(a: float, b: float, c: float, d: float, t: float) -> float:
    return 0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t * t + (3 * b - a - 3 * c + d) * t**3)


def arc(x: float, y: float, rx: float, ry: float | None = None, start: float = 0.0, end: float = 360.0) -> list[Point]:
    """Points of an ellipse or a part of one; degrees, anticlockwise from the right."""
    ry = rx if ry is None else ry
    count = max(8, int(abs(end - start) / 5))
    angles = [math.radians(start + (end - start) * n / count) for n in range(count + 1)]
    return [(x + rx * math.cos(a), y + ry * math.sin(a)) for a in angles]


def box(x: float, y: float, w: float, h: float) -> list[Point]:
    return [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]


class _Inker:
    """Lays the marks of one drawing on paper."""

    def __init__(self, drawing: Drawing, seed: str) -> None:
        self.drawing = drawing
        self.chance = random.Random(seed)
        self.width, self.height = (900, 1200) if drawing.portrait else (1200, 900)
        self.image = Image.new("RGB", (self.width * FINE, self.height * FINE), PAPER)
        self.brush = ImageDraw.Draw(self.image)
        self.grain = self._grain()
        self.scale, self.left, self.top = self._fit()

    def _fit(self) -> tuple[float, float, float]:
        xs: list[float] = []
        ys: list[float] = []
        for mark in self.drawing.marks:
            if isinstance(mark, Line):
                xs += [x for x, _ in mark.points]
                ys += [y for _, y in mark.points]
            elif isinstance(mark, Fill | Hatch) and not mark.shape.is_empty:
                left, low, right, high = mark.shape.bounds
                xs += [left, right]
                ys += [low, high]
        wide, tall = max(xs) - min(xs), max(ys) - min(ys)
        scale = min((self.width - 2 * MARGIN) / wide, (self.height - 2 * MARGIN) / tall)
        left = (self.width - wide * scale) / 2 - min(xs) * scale
        return scale, left, (self.height + tall * scale) / 2 + min(ys) * scale

    def _grain(self) -> Image.Image:
        """A slow unevenness, so that the wash looks laid on with a brush."""
        small = Image.frombytes("L", (20, 15), bytes(self.chance.randrange(120, 215) for _ in range(300)))
        return small.resize(self.image.size, Image.Resampling.BICUBIC)

    def sheet(self) -> Image.Image:
        for mark in self.drawing.marks:
            match mark:
                case Fill():
                    self._fill(mark)
                case Line():
                    self._line([self._at(p) for p in mark.points], mark.weight, mark.colour)
                case Hatch():
                    self._hatch(mark)
                case Ruled():
                    self._ruled(mark)
        return self.image.resize((self.width, self.height), Image.Resampling.LANCZOS)

    def _at(self, point: Point) -> Point:
        return self.left + point[0] * self.scale, self.top - point[1] * self.scale

    def _placed(self, shape: BaseGeometry) -> BaseGeometry:
        return affinity.affine_transform(shape, [self.scale, 0, 0, -self.scale, self.left, self.top])

    def _fill(self, mark: Fill) -> None:
        placed = self._placed(mark.shape)
        colour = INK if mark.tone == "ink" else PAPER
        self._paint(self.image, placed, colour)
        if mark.tone == "brass":
            self._wash(affinity.translate(placed, 2.2, 1.6))

    def _wash(self, placed: BaseGeometry) -> None:
        """Flat tint with a slightly fuller rim, as where a wet wash dries; a little out of register."""
        mask = Image.new("L", self.image.size, 0)
        self._paint(mask, placed, 255)
        frame = mask.getbbox()
        if frame is None:
            return
        part = mask.crop(frame)
        rim = ImageChops.subtract(part, part.filter(ImageFilter.GaussianBlur(4 * FINE)))
        tint = ImageChops.multiply(part, self.grain.crop(frame))
        tint = ImageChops.add(tint, ImageChops.multiply(rim, part).point(lambda v: v // 3))
        self.image.paste(Image.new("RGB", part.size, BRASS), frame[:2], tint)

    def _paint(self, image: Image.Image, shape: BaseGeometry, colour: Colour | int) -> None:
        """Fills a shape; one with holes goes through a mask, so that what lies behind a hole stays."""
        parts = [p for p in getattr(shape, "geoms", [shape]) if isinstance(p, Polygon) and not p.is_empty]
        if not any(part.interiors for part in parts):
            for part in parts:
                ImageDraw.Draw(image).polygon([(x * FINE, y * FINE) for x, y in part.exterior.coords], fill=colour)
            return
        mask = Image.new("L", image.size, 0)
        pen = ImageDraw.Draw(mask)
        for part in parts:
            pen.polygon([(x * FINE, y * FINE) for x, y in part.exterior.coords], fill=255)
            for hole in part.interiors:
                pen.polygon([(x * FINE, y * FINE) for x, y in hole.coords], fill=0)
        image.paste(colour, (0, 0), mask)

    def _hatch(self, mark: Hatch) -> None:
        region = self._placed(mark.shape).buffer(-0.8)
        if region.is_empty:
            return
        turned = affinity.rotate(region, mark.angle, origin=(0, 0))
        left, low, right, high = turned.bounds
        y = low + mark.gap * self.chance.uniform(0.2, 0.8)
        while y < high:
            rule = affinity.rotate(LineString([(left - 1, y), (right + 1, y)]), -mark.angle, origin=(0, 0))
            for piece in _pieces(rule.intersection(region)):
                self._hatch_line(piece, mark)
            y += mark.gap * self.chance.uniform(0.88, 1.12)

    def _hatch_line(self, piece: list[Point], mark: Hatch) -> None:
        (x1, y1), (x2, y2) = piece[0], piece[-1]
        length = math.hypot(x2 - x1, y2 - y1)
        if length < 3:
            return
        trim = min(0.12, 5 / length)
        a, b = self.chance.uniform(0, trim), 1 - self.chance.uniform(0, trim)
        ends = [(x1 + (x2 - x1) * t, y1 + (y2 - y1) * t) for t in (a, b)]
        self._stroke(ends, mark.weight * self.chance.uniform(0.85, 1.15), mark.colour, overshoot=0)

    def _ruled(self, mark: Ruled) -> None:
        last: Point | None = None
        for points, light in mark.lines:
            if light > 0.34:
                continue
            placed = [self._at(p) for p in points]
            middle = placed[len(placed) // 2]
            gap = 4.6 + 13 * max(0.0, light)
            if last is not None and math.dist(last, middle) < gap:
                continue
            last = middle
            cut = self.chance.uniform(0.0, 0.10 if light > 0.1 else 0.03)
            keep = placed if len(placed) > 2 else _shorten(placed, cut)
            self._stroke(keep, 1.5 if light < 0.12 else 1.25, mark.colour, overshoot=0)

    def _line(self, points: list[Point], weight: float, colour: Colour) -> None:
        """Sharp corners part a line into strokes that cross a hair's breadth, as with a ruler."""
        for run in _runs(points):
            self._stroke(run, weight, colour, overshoot=1.3 if len(run) == 2 else 0.0)

    def _stroke(self, points: list[Point], weight: float, colour: Colour, overshoot: float) -> None:
        path = _resampled(points, overshoot)
        if len(path) < 2:
            return
        length = 5.0 * (len(path) - 1)
        sway = min(0.85, length / 160)
        phases = [self.chance.uniform(0, math.tau) for _ in range(4)]
        ring = math.dist(points[0], points[-1]) < 0.5
        spots: list[tuple[float, float, float]] = []
        for n, (x, y) in enumerate(path):
            s = n * 5.0
            nx, ny = _normal(path, n)
            ease = 1.0 if ring else min(1.0, s / 30, (length - s) / 30)
            shift = sway * ease * (0.6 * math.sin(s / 33 + phases[0]) + 0.4 * math.sin(s / 11 + phases[1]))
            width = weight * (0.92 + 0.17 * math.sin(s / 41 + phases[2]) + 0.1 * math.sin(s / 13 + phases[3]))
            taper = 1.0 if ring else min(1.0, 0.62 + min(s, length - s) / 22)
            spots.append((x + nx * shift, y + ny * shift, width * taper / 2))
        self._lay(spots, colour)

    def _lay(self, spots: list[tuple[float, float, float]], colour: Colour) -> None:
        for (x1, y1, r1), (x2, y2, r2) in zip(spots, spots[1:], strict=False):
            length = math.hypot(x2 - x1, y2 - y1) or 1.0
            nx, ny = (y1 - y2) / length, (x2 - x1) / length
            corners = [(x1 + nx * r1, y1 + ny * r1), (x2 + nx * r2, y2 + ny * r2),
                       (x2 - nx * r2, y2 - ny * r2), (x1 - nx * r1, y1 - ny * r1)]
            self.brush.polygon([(x * FINE, y * FINE) for x, y in corners], fill=colour)
        for x, y, r in spots:
            self.brush.ellipse([(x - r) * FINE, (y - r) * FINE, (x + r) * FINE, (y + r) * FINE], fill=colour)


def _pieces(geometry: BaseGeometry) -> list[list[Point]]:
    parts = getattr(geometry, "geoms", [geometry])
    return [[(x, y) for x, y in part.coords] for part in parts if part.geom_type == "LineString" and not part.is_empty]


def _shorten(points: list[Point], share: float) -> list[Point]:
    (x1, y1), (x2, y2) = points[0], points[-1]
    return [(x1 + (x2 - x1) * share, y1 + (y2 - y1) * share), (x2 - (x2 - x1) * share, y2 - (y2 - y1) * share)]


def _runs(points: list[Point]) -> list[list[Point]]:
    """Parts a polyline at its sharp corners."""
    runs, run = [], [points[0]]
    for before, here, after in zip(points, points[1:], points[2:], strict=False):
        run.append(here)
        turn = math.atan2(after[1] - here[1], after[0] - here[0]) - math.atan2(here[1] - before[1], here[0] - before[0])
        if abs((turn + math.pi) % math.tau - math.pi) > 0.5:
            runs.append(run)
            run = [here]
    run.append(points[-1])
    runs.append(run)
    return runs


def _resampled(points: list[Point], overshoot: float) -> list[Point]:
    line = LineString(points)
    if line.length < 0.3:
        return []
    count = max(1, round(line.length / 5))
    path = [line.interpolate(n / count, normalized=True) for n in range(count + 1)]
    found = [(p.x, p.y) for p in path]
    if overshoot and line.length > 25:
        (x1, y1), (x2, y2) = found[0], found[-1]
        ux, uy = (x2 - x1) / line.length, (y2 - y1) / line.length
        found[0] = (x1 - ux * overshoot, y1 - uy * overshoot)
        found[-1] = (x2 + ux * overshoot, y2 + uy * overshoot)
    return found


def _normal(path: list[Point], n: int) -> Point:
    (x1, y1), (x2, y2) = path[max(0, n - 1)], path[min(len(path) - 1, n + 1)]
    length = math.hypot(x2 - x1, y2 - y1) or 1.0
    return (y1 - y2) / length, (x2 - x1) / length


def joined(*shapes: BaseGeometry | list[Point]) -> BaseGeometry:
    return unary_union([as_shape(shape) for shape in shapes])
