"""Vibration, air and lifting: refusals, laws and the traps."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.errors import Unacceptable
from archive.reckoners.hazard.air_exposure import average_8_h
from archive.reckoners.hazard.air_limits import limits, substances
from archive.reckoners.hazard.air_mixture import mixture_share
from archive.reckoners.hazard.hand_arm_vibration import daily_exposure_m_per_s2, hours_to, points
from archive.reckoners.registry import reckon
from archive.reckoners.sources import SOURCES

strengths = st.floats(min_value=0.1, max_value=50)
hours = st.floats(min_value=0.01, max_value=24)


@pytest.mark.parametrize(
    ("name", "inputs", "field"),
    [
        ("hazard/hand-arm-vibration", {"tools": "5 m/s² 30 h"}, "tools"),
        ("hazard/hand-arm-vibration", {"tools": "3/4 m/s² 1 h"}, "tools"),
        ("hazard/hand-arm-vibration", {"tools": "-5 m/s² 1 h"}, "tools"),
        ("hazard/hand-arm-vibration", {"tools": "shaky 1 h"}, "tools"),
        ("hazard/hand-arm-vibration", {"axis_factor": "2"}, "axis_factor"),
        ("hazard/air-exposure", {"spells": "5 furlongs 1 h"}, "spells"),
        ("hazard/air-exposure", {"spells": "1 ppm 4 h; 1 mg/m³ 4 h", "substance": "nitric-acid"}, "spells"),
        ("hazard/air-exposure", {"spells": "1 ppm 4 h", "substance": "lead"}, "spells"),
        ("hazard/air-exposure", {"substance": "phlogiston"}, "substance"),
        ("hazard/air-mixture", {"parts": "phlogiston 1 mg/m³"}, "parts"),
        ("hazard/air-mixture", {"parts": "lead 1 ppm"}, "parts"),
        ("hazard/air-mixture", {"parts": "lead -1 mg/m³"}, "parts"),
        ("hazard/air-mixture", {"parts": "lead about 1 mg/m³"}, "parts"),
        ("hazard/air-mixture", {"parts": "lead"}, "parts"),
        ("hazard/lifting", {"mass": "nan"}, "mass"),
    ],
)
def test_bad_inputs_are_refused(name: str, inputs: dict[str, str], field: str) -> None:
    """Each under the field to mend."""
    with pytest.raises(Unacceptable) as caught:
        reckon(name, inputs)
    assert field in {fault.where for fault in caught.value.faults}


@given(strengths, hours)
def test_points_and_the_day_are_one(strength: float, time: float) -> None:
    """A(8) = root (points / 16), and the time to a value gives that value."""
    assert daily_exposure_m_per_s2([(strength, time)]) == pytest.approx(math.sqrt(points(strength, time) / 16))
    assert daily_exposure_m_per_s2([(strength, hours_to(2.5, strength))]) == pytest.approx(2.5)


@given(strengths, hours, hours)
def test_spells_of_one_tool_add_up(strength: float, first: float, second: float) -> None:
    """Two spells are one longer spell."""
    apart = daily_exposure_m_per_s2([(strength, first), (strength, second)])
    assert apart == pytest.approx(daily_exposure_m_per_s2([(strength, first + second)]))


def test_three_axes_are_one_total() -> None:
    """root (3² + 4² + 0²) = 5."""
    three, one = (
        reckon("hazard/hand-arm-vibration", {"tools": tools}) for tools in ("3/4/0.01 m/s² 1 h", "5 m/s² 1 h")
    )
    assert three.figure("exposure") == pytest.approx(one.figure("exposure"), rel=1e-4)


def test_no_figure_for_a_spindle_is_invented() -> None:
    """No published magnitude could be placed, so it says that it must be measured."""
    assert any("must be measured" in told for told in reckon("hazard/hand-arm-vibration", {}).reckoner.good_for)


@given(st.lists(st.tuples(st.floats(min_value=0, max_value=100), hours), min_size=1, max_size=6))
def test_a_longer_spell_never_breathes_less(spells: list[tuple[float, float]]) -> None:
    """Monotone in time and level; the average is by eight hours whatever the shift."""
    longer = [(level, time * 1.1) for level, time in spells]
    assert average_8_h(longer) == pytest.approx(1.1 * average_8_h(spells))
    assert average_8_h([(5, 8)]) == 5


def test_a_mixture_at_its_limits() -> None:
    """Half of each limit is the whole limit."""
    assert mixture_share([(0.5, 1), (0.1, 0.2)]) == pytest.approx(1)
    just = reckon("hazard/air-mixture", {"parts": "copper-dust 0.5 mg/m³; zinc-chloride 0.5 mg/m³"})
    assert just.value("verdict").value == "not above the limits held here"
    over = reckon("hazard/air-mixture", {"parts": "copper-dust 0.4 mg/m³; silver 0.02 mg/m³"})
    assert over.value("verdict").value == "above the American limit"


@pytest.mark.parametrize(
    ("inputs", "told"),
    [
        ({"substance": "nitrogen-dioxide", "spells": "2 mg/m³ 15 min"}, "UK limit over 15 minutes"),
        ({"substance": "nitrogen-dioxide", "spells": "10 mg/m³ 1 min"}, "US ceiling"),
    ],
)
def test_short_peaks_are_told(inputs: dict[str, str], told: str) -> None:
    """A short spell may pass a limit of 15 minutes or a ceiling though the day does not."""
    assert any(told in warning for warning in reckon("hazard/air-exposure", inputs).warnings)


def test_a_short_spell_is_spread_over_15_minutes() -> None:
    """Two minutes at 5 mg/m³ are 0.67 over 15 minutes, which does not pass 1.91."""
    result = reckon("hazard/air-exposure", {"substance": "nitrogen-dioxide", "spells": "5 mg/m³ 2 min"})
    assert not any("15 minutes" in warning for warning in result.warnings)


def test_each_limit_has_a_source_of_its_own() -> None:
    """No figure without one, and the sources of a result are those of its limits, marked as they were seen."""
    for limit in limits().values():
        british, american = limit.uk_twa or limit.uk_stel, limit.us_twa or limit.us_ceiling
        assert bool(british) is bool(limit.uk_source), limit
        assert bool(american) is bool(limit.us_source), limit
        assert {key for key in (limit.uk_source, limit.us_source) if key} <= set(SOURCES)
    lead = reckon("hazard/air-exposure", {"substance": "lead"})
    assert any("Control of Lead" in str(one) and "from memory" in str(one) for one in lead.sources)


@pytest.mark.parametrize("substance", substances())
def test_every_substance_gives_an_answer(substance: str) -> None:
    """With a verdict, a caution, and the limits told."""
    result = reckon("hazard/air-exposure", {"substance": substance})
    assert result.value("verdict").value
    assert "Limits change" in result.reckoner.caution


def test_a_day_at_the_hand_stamp() -> None:
    """40 lb, 1.7 m, 8 to 12 a minute: a range of work, and no load is called safe."""
    result = reckon("hazard/lifting", {})
    lifts = result.value("lifts")
    assert (lifts.low, lifts.high) == (3840, 5760)
    assert "No load here is said to be safe" in result.reckoner.caution
    assert result.figure("day") == pytest.approx(result.figure("work") * 4800 / 1000)


def test_pounds_and_kilograms_lift_alike() -> None:
    """Units change nothing."""
    pounds, kilos = (reckon("hazard/lifting", {"mass": mass}) for mass in ("1 qr 12 lb", "18.1436948 kg"))
    assert pounds.figure("work") == pytest.approx(kilos.figure("work"))
