"""Noise and hearing: refusals, laws, limits of the data, and the traps."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive.errors import OutOfRange, Unacceptable
from archive.reckoners.hazard.acoustics import room_level_db, stand_back_m, sum_of_levels_db
from archive.reckoners.hazard.iso_1999 import (
    FREQUENCIES_HZ,
    age_shift_db,
    deviate,
    median_age_shift_db,
    median_noise_shift_db,
    noise_shift_db,
    together_by_annex_db,
    together_db,
)
from archive.reckoners.hazard.noise_law import LOWER, OSHA, UPPER, daily_exposure_db, points, time_told
from archive.reckoners.registry import reckon

levels = st.floats(min_value=75, max_value=100)
years = st.floats(min_value=1, max_value=40)
hertz = st.sampled_from(FREQUENCIES_HZ)

BAD_TASKS = [
    "loud", "95", "95 dB", "4 h", "95 dB 4 kg", "95 dB -4 h", "-95 dB 4 h", "950 dB 4 h", "nan dB 4 h",
    "95 dB nan h", "95 dB 25 h", "95 dB 13 h; 95 dB 13 h", "95 dB 0 h", "95 metres 4 h", "about 95 dB 4 h", ";",
    "95 dB 1 min; " * 50, "90 to 95 dB 4 h", "80/85/loud dB 4 h", "95 dB 1e9 h",
]  # fmt: skip


@pytest.mark.parametrize("tasks", BAD_TASKS)
def test_bad_lists_of_tasks_are_refused(tasks: str) -> None:
    """Under their field, with how to write them."""
    with pytest.raises(Unacceptable) as caught:
        reckon("hazard/noise-day", {"tasks": tasks})
    assert {fault.where for fault in caught.value.faults} == {"tasks"}


@pytest.mark.parametrize(
    ("name", "inputs", "field"),
    [
        ("hazard/noise-week", {"days": "90; loud"}, "days"),
        ("hazard/noise-week", {"days": "90; " * 8}, "days"),
        ("hazard/sound-sum", {"levels": "85; 85 kg"}, "levels"),
        ("hazard/sound-sum", {"levels": "900"}, "levels"),
        ("hazard/room-sound", {"power": "100", "level": "90"}, "level"),
        ("hazard/room-sound", {"absorption": "1"}, "absorption"),
        ("hazard/hearing-protector", {}, "snr"),
        ("hazard/hearing-protector", {"snr": "25", "high": "30"}, "snr"),
        ("hazard/hearing-protector", {"high": "30", "medium": "25"}, "high"),
        ("hazard/hearing-protector", {"high": "30", "medium": "25", "low": "18"}, "level_a"),
        ("hazard/hearing-protector", {"high": "20", "medium": "25", "low": "18", "level_a": "95"}, "high"),
        ("hazard/hearing-loss", {"age": "20 years", "years": "15 years"}, "years"),
        ("hazard/hearing-loss", {"edition": "1990"}, "edition"),
    ],
)
def test_inputs_that_do_not_go_together(name: str, inputs: dict[str, str], field: str) -> None:
    """Each is refused under the field to mend."""
    with pytest.raises(Unacceptable) as caught:
        reckon(name, inputs)
    assert field in {fault.where for fault in caught.value.faults}


@pytest.mark.parametrize(
    ("inputs", "says"),
    [
        ({"level": "105 dB"}, "up to 100 dB.*To go on would take"),
        ({"years": "45 years", "age": "65 years"}, "1 to 40 years.*would take studies"),
        ({"years": "0.5 years"}, "1 to 40 years"),
        ({"age": "75 years"}, "ISO 7029:2000 holds from 18 to 70.*would take"),
        ({"age": "85 years", "edition": "2017"}, "ISO 7029:2017 holds from 18 to 80"),
        ({"age": "16 years", "years": "2 years"}, "holds from 18"),
    ],
)
def test_beyond_the_standards_data_is_refused(inputs: dict[str, str], says: str) -> None:
    """No extrapolation, and the refusal says what it would take to go on."""
    with pytest.raises(OutOfRange, match=says):
        reckon("hazard/hearing-loss", inputs)


@settings(deadline=None)
@given(levels, levels, years, hertz)
def test_more_noise_never_hears_better(first: float, second: float, time: float, frequency: int) -> None:
    """Monotone in the level at every pitch."""
    low, high = sorted((first, second))
    assert median_noise_shift_db(frequency, low, time) <= median_noise_shift_db(frequency, high, time) + 1e-9


@given(levels, years, years, hertz)
def test_more_years_never_hear_better(level: float, first: float, second: float, frequency: int) -> None:
    """Monotone in the years, across the joint at ten years too."""
    low, high = sorted((first, second))
    assert median_noise_shift_db(frequency, level, low) <= median_noise_shift_db(frequency, level, high) + 1e-9


@pytest.mark.parametrize(("time", "share"), [(1, 0.2891), (4, 0.6712), (9, 0.9603), (10, 1)])
def test_the_first_years_take_most(time: float, share: float) -> None:
    """Under ten years, lg (t + 1) / lg 11 of what ten years take, by the standard's formula."""
    taken = median_noise_shift_db(4000, 95, time) / median_noise_shift_db(4000, 95, 10)
    assert abs(taken - share) < 0.00005


@given(levels, years, hertz, st.floats(min_value=5, max_value=95), st.floats(min_value=5, max_value=95))
def test_worse_shares_lose_more(level: float, time: float, frequency: int, first: float, second: float) -> None:
    """The fewer hear worse, the greater the loss; half of all is the median."""
    low, high = sorted((first, second))
    assert noise_shift_db(frequency, level, time, low) >= noise_shift_db(frequency, level, time, high) - 1e-9
    median = median_noise_shift_db(frequency, level, time)
    assert noise_shift_db(frequency, level, time, 50) == pytest.approx(median)


@given(st.floats(min_value=18, max_value=70), hertz, st.sampled_from(["male", "female"]))
def test_the_median_of_age_is_half_of_all(age: float, frequency: int, sex: str) -> None:
    """And the worst tenth hears worse than it, by 1.282 deviates (1.645 for one in twenty)."""
    median = median_age_shift_db(frequency, age, sex, "2000")
    assert age_shift_db(frequency, age, sex, 50) == pytest.approx(median)
    assert age_shift_db(frequency, age, sex, 10) > median > age_shift_db(frequency, age, sex, 90)
    assert abs(deviate(10) - 1.282) < 0.0005
    assert abs(deviate(5) - 1.645) < 0.0005


@given(st.floats(min_value=0, max_value=60), st.floats(min_value=0, max_value=60))
def test_age_and_noise_joined_lie_between(age: float, noise: float) -> None:
    """Never less than either alone or more than both added; Annex C never joins to less than the formula."""
    joined = together_db(age, noise)
    assert max(age, noise) - 1e-9 <= joined <= age + noise + 1e-9
    assert together_by_annex_db(age, noise) >= joined - 1e-9


def test_the_later_edition_tells_what_it_lacks() -> None:
    """The spread of the edition of 2017 is not held: a gap and a warning, never an invented figure."""
    result = reckon("hazard/hearing-loss", {"edition": "2017"})
    keys = {value.output.key for value in result.values}
    assert "age_4000" in keys
    assert "age_worse_4000" not in keys
    assert any("table of spreads would be needed" in warning for warning in result.warnings)


@given(st.floats(min_value=60, max_value=120), st.floats(min_value=0.01, max_value=24))
def test_points_and_the_day_are_one(level: float, hours: float) -> None:
    """L = 85 + 10 lg (points / 100)."""
    day = daily_exposure_db([(level, hours)])
    assert day == pytest.approx(85 + 10 * math.log10(points(level, hours) / 100))
    assert UPPER.dose_percent([(level, hours)]) == pytest.approx(points(level, hours))
    assert LOWER.hours_allowed(level) < UPPER.hours_allowed(level)


@given(st.lists(levels, min_size=1, max_size=8))
def test_together_is_never_less_than_the_loudest(several: list[float]) -> None:
    """And never more than the loudest and 10 lg n."""
    whole = sum_of_levels_db(several)
    assert max(several) - 1e-9 <= whole <= max(several) + 10 * math.log10(len(several)) + 1e-9


def test_osha_counts_nothing_below_80() -> None:
    """Its table begins there; the other rules go on counting."""
    assert OSHA.dose_percent([(79, 8)]) == 0
    result = reckon("hazard/noise-day", {"tasks": "79 dB 8 h"})
    assert "osha_average" not in {value.output.key for value in result.values}
    assert result.figure("niosh") > 0


@pytest.mark.parametrize(
    "tasks",
    ["95 dB 4 h", "95 dB for 4 h", "95 dB(A) for 240 min", "95 for 4 h", "95/95/95 dB 4 h", "95 dB 2 h; 95 dB 2 h",
     "95 dB 2 h, 95 dB 1 h 60 min", "95 dB 2 h\n95 dB 2 h"],
)  # fmt: skip
def test_tasks_as_people_write_them(tasks: str) -> None:
    """All of these are one day."""
    assert reckon("hazard/noise-day", {"tasks": tasks}).figure("exposure") == pytest.approx(91.99, abs=0.01)


def test_protectors_do_not_count_for_action_values() -> None:
    """Told wherever the limit is passed and wherever a protector is reckoned."""
    day, ear = reckon("hazard/noise-day", {"tasks": "95 dB 8 h"}), reckon("hazard/hearing-protector", {"snr": "28"})
    for result in (day, ear):
        assert any("never for the action values" in warning for warning in result.warnings)
    assert any("press shops" in warning for warning in ear.warnings)


@pytest.mark.parametrize(("peak", "told"), [(134, ""), (135, "lower"), (137, "upper"), (140, "limit")])
def test_peaks_are_told(peak: float, told: str) -> None:
    """135, 137 and 140 dB(C)."""
    heard = [warning for warning in reckon("hazard/noise-day", {"peak": str(peak)}).warnings if "peak" in warning]
    assert bool(heard) is bool(told)
    assert all(told in warning for warning in heard)


@given(
    st.floats(min_value=80, max_value=120),
    st.floats(min_value=50, max_value=110),
    st.floats(min_value=5, max_value=500),
)
def test_the_stand_back_line_is_where_the_level_is(power: float, wanted: float, area: float) -> None:
    """Put back into the formula, the distance gives the level; where there is none, the room alone is louder."""
    line = stand_back_m(power, wanted, 2, area)
    if line is None:
        assert power + 10 * math.log10(4 / area) >= wanted - 1e-9
    else:
        assert room_level_db(power, line, 2, area) == pytest.approx(wanted, abs=0.01)


def test_a_room_that_gives_back_too_much_has_no_line() -> None:
    """Said in words, with no figure."""
    result = reckon("hazard/stand-back", {"level": "110 dB", "absorption": "20 m²"})
    assert "no distance is enough" in str(result.value("line").value)
    assert "line_at" not in {value.output.key for value in result.values}


def test_a_room_is_louder_than_the_open() -> None:
    """The open is told as such, with a warning."""
    out, room = (reckon("hazard/stand-back", more) for more in ({}, {"absorption": "60 m²"}))
    assert room.figure("there") > out.figure("there")
    assert any("as in the open" in warning for warning in out.warnings)
    assert not any("as in the open" in warning for warning in room.warnings)


@given(st.floats(min_value=0.2, max_value=100))
def test_feet_and_metres_are_one_distance(metres: float) -> None:
    """Units change nothing."""
    told = (f"{metres!r} m", f"{metres / 0.3048!r} ft")
    metric, feet = (reckon("hazard/sound-distance", {"distance": distance}).figure("there") for distance in told)
    assert metric == pytest.approx(feet)


def test_a_range_holds_its_point() -> None:
    """ "90 to 100 dB" gives a range of hearing around its point."""
    seen = reckon("hazard/hearing-loss", {"level": "90 to 100 dB"}).value("both_4000")
    assert seen.low is not None
    assert seen.high is not None
    assert seen.low < float(seen.value) < seen.high


@pytest.mark.parametrize(
    ("hours", "told"), [(8, "8 h"), (2.52, "2 h 31 min"), (0.25, "15.0 min"), (0.0078, "28.1 s"), (1.9999, "2 h")]
)
def test_times_in_words(hours: float, told: str) -> None:
    """Hours and minutes, minutes, or seconds."""
    assert time_told(hours) == told


@pytest.mark.parametrize("name", ["noise-day", "noise-week", "noise-time", "sound-sum", "room-sound", "hearing-loss"])
def test_every_sum_of_noise_carries_its_caution(name: str) -> None:
    """Hearing does not come back."""
    assert "does not come back" in reckon(f"hazard/{name}", {}).reckoner.caution
