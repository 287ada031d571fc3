"""Solid bodies for the hand to draw: blocks, cylinders, wheels, balls and ropes, seen from one side and above.

x runs to the right, y away from you, z up. Light falls from the upper left; what turns from it is hatched.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from itertools import pairwise

from shapely import LineString, MultiPoint, Polygon, unary_union
from shapely import Point as Point2
from shapely.geometry.base import BaseGeometry

from making.draw_objects.hand import Drawing, Point, as_shape, line_colour, spline

Space = tuple[float, float, float]
AXES: dict[str, Space] = {"x": (1, 0, 0), "y": (0, 1, 0), "z": (0, 0, 1)}
LIGHT = (-0.50, -0.62, 0.60)


def add(a: Space, b: Space, k: float = 1.0) -> Space:
    return a[0] + b[0] * k, a[1] + b[1] * k, a[2] + b[2] * k


def dot(a: Space, b: Space) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Space, b: Space) -> Space:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def unit(a: Space) -> Space:
    length = math.sqrt(dot(a, a)) or 1.0
    return a[0] / length, a[1] / length, a[2] / length


def facing_of(points: list[Space]) -> Space:
    """The direction a flat polygon looks (anticlockwise seen from outside)."""
    x = y = z = 0.0
    for a, b in zip(points, points[1:] + points[:1], strict=True):
        x += (a[1] - b[1]) * (a[2] + b[2])
        y += (a[2] - b[2]) * (a[0] + b[0])
        z += (a[0] - b[0]) * (a[1] + b[1])
    return unit((x, y, z))


def around(centre: Space, axis: str | Space, radius: float, start: float = 0, end: float = 360,
           count: int = 72) -> list[Space]:
    """Points of a circle about an axis."""
    way = unit(AXES[axis] if isinstance(axis, str) else axis)
    first = unit(cross(way, (0, 0, 1))) if abs(way[2]) < 0.9 else (1.0, 0.0, 0.0)
    second = cross(way, first)
    steps = max(2, int(count * abs(end - start) / 360))
    found = []
    for n in range(steps + 1):
        a = math.radians(start + (end - start) * n / steps)
        found.append(add(add(centre, first, radius * math.cos(a)), second, radius * math.sin(a)))
    return found


@dataclass
class View:
    """A drawing looked at from a side (yaw, degrees to the right) and from above (pitch)."""

    yaw: float = 28.0
    pitch: float = 20.0
    portrait: bool = False
    drawing: Drawing = field(init=False)

    def __post_init__(self) -> None:
        self.drawing = Drawing(self.portrait)

    def at(self, p: Space) -> Point:
        t, f = math.radians(self.yaw), math.radians(self.pitch)
        deep = -p[0] * math.sin(t) + p[1] * math.cos(t)
        return p[0] * math.cos(t) + p[1] * math.sin(t), p[2] * math.cos(f) + deep * math.sin(f)

    def near(self, p: Space) -> float:
        """How near the eye a point is, or how much a direction looks towards it."""
        t, f = math.radians(self.yaw), math.radians(self.pitch)
        deep = -p[0] * math.sin(t) + p[1] * math.cos(t)
        return -deep * math.cos(f) + p[2] * math.sin(f)

    def flat(self, points: list[Space]) -> list[Point]:
        return [self.at(p) for p in points]

    def line(self, points: list[Space], weight: float = 1.9) -> None:
        self.drawing.line(self.flat(points), weight)

    def curve(self, points: list[Space], weight: float = 1.9) -> None:
        self.drawing.line(spline(self.flat(points)), weight)

    def face(self, points: list[Space], tone: str = "paper", level: int | None = None, weight: float = 2.0,
             angle: float = 58.0) -> None:
        flat = self.flat(points)
        if level is None:
            level = shade_of(facing_of(points))
        self.drawing.area(flat, tone, level, angle, weight)

    def prism(self, base: list[Space], along: Space, tone: str = "paper", level: int | None = None,
              weight: float = 3.0) -> BaseGeometry:
        """A polygon pushed along a line; returns the outline on the sheet."""
        if dot(facing_of(base), along) > 0:
            base = base[::-1]
        top = [add(p, along) for p in base]
        faces = [base, top[::-1]]
        for a, b in zip(range(len(base)), [*range(1, len(base)), 0], strict=True):
            faces.append([base[b], base[a], top[a], top[b]])
        seen = [f for f in faces if self.near(facing_of(f)) > 1e-6]
        seen.sort(key=lambda f: sum(self.near(p) for p in f) / len(f))
        smooth = len(base) > 24
        for f in seen:
            side = smooth and len(f) == 4
            self._prism_face(f, tone, level, bare=side)
        if smooth:
            self._shade_bend(seen, tone)
        whole = unary_union([as_shape(self.flat(f)) for f in seen])
        self.drawing.outline(whole, weight)
        return whole

    def _prism_face(self, face: list[Space], tone: str, level: int | None, bare: bool) -> None:
        shade = shade_of(facing_of(face)) if level is None else level
        shape = as_shape(self.flat(face))
        self.drawing.fill(shape.buffer(0.001), tone)
        if shade and not bare:
            self.drawing.hatch(shape, shade, colour=line_colour(tone))
        if not bare:
            self.drawing.outline(shape, 1.9)

    def _shade_bend(self, faces: list[list[Space]], tone: str) -> None:
        """Hatches the dark part of a bent side as one region, less what the last, nearest face covers."""
        front = as_shape(self.flat(faces[-1]))
        for level in (1, 2):
            dark = [as_shape(self.flat(f)).buffer(0.01) for f in faces if len(f) == 4 and shade_of(facing_of(f)) == level]
            region = unary_union(dark).difference(front)
            if not region.is_empty:
                self.drawing.hatch(region, level, colour=line_colour(tone))

    def block(self, x: float, y: float, z: float, w: float, d: float, h: float, tone: str = "paper",
              level: int | None = None, weight: float = 3.0) -> BaseGeometry:
        base = [(x, y, z), (x + w, y, z), (x + w, y, z + h), (x, y, z + h)]
        return self.prism(base, (0, d, 0), tone, level, weight)

    def plate(self, outline: list[Point], y: float, depth: float, tone: str = "paper", weight: float = 3.0) -> None:
        """A shape cut in a sheet that faces you, given as x and z."""
        self.prism([(x, y, z) for x, z in outline], (0, depth, 0), tone, None, weight)

    def slab(self, outline: list[Point], z: float, height: float, tone: str = "paper", weight: float = 3.0) -> None:
        """A shape lying flat, given as x and y."""
        self.prism([(x, y, z) for x, y in outline], (0, 0, height), tone, None, weight)

    def cheek(self, outline: list[Point], x: float, width: float, tone: str = "paper", weight: float = 3.0) -> None:
        """A shape standing side on, given as y and z."""
        self.prism([(x, y, z) for y, z in outline], (width, 0, 0), tone, None, weight)

    def rod(self, start: Space, end: Space, radius: float, radius_end: float | None = None, tone: str = "paper",
            weight: float = 2.6, hatched: bool = True, caps: bool = True) -> BaseGeometry:
        """A cylinder, or a cone if the radii differ."""
        last = radius if radius_end is None else radius_end
        way = unit(add(end, start, -1))
        rings = (around(start, way, radius), around(end, way, last))
        outline = MultiPoint([self.at(p) for ring in rings for p in ring]).convex_hull
        self.drawing.fill(outline, tone)
        if hatched:
            self.drawing.ruled(self._rulings(rings, start, end), line_colour(tone))
        if isinstance(outline, Polygon):
            self.drawing.outline(outline, weight)
        if caps:
            ring, look = (rings[1], way) if self.near(way) > 0 else (rings[0], (-way[0], -way[1], -way[2]))
            if abs(self.near(look)) > 0.04 and Polygon(self.flat(ring)).area > 0:
                self.drawing.area(self.flat(ring), tone, 2 if shade_of(look) > 1 else 0, weight=1.9)
        return outline

    def _rulings(self, rings: tuple[list[Space], list[Space]], start: Space, end: Space
                 ) -> list[tuple[list[Point], float]]:
        """Lines along a round body, dark side first, each with its light."""
        found = []
        for n, (a, b) in enumerate(zip(*rings, strict=True)):
            for share in (0.0, 0.5):
                m = (n + 1) % len(rings[0])
                p = add(a, add(rings[0][m], a, -1), share)
                q = add(b, add(rings[1][m], b, -1), share)
                out = unit(add(add(p, start, -1), add(q, end, -1)))
                if self.near(out) > 0.05:
                    found.append(([self.at(p), self.at(q)], dot(out, LIGHT)))
        found.sort(key=lambda pair: pair[1])
        return _in_order(found)

    def turned(self, centre: Space, axis: str, profile: list[tuple[float, float]], tone: str = "paper",
               weight: float = 2.6) -> None:
        """A lathe-turned body: pairs of distance along the axis and radius."""
        way = AXES[axis]
        steps = list(pairwise(profile))
        if self.near(way) < 0:
            steps.reverse()
        for (t0, r0), (t1, r1) in steps:
            self.rod(add(centre, way, t0), add(centre, way, t1), max(r0, 0.01), max(r1, 0.01), tone, weight)

    def ball(self, centre: Space, radius: float, tone: str = "paper", weight: float = 2.8) -> None:
        x, y = self.at(centre)
        ring = [(x + radius * math.cos(a), y + radius * math.sin(a)) for a in _angles(72)]
        self.drawing.fill(ring, tone)
        body = as_shape(ring)
        for share, level in ((0.16, 1), (0.36, 2)):
            lit = Point2(x - radius * share, y + radius * share).buffer(radius)
            self.drawing.hatch(body.difference(lit), level, 46, line_colour(tone))
        self.drawing.loop(ring, weight)

    def wheel(self, centre: Space, axis: str, radius: float, width: float, rim: float, spokes: int = 6,
              hub: float = 0.0, tone: str = "paper", curved: bool = False) -> None:
        """A spoked wheel; the far face first, then spokes, rim and hub."""
        way = AXES[axis]
        sign = 1 if self.near(way) > 0 else -1
        front, back = add(centre, way, sign * width / 2), add(centre, way, -sign * width / 2)
        hub = hub or radius * 0.18
        ring = {key: as_shape(self.flat(around(spot, axis, r)))
                for key, spot, r in (("out", front, radius), ("far", back, radius),
                                     ("in", front, radius - rim), ("deep", back, radius - rim))}
        body = MultiPoint([*ring["out"].exterior.coords, *ring["far"].exterior.coords]).convex_hull
        hole = ring["in"].intersection(ring["deep"])
        for n in range(spokes):
            self._spoke(centre, axis, 360 * n / spokes + 14, hub, radius - rim, radius * 0.07, tone, curved)
        band = body.difference(hole)
        self.drawing.fill(band, tone)
        self._rim_shade(front, back, axis, radius, tone)
        inside = ring["in"].difference(hole)
        if not inside.is_empty:
            self.drawing.hatch(inside, 2, colour=line_colour(tone))
        self.drawing.fill(ring["out"].difference(ring["in"]), tone)
        self.drawing.outline(body, 3.0)
        for key in ("out", "in"):
            self.drawing.outline(ring[key], 2.0)
        if not hole.is_empty:
            self.drawing.outline(hole, 1.6)
        self.rod(add(back, way, -sign * width * 0.15), add(front, way, sign * width * 0.25), hub, tone=tone)
        self.drawing.area(self.flat(around(add(front, way, sign * width * 0.25), axis, hub * 0.45)), tone, 0, weight=1.8)

    def _rim_shade(self, front: Space, back: Space, axis: str, radius: float, tone: str) -> None:
        rings = (around(back, axis, radius), around(front, axis, radius))
        self.drawing.ruled(self._rulings(rings, back, front), line_colour(tone))

    def _spoke(self, centre: Space, axis: str, degrees: float, inner: float, outer: float, half: float, tone: str,
               curved: bool) -> None:
        mid = (inner + outer) / 2
        lean = 14 if curved else 0
        path = [around(centre, axis, r, d, d + 1)[0]
                for r, d in ((inner * 0.8, degrees), (mid, degrees + lean), (outer + half, degrees))]
        flat = spline(self.flat(path)) if curved else self.flat(path)
        wedge = LineString(flat).buffer(half, cap_style="flat")
        self.drawing.area(wedge, tone, 0, weight=2.0)

    def gear(self, centre: Space, axis: str, radius: float, width: float, teeth: int, tone: str = "paper") -> None:
        way = AXES[axis]
        outline = []
        for n in range(teeth):
            for share, r in ((0.0, radius), (0.45, radius), (0.55, radius * 0.9), (0.95, radius * 0.9)):
                a = 360 * (n + share) / teeth
                outline.append(around(add(centre, way, -width / 2), axis, r, a, a + 1)[0])
        self.prism(outline, (way[0] * width, way[1] * width, way[2] * width), tone, None, 2.2)
        sign = 1 if self.near(way) > 0 else -1
        front = add(centre, way, sign * width / 2)
        self.drawing.outline(as_shape(self.flat(around(front, axis, radius * 0.72))), 1.8)
        self.drawing.area(self.flat(around(front, axis, radius * 0.26)), tone, 0, weight=2.2)
        self.drawing.area(self.flat(around(front, axis, radius * 0.1)), "ink", 0, weight=1.6)

    def rope(self, points: list[Space], radius: float, tone: str = "paper", twisted: bool = True,
             smooth: bool = True) -> None:
        """A rope, cable or pipe along the points."""
        flat = self.flat(points)
        lay_rope(self.drawing, spline(flat) if smooth and len(flat) > 2 else flat, radius, tone, twisted)

    def shadow(self, x0: float, x1: float, y0: float, y1: float, reach: float = 0.25) -> None:
        """A flat shade on the floor behind and to the right of a standing body."""
        length = (x1 - x0) * reach
        back = (y1 - y0) * 0.25
        self._shade_floor(x0 + length * 0.3, x1 + length, y0 + back, y1 + back)

    def shadow_of_flat(self, x0: float, x1: float, y0: float, y1: float, height: float) -> None:
        """The narrow shade of something that lies flat, on the near and the right side."""
        self._shade_floor(x0 + height, x1 + height, y0 - height, y1 - height)

    def _shade_floor(self, x0: float, x1: float, y0: float, y1: float) -> None:
        self.drawing.hatch(self.flat([(x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0)]), 1, 2.0)


def lay_rope(drawing: Drawing, flat: list[Point], radius: float, tone: str = "paper", twisted: bool = True,
             cut: bool = True) -> None:
    """A rope or bar along points of the sheet; one that is not cut goes on, so its ends are left open."""
    path = LineString(flat)
    body = path.buffer(radius, cap_style="flat", join_style="round")
    drawing.fill(body, tone)
    if twisted:
        step = radius * 1.25
        for n in range(1, int(path.length / step)):
            a, b = path.interpolate(n * step - radius * 0.95), path.interpolate(n * step + radius * 0.95)
            dx, dy = b.x - a.x, b.y - a.y
            length = math.hypot(dx, dy) or 1.0
            nx, ny = -dy / length * radius * 0.92, dx / length * radius * 0.92
            drawing.line([(a.x - nx, a.y - ny), (b.x + nx, b.y + ny)], 1.3, line_colour(tone))
    else:
        shade = path.parallel_offset(radius * 0.45, "right")
        if shade.geom_type == "LineString" and not shade.is_empty:
            drawing.line([(x, y) for x, y in shade.coords], 1.2, line_colour(tone))
    if cut:
        drawing.outline(body, 2.2)
        return
    for edge in (path.offset_curve(radius), path.offset_curve(-radius)):
        for part in getattr(edge, "geoms", [edge]):
            drawing.line([(x, y) for x, y in part.coords], 2.2)


def shade_of(way: Space) -> int:
    """How dark a face is, from the direction it looks in."""
    light = dot(way, unit(LIGHT))
    if light > 0.5:
        return 0
    return 1 if light > 0.2 else 2


def _angles(count: int, start: float = 0.0, end: float = 360.0) -> list[float]:
    return [math.radians(start + (end - start) * n / count) for n in range(count + 1)]


def _in_order(found: list[tuple[list[Point], float]]) -> list[tuple[list[Point], float]]:
    """The rulings sorted across the body, so that neighbours on the sheet are neighbours in the list."""
    if not found:
        return found
    (x0, y0), (x1, y1) = found[0][0]
    nx, ny = y1 - y0, x0 - x1
    return sorted(found, key=lambda pair: (pair[0][0][0] * nx + pair[0][0][1] * ny))
