"""Hearing lost to noise by ISO 1999:2013 and to age by ISO 7029, with the tables that they rest on."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist

from archive.errors import OutOfRange

FREQUENCIES_HZ = (500, 1000, 2000, 3000, 4000, 6000)
MOST_LEVEL_DB, MOST_YEARS, LEAST_YEARS = 100.0, 40.0, 1.0
LEAST_AGE, OLDEST_2000, OLDEST_2017, OLDEST_2017_ABOVE_2_KHZ = 18, 70, 80, 70
COMPRESSED_ABOVE_DB = 40.0
_COMPRESSION_DB = 120.0
_INTERPOLATED_BELOW_YEARS = 10.0


@dataclass(frozen=True)
class NoiseRow:
    """A row of ISO 1999:2013, Tables 1 and 3: median, worse half (u) and better half (l)."""

    u: float
    v: float
    level_0_db: float
    x_u: float
    y_u: float
    x_l: float
    y_l: float


NOISE_TABLE = {
    500: NoiseRow(-0.033, 0.110, 93, 0.044, 0.016, 0.033, 0.002),
    1000: NoiseRow(-0.020, 0.070, 89, 0.022, 0.016, 0.020, 0.000),
    2000: NoiseRow(-0.045, 0.066, 80, 0.031, -0.002, 0.016, 0.000),
    3000: NoiseRow(0.012, 0.037, 77, 0.007, 0.016, 0.029, -0.010),
    4000: NoiseRow(0.025, 0.025, 75, 0.005, 0.009, 0.016, -0.002),
    6000: NoiseRow(0.019, 0.024, 77, 0.013, 0.008, 0.028, -0.007),
}
# a of ISO 7029:2000.
AGE_2000 = {
    "male": {500: 0.0035, 1000: 0.0040, 2000: 0.0070, 3000: 0.0115, 4000: 0.0160, 6000: 0.0180, 8000: 0.0220},
    "female": {500: 0.0035, 1000: 0.0040, 2000: 0.0060, 3000: 0.0075, 4000: 0.0090, 6000: 0.0120, 8000: 0.0150},
}
# Spread about the median of ISO 7029:2000, worse and better half, at the median 0. From memory.
SPREAD_2000 = {
    "male": {500: (6.12, 4.89), 1000: (6.12, 4.89), 2000: (7.23, 5.78), 3000: (7.78, 6.23), 4000: (8.34, 6.67),
             6000: (9.45, 7.56)},
    "female": {500: (6.12, 4.89), 1000: (6.12, 4.89), 2000: (6.67, 5.34), 3000: (7.23, 5.78), 4000: (7.78, 6.23),
               6000: (8.90, 7.12)},
}  # fmt: skip
_SPREAD_GROWS = (0.445, 0.356)
# a and b of ISO 7029:2017.
AGE_2017 = {
    "male": {500: (4.59e-4, 2.537), 1000: (7.02e-4, 2.494), 2000: (1.56e-3, 2.404), 3000: (2.54e-3, 2.350),
             4000: (3.40e-3, 2.325), 6000: (4.53e-3, 2.315), 8000: (5.06e-3, 2.328)},
    "female": {500: (2.61e-4, 2.708), 1000: (2.21e-4, 2.805), 2000: (3.12e-4, 2.792), 3000: (4.88e-4, 2.728),
               4000: (7.37e-4, 2.660), 6000: (1.47e-3, 2.539), 8000: (2.53e-3, 2.439)},
}  # fmt: skip


def deviate(worse_percent: float) -> float:
    """Standard deviates above the median of someone whom so many per cent hear worse than: 10 % is 1.282."""
    return NormalDist().inv_cdf(1 - worse_percent / 100)


def check_noise(level_db: float, years: float) -> None:
    """Raises OutOfRange beyond the data of ISO 1999."""
    if level_db > MOST_LEVEL_DB:
        raise OutOfRange(
            f"ISO 1999 has data up to {MOST_LEVEL_DB:g} dB(A) as a day; {level_db:g} was given. To go on would take "
            "studies of people at that level. A lower level tells the least that is to be expected."
        )
    if not LEAST_YEARS <= years <= MOST_YEARS:
        raise OutOfRange(
            f"ISO 1999 has data for {LEAST_YEARS:g} to {MOST_YEARS:g} years in the noise; {years:g} were given. "
            "To go on would take studies of people so long, or so briefly, in the noise."
        )


def median_noise_shift_db(hertz: int, level_db: float, years: float) -> float:
    """N50 = (u + v lg t) (L - L0)², nothing below L0; under 10 years N50(10) lg(t + 1) / lg 11.

    Level in dB(A), 1 to 40 years. Source: ISO 1999:2013, 6.3.1.
    """
    row = NOISE_TABLE[hertz]
    over = max(0.0, level_db - row.level_0_db)
    at_ten = max(years, _INTERPOLATED_BELOW_YEARS)
    shift = (row.u + row.v * math.log10(at_ten)) * over**2
    if years < _INTERPOLATED_BELOW_YEARS:
        shift *= math.log10(years + 1) / math.log10(11)
    return max(0.0, shift)


def noise_shift_db(hertz: int, level_db: float, years: float, worse_percent: float) -> float:
    """The shift that so many per cent exceed: N50 + z d, d = (X + Y lg t) (L - L0)², not below 0.

    Under 10 years the spread is scaled as the median is. Source: ISO 1999:2013, 6.3.2.
    """
    row, z = NOISE_TABLE[hertz], deviate(worse_percent)
    x, y = (row.x_u, row.y_u) if z >= 0 else (row.x_l, row.y_l)
    over = max(0.0, level_db - row.level_0_db)
    spread = (x + y * math.log10(max(years, _INTERPOLATED_BELOW_YEARS))) * over**2
    if years < _INTERPOLATED_BELOW_YEARS:
        spread *= math.log10(years + 1) / math.log10(11)
    return max(0.0, median_noise_shift_db(hertz, level_db, years) + z * spread)


def check_age(age: float, edition: str) -> None:
    """Raises OutOfRange beyond the ages of the edition."""
    oldest = OLDEST_2000 if edition == "2000" else OLDEST_2017
    if not LEAST_AGE <= age <= oldest:
        raise OutOfRange(
            f"ISO 7029:{edition} holds from {LEAST_AGE} to {oldest} years of age; {age:g} was given. To go on would "
            "take a study of people of that age."
        )


def median_age_shift_db(hertz: int, age: float, sex: str, edition: str) -> float:
    """Median loss with age against 18-year-olds: a (Y - 18)² by ISO 7029:2000, a (Y - 18)^b by ISO 7029:2017."""
    past = age - LEAST_AGE
    if edition == "2000":
        return AGE_2000[sex][hertz] * past**2
    a, b = AGE_2017[sex][hertz]
    return float(a * past**b)


def age_shift_db(hertz: int, age: float, sex: str, worse_percent: float) -> float:
    """Loss with age that so many per cent exceed, by ISO 7029:2000: H50 + z s.

    s = b + 0.445 H50 for the worse half, b + 0.356 H50 for the better.
    The spread is from memory; it gives the three figures of ISO 1999 Table A.3 that were found.
    """
    median, z = median_age_shift_db(hertz, age, sex, "2000"), deviate(worse_percent)
    half = 0 if z >= 0 else 1
    return median + z * (SPREAD_2000[sex][hertz][half] + _SPREAD_GROWS[half] * median)


def together_db(age_db: float, noise_db: float) -> float:
    """H' = H + N - H N / 120. Source: ISO 1999:2013."""
    return age_db + noise_db - age_db * noise_db / _COMPRESSION_DB


def together_by_annex_db(age_db: float, noise_db: float) -> float:
    """As the worked example of Annex C does it: taken together only where H + N is above 40 dB, else added."""
    whole = age_db + noise_db
    return together_db(age_db, noise_db) if whole > COMPRESSED_ABOVE_DB else whole
