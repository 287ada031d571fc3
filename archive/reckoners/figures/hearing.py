"""What noise does, drawn: an audiogram after years in it, and the time that each level leaves."""

from __future__ import annotations

from archive.reckoners.figures.axes import Axes, Axis
from archive.reckoners.figures.figure import Drawn, Figure
from archive.reckoners.figures.paper import Paper
from archive.reckoners.hazard.iso_1999 import FREQUENCIES_HZ
from archive.reckoners.hazard.noise_law import LIMIT, LOWER, OSHA, UPPER, Regime, time_told

_CURVES = (
    ("age", "age alone, median", "drawn-line--dashed"),
    ("both", "both, median", "drawn-line"),
    ("both_worse", "both; {share} % hear worse still", "drawn-line--heavy"),
)
_LEAST_SHOWN_DB = 60.0


def audiogram(drawn: Drawn) -> Figure:
    """The shift of hearing by pitch, the further down the worse."""
    curves = {name: _curve(drawn, name) for name, _, _ in _CURVES}
    worst = max(shift for curve in curves.values() for _, shift in curve)
    # Below the deepest point there is room for the key.
    deepest = max(_LEAST_SHOWN_DB, 10 * -(-(worst + 24) // 10))
    ticks = tuple((float(at), str(at)) for at in range(0, int(deepest) + 1, 10))
    pitches = tuple((float(hertz), f"{hertz / 1000:g}") for hertz in FREQUENCIES_HZ)
    paper = Paper()
    axes = Axes(
        paper, Axis("Pitch, kHz", 420, 7000, pitches, logarithmic=True),
        Axis("Shift, dB (down is worse)", deepest, 0, ticks),
    )  # fmt: skip
    shown = [
        (name, title.format(share=f"{drawn.numbers['worse']:g}"), kind) for name, title, kind in _CURVES if curves[name]
    ]
    for key, (name, title, kind) in enumerate(shown):
        axes.curve(curves[name], kind)
        for hertz, shift in curves[name]:
            axes.point(hertz, shift, "drawn-mark")
        y = axes.bottom - 20 - 30 * key
        paper.line((axes.left + 16, y - 6), (axes.left + 70, y - 6), kind)
        paper.words((axes.left + 80, y), title, "drawn-label", anchor="start")
    level, years, age = drawn.numbers["level"], drawn.numbers["years"], drawn.numbers["age"]
    both = dict(curves["both"])
    alternative = (
        f"Audiogram after {years:g} years at {level:g} dB(A) a day, at the age of {age:g}. The line of age and noise "
        f"together dips deepest near 4,000 Hz, where the median shift is {both[4000]:.0f} dB; at 500 Hz it is "
        f"{both[500]:.0f} dB."
    )
    head = ("Pitch", *(title for _, title, _ in shown))
    told = [dict(curves[name]) for name, _, _ in shown]
    rows = tuple((f"{hertz:,} Hz", *(f"{curve[hertz]:.1f} dB" for curve in told)) for hertz in FREQUENCIES_HZ)
    notes = ("It tells of groups. No one person's hearing can be told by it.",)
    return Figure(paper.svg(alternative), "Hearing after years in the noise", alternative, head, rows, notes)


def _curve(drawn: Drawn, name: str) -> list[tuple[int, float]]:
    found = [(hertz, drawn.figure(f"{name}_{hertz}")) for hertz in FREQUENCIES_HZ]
    return [(hertz, shift) for hertz, shift in found if shift is not None]


_RULES: tuple[tuple[Regime, str, str], ...] = (
    (LOWER, "UK lower value", "drawn-line--dashed"),
    (UPPER, "UK upper value", "drawn-line--heavy"),
    (OSHA, "OSHA", "drawn-line--dotted"),
)
_FROM_DB, _TO_DB = 75.0, 120.0
_TIMES_H = (
    (1 / 60, "1 min"), (5 / 60, "5 min"), (0.25, "15 min"), (1.0, "1 h"), (4.0, "4 h"), (8.0, "8 h"), (24.0, "24 h"),
)  # fmt: skip


def noise_time(drawn: Drawn) -> Figure:
    """Hours allowed against the level, on a scale on which each rule is a straight line."""
    level = drawn.numbers["level"]
    low, high = min(_FROM_DB, level - level % 5), max(_TO_DB, level + -level % 5)
    paper = Paper()
    levels = tuple((float(at), str(at)) for at in range(int(low), int(high) + 1, 5))
    shortest, longest = _TIMES_H[0][0], _TIMES_H[-1][0]
    axes = Axes(
        paper, Axis("Level, dB(A)", low, high, levels), Axis("Time", shortest, longest, _TIMES_H, logarithmic=True)
    )
    for place, (rule, title, kind) in enumerate(_RULES):
        axes.curve(_inside(rule, low, high, shortest, longest), kind)
        y = axes.bottom - 84 + 30 * place
        paper.line((axes.left + 16, y - 6), (axes.left + 70, y - 6), kind)
        paper.words((axes.left + 80, y), title, "drawn-label", anchor="start")
    for rule, _, _ in _RULES[:2]:
        hours = rule.hours_allowed(level)
        if shortest <= hours <= longest:
            axes.guides(level, hours)
            axes.point(level, hours)
    rows = tuple((rule.name, time_told(rule.hours_allowed(level))) for rule in (LOWER, UPPER, LIMIT, OSHA))
    alternative = (
        f"Time against level. Each rule is a straight line that falls: the UK values halve the time for each 3 dB, "
        f"OSHA for each 5 dB. At {level:g} dB(A) " + "; ".join(f"{name}: {time}" for name, time in rows) + "."
    )
    return Figure(paper.svg(alternative), "How long at a level", alternative, ("Rule", f"At {level:g} dB(A)"), rows)


def _inside(rule: Regime, low: float, high: float, shortest: float, longest: float) -> list[tuple[float, float]]:
    """The ends of a rule's straight line within the axes."""
    places = [low + (high - low) * step / 900 for step in range(901)]
    held = [(at, rule.hours_allowed(at)) for at in places if shortest <= rule.hours_allowed(at) <= longest]
    return [held[0], held[-1]]
