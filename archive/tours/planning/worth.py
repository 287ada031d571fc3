"""What a tour is worth, in whole numbers, by one rule. Pure.

1. Each minute told counts for the themes of its telling, in equal parts.
2. For each theme wished for, the first sixth of the tour's time counts in full, the next sixth half, and what goes
   beyond a quarter; all of it times the theme's weight. So a tour that tells of three things beats one that tells of
   one thing three times as long. Without themes wished for, every theme has the weight 1.
3. A minute of a theme that is not wished for counts an eighth, so that time left over is still used.
4. A telling that does not suit the audience counts half; one that is a step deeper or shallower than wished three
   quarters, and two steps half.
5. A minute walked or waited takes off a quarter.

A point is one minute in full of a theme of weight 1. The whole numbers are `PER_POINT` times as fine, so that the
solver, the tests and the second formulation reckon with the very same figures.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from archive.tours.model import DEPTHS, THEMES
from archive.tours.planning.problem import TENTHS, Choice, Problem

SLOPES = (4, 2, 1)
PER_POINT = SLOPES[0] * TENTHS
# What a tenth of a minute of walking or waiting takes off, and how much less a grain of an unasked theme counts.
IDLE, UNASKED = 1, 2
_SHARE = 6
_EIGHTHS_BY_DEPTH = (4, 3, 2)


@dataclass(frozen=True)
class ThemeRule:
    """How one theme counts: its weight, the telling's grains in it, and the width of each step."""

    theme: str
    weight: int
    grains: dict[str, int]
    step: int

    def worth(self, grains: int) -> int:
        """The worth of so many grains of the theme."""
        first = min(grains, self.step)
        second = min(grains - first, self.step)
        parts = (first, second, grains - first - second)
        return self.weight * sum(slope * part for slope, part in zip(SLOPES, parts, strict=True))


@dataclass(frozen=True)
class Worth:
    """The rule for one problem: the themes that step down, and what each telling counts besides."""

    themes: tuple[ThemeRule, ...]
    plain: dict[str, int]

    def of(self, tellings: Iterable[str], idle: int) -> int:
        """What a tour with these tellings is worth, with so many tenths walked and waited."""
        told = list(tellings)
        themed = sum(rule.worth(sum(rule.grains.get(ref, 0) for ref in told)) for rule in self.themes)
        return themed + sum(self.plain.get(ref, 0) for ref in told) - IDLE * idle


def worth_of(problem: Problem) -> Worth:
    """The rule for a problem."""
    weights = problem.weights or dict.fromkeys(THEMES, 1)
    step = max(1, problem.tenths // _SHARE)
    rules = []
    for theme in sorted(theme for theme, weight in weights.items() if weight):
        grains = {one.ref: _grains(problem, one) for one in problem.choices if theme in one.themes}
        if any(grains.values()):
            rules.append(ThemeRule(theme, weights[theme], {ref: count for ref, count in grains.items() if count}, step))
    plain = {}
    for one in problem.choices:
        unasked = [theme for theme in one.themes if not weights.get(theme)]
        grains_plain = _grains(problem, one) * len(unasked) if one.themes else _suited(problem, one)
        if grains_plain:
            plain[one.ref] = grains_plain // UNASKED
    return Worth(tuple(rules), plain)


def points(value: float) -> float:
    """Worth in points, to a hundredth."""
    return round(value / PER_POINT, 2)


def _grains(problem: Problem, one: Choice) -> int:
    """What a telling gives to each of its themes."""
    return _suited(problem, one) // max(1, len(one.themes))


def _suited(problem: Problem, one: Choice) -> int:
    """The grains of a telling: its tenths, less where it does not suit."""
    away = abs(DEPTHS.index(one.depth) - DEPTHS.index(problem.depth)) if problem.depth else 0
    eighths = _EIGHTHS_BY_DEPTH[away] * (1 if problem.audience and problem.audience not in one.audiences else 2)
    return one.tenths * eighths // 8
