"""A blow drawn: energy against the fall of a tup, and against the speed of a fly press's arm."""

from __future__ import annotations

from archive.reckoners.figures.axes import Axes, plain_axis
from archive.reckoners.figures.figure import Drawn, Figure
from archive.reckoners.figures.paper import Paper
from archive.reckoners.press.drop_stamp import fall_energy_j, fall_speed_m_per_s

_STEPS = 40


def drop_stamp(drawn: Drawn) -> Figure:
    """Energy against fall: a straight line through nothing; the working blow on it, and the light one."""
    mass, fall, loss = drawn.numbers["mass"], drawn.numbers["fall"], drawn.numbers.get("friction", 0.0) / 100
    far = fall * 1.25
    paper = Paper()
    axes = Axes(paper, plain_axis("Fall, m", 0, far, 5), plain_axis("Energy, J", 0, fall_energy_j(mass, far, loss), 5))
    end = axes.across.high
    axes.curve([(0, 0), (min(end, far), fall_energy_j(mass, min(end, far), loss))])
    falls = [("working blow", fall)]
    if (light := drawn.numbers.get("light_fall")) is not None:
        falls.insert(0, ("light blow", light))
    rows = []
    for name, height in falls:
        energy, speed = fall_energy_j(mass, height, loss), fall_speed_m_per_s(height, loss)
        axes.guides(height, energy)
        axes.point(height, energy)
        off, anchor = ((-16.0, -14.0), "end") if height > far / 2 else ((16.0, 26.0), "start")
        axes.label(height, energy, f"{name}, {energy:,.0f} J", off=off, anchor=anchor)
        rows.append((name, f"{height:.4g} m", f"{energy:,.0f} J", f"{speed:.2f} m/s"))
    told = "; ".join(f"{name} {height} gives {energy}, arriving at {speed}" for name, height, energy, speed in rows)
    alternative = (
        f"Energy of a tup of {mass:.4g} kg against its fall: a straight line from nothing, twice the fall twice the "
        f"energy. Marked: {told}."
    )
    return Figure(
        paper.svg(alternative), "Blow against fall", alternative, ("Blow", "Fall", "Energy", "Speed"), tuple(rows)
    )


def fly_press(drawn: Drawn) -> Figure:
    """Energy against the speed of the arm: it grows with the square."""
    speed, energy = drawn.numbers["speed"], drawn.figure("energy") or 0.0
    far = speed * 1.25
    paper = Paper()
    axes = Axes(
        paper, plain_axis("Speed of the arm, turns a minute", 0, far, 5),
        plain_axis("Energy, J", 0, energy * 1.25**2 or 1.0, 5),
    )  # fmt: skip
    axes.curve([(far * step / _STEPS, energy * (far * step / _STEPS / speed) ** 2) for step in range(_STEPS + 1)])
    axes.guides(speed, energy)
    axes.point(speed, energy)
    axes.label(speed, energy, f"{energy:,.0f} J", off=(-16, -14), anchor="end")
    rows = tuple(
        (f"{speed * share:.4g} a minute", f"{energy * share**2:,.0f} J") for share in (0.25, 0.5, 0.75, 1.0, 1.25)
    )
    alternative = (
        f"Energy of a fly press against the speed of its arm: it grows with the square, so twice as fast is four times "
        f"the energy. Marked: {speed:.4g} turns a minute, {energy:,.0f} J."
    )
    return Figure(paper.svg(alternative), "Blow against swing", alternative, ("Speed", "Energy"), rows)
