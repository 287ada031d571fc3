"""Noise exposure: the day, the week, points, and what each set of rules allows."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import stdev

REFERENCE_HOURS = 8.0
DAYS_IN_A_WEEK = 5
# dB(A), day or week. Source: Control of Noise at Work Regulations 2005, regulation 4.
LOWER_ACTION_DB, UPPER_ACTION_DB, LIMIT_DB = 80.0, 85.0, 87.0
# Of meters, of where they stand, and the factor for a one-sided 95 %. Source: ISO 9612:2009 (from memory).
METERS_DB = {"class 1": 0.7, "class 2": 1.5}
PLACE_DB, COVERAGE = 1.0, 1.65
# dB(C). Source: Control of Noise at Work Regulations 2005, regulation 4.
PEAKS_DB = {"lower": 135.0, "upper": 137.0, "limit": 140.0}


@dataclass(frozen=True)
class Regime:
    """A rule that gives so many hours at a level: halved with every `step_db` more."""

    name: str
    hours: float
    level_db: float
    step_db: float
    least_db: float = 0.0
    source: str = ""

    def hours_allowed(self, level_db: float) -> float:
        """Hours allowed at a level: T = hours / 2^((L - level) / step)."""
        return float(self.hours / 2 ** ((level_db - self.level_db) / self.step_db))

    def dose_percent(self, spells: Iterable[tuple[float, float]]) -> float:
        """Dose: 100 × sum of time spent / time allowed; levels under `least_db` count for nothing."""
        counted = ((level, hours) for level, hours in spells if level >= self.least_db)
        return 100 * sum(hours / self.hours_allowed(level) for level, hours in counted)


def energy_mean_db(levels_db: Sequence[float]) -> float:
    """Mean of samples by energy: 10 lg (mean of 10^(L / 10))."""
    return 10 * math.log10(sum(10 ** (level / 10) for level in levels_db) / len(levels_db))


def daily_exposure_db(spells: Iterable[tuple[float, float]]) -> float:
    """L_EX,8h = 10 lg ((1 / 8 h) sum of T 10^(L / 10)); levels dB(A), times in hours. Source: ISO 9612:2009."""
    return 10 * math.log10(sum(hours * 10 ** (level / 10) for level, hours in spells) / REFERENCE_HOURS)


def task_uncertainty_db(tasks: Sequence[tuple[Sequence[float], float]], meter_db: float) -> float:
    """U = 1.65 sqrt(sum of c² (u1² + u2² + u3²)), c = (T / 8) 10^((L - L_EX) / 10), for tasks of samples and hours.

    u1 is the standard error of the samples, u2 of the meter, u3 = 1.0 dB of where it stands; not of the times.
    Source: ISO 9612:2009, Annex C and D; u2 and u3 from memory.
    """
    spells = [(energy_mean_db(samples), hours) for samples, hours in tasks]
    exposure = daily_exposure_db(spells)
    total = 0.0
    for (samples, _), (level, hours) in zip(tasks, spells, strict=True):
        share = hours / REFERENCE_HOURS * 10 ** ((level - exposure) / 10)
        total += share**2 * (_standard_error_db(samples) ** 2 + meter_db**2 + PLACE_DB**2)
    return COVERAGE * math.sqrt(total)


def _standard_error_db(samples: Sequence[float]) -> float:
    return stdev(samples) / math.sqrt(len(samples)) if len(samples) > 1 else 0.0


def weekly_exposure_db(daily_db: Iterable[float]) -> float:
    """L_EX,w = 10 lg ((1 / 5) sum of 10^(L / 10)), divided by 5 however many days are worked.

    Source: Control of Noise at Work Regulations 2005, Schedule 1, Part 2 (from memory).
    """
    return 10 * math.log10(sum(10 ** (level / 10) for level in daily_db) / DAYS_IN_A_WEEK)


def points(level_db: float, hours: float) -> float:
    """Exposure points: 100 (T / 8) 10^((L - 85) / 10). 100 are the upper action value, 32 the lower."""
    return float(100 * hours / REFERENCE_HOURS * 10 ** ((level_db - UPPER_ACTION_DB) / 10))


def level_of_points_db(total: float) -> float:
    """The daily exposure that so many points make: 85 + 10 lg (points / 100)."""
    return UPPER_ACTION_DB + 10 * math.log10(total / 100)


def osha_average_db(dose_percent: float) -> float:
    """TWA = 16.61 lg (D / 100) + 90. Source: 29 CFR 1910.95, Appendix A."""
    return 16.61 * math.log10(dose_percent / 100) + 90


_HALVING_DB = 10 * math.log10(2)
UPPER = Regime("UK upper action value, 85 dB(A)", 8, UPPER_ACTION_DB, _HALVING_DB, source="noise-regulations")
LOWER = Regime("UK lower action value, 80 dB(A)", 8, LOWER_ACTION_DB, _HALVING_DB, source="noise-regulations")
LIMIT = Regime("UK limit, 87 dB(A) at the ear", 8, LIMIT_DB, _HALVING_DB, source="noise-regulations")
NIOSH = Regime("NIOSH, 85 dB(A), 3 dB", 8, 85.0, 3.0, source="niosh-98-126")
CANADA = Regime("Canada, federal, 87 dB(A), 3 dB", 8, 87.0, 3.0, source="canada-noise")
# Table G-16A begins at 80 dB, so less counts for nothing.
OSHA = Regime("OSHA, 90 dB(A), 5 dB", 8, 90.0, 5.0, 80.0, source="osha-1910-95")


def standing_told(level_db: float) -> str:
    """Where a daily or weekly exposure stands by UK law."""
    if level_db >= UPPER_ACTION_DB:
        return "at or above the upper action value: protection is a duty, and less noise at the source comes first"
    if level_db >= LOWER_ACTION_DB:
        return "at or above the lower action value: people must be told, and protectors offered"
    return "below the lower action value"


def time_told(hours: float) -> str:
    """ "2 h 31 min", "15.2 min", "28 s"."""
    if hours >= 1:
        whole, minutes = divmod(round(hours * 60), 60)
        return f"{whole:,} h {minutes} min" if minutes else f"{whole:,} h"
    return f"{hours * 60:.1f} min" if hours * 60 >= 1 else f"{hours * 3600:.3g} s"
