"""Noise and vibration against phonometry, an independent open library of acoustics that needs Python 3.13.

It states that its data are transcribed from ISO 1999:2013, ISO 7029:2017, ISO 9612:2009 and ISO 5349-1.
"""

from __future__ import annotations

import pytest

from archive.reckoners.hazard.hand_arm_vibration import daily_exposure_m_per_s2
from archive.reckoners.hazard.iso_1999 import median_age_shift_db, median_noise_shift_db, noise_shift_db
from archive.reckoners.hazard.noise_law import daily_exposure_db, energy_mean_db

phonometry = pytest.importorskip("phonometry", reason="phonometry needs Python 3.13")

BANDS = (500, 1000, 2000, 3000, 4000, 6000)


@pytest.mark.parametrize("level", [80, 85, 90, 95, 100])
@pytest.mark.parametrize("years", [1, 5, 10, 20, 40])
def test_noise_shifts(level: float, years: float) -> None:
    """Median and fractiles of ISO 1999:2013 at every band; from 10 years for the fractiles, where both have a rule."""
    for fractile in (0.5,) if years < 10 else (0.1, 0.5, 0.9):
        theirs = phonometry.nipts(level, years, fractile).value
        for hertz, shift in zip(BANDS, theirs, strict=True):
            ours = (
                median_noise_shift_db(hertz, level, years)
                if fractile == 0.5
                else noise_shift_db(hertz, level, years, 100 * (1 - fractile))
            )
            assert ours == pytest.approx(shift, abs=1e-6)


@pytest.mark.parametrize("sex", ["male", "female"])
@pytest.mark.parametrize("age", [18, 30, 45, 60, 70])
def test_age_shifts(age: float, sex: str) -> None:
    """Medians of ISO 7029:2017."""
    theirs = phonometry.age_threshold(age, sex, 0.5, frequencies=BANDS).median
    ours = [median_age_shift_db(hertz, age, sex, "2017") for hertz in BANDS]
    assert ours == pytest.approx(list(theirs), abs=1e-6)


def test_a_day_of_tasks() -> None:
    """L_EX,8h of ISO 9612:2009, Annex D's welder."""
    tasks = [((70.0,), 1.5), ((80.1, 82.2, 79.6), 5.0), ((86.5, 92.4, 89.3, 93.2, 87.8, 86.2), 1.5)]
    given = [phonometry.Task(samples, hours) for samples, hours in tasks]
    theirs = phonometry.task_based_exposure(given, include_duration_uncertainty=False, warn=False)
    ours = daily_exposure_db((energy_mean_db(samples), hours) for samples, hours in tasks)
    assert ours == pytest.approx(theirs.lex_8h, abs=1e-6)


def test_a_day_of_shaking() -> None:
    """A(8) of several spells, ISO 5349-1."""
    spells = [(5.0, 3.0), (2.5, 1.0), (10.0, 0.25)]
    theirs = phonometry.hav_daily_exposure([a for a, _ in spells], [3600 * hours for _, hours in spells])
    assert daily_exposure_m_per_s2(spells) == pytest.approx(theirs, abs=1e-9)
