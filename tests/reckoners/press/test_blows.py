"""Blows, cutting and drawing: refusals, laws and the traps."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive.errors import Unacceptable
from archive.reckoners.press.blanking import tool_sizes_mm
from archive.reckoners.press.drop_stamp import blows_needed, fall_energy_j, fall_speed_m_per_s
from archive.reckoners.press.fly_press import inertia_kg_m2, spin_energy_j
from archive.reckoners.registry import reckon

sizes = st.floats(min_value=0.1, max_value=100)


@pytest.mark.parametrize(
    ("name", "inputs", "field"),
    [
        ("press/drop-stamp-blow", {"light_fall": "2 m", "fall": "1 m"}, "light_fall"),
        ("press/drop-stamp-blow", {"needed": "500 J"}, "efficiency"),
        ("press/drop-stamp-blow", {"needed": "1e8 J", "efficiency": "1 %", "mass": "0.5 kg", "fall": "1 cm"}, "needed"),
        ("press/drop-stamp-blow", {"mass": "0 kg"}, "mass"),
        ("press/fly-press-blow", {"balls": "0"}, "balls"),
        ("press/fly-press-blow", {"balls": "1.5"}, "balls"),
        ("press/blanking", {"shear": "276", "tensile": "400"}, "tensile"),
        ("press/blanking", {"size": "0.2 mm", "thickness": "50 mm"}, "size"),
        ("press/blanking", {"metal": "mithril"}, "metal"),
        ("press/cup-drawing", {}, "blank"),
        ("press/cup-drawing", {"blank": "30 mm", "height": "5 mm"}, "blank"),
        ("press/cup-drawing", {"punch": "30 mm", "blank": "30 mm"}, "blank"),
        ("press/cup-drawing", {"blank": "40 mm", "yields": "500", "tensile": "300"}, "yields"),
    ],
)
def test_inputs_that_do_not_go_together(name: str, inputs: dict[str, str], field: str) -> None:
    """Each is refused under the field to mend."""
    with pytest.raises(Unacceptable) as caught:
        reckon(name, inputs)
    assert field in {fault.where for fault in caught.value.faults}


@given(sizes, st.floats(min_value=0.01, max_value=10), st.floats(min_value=0, max_value=0.9))
def test_the_blow_is_half_mass_times_speed_squared(mass: float, fall: float, friction: float) -> None:
    """Energy and speed tell the same story, whatever the guides hold back."""
    speed = fall_speed_m_per_s(fall, friction)
    assert fall_energy_j(mass, fall, friction) == pytest.approx(mass * speed**2 / 2)


@given(sizes, sizes)
def test_a_higher_fall_brings_more(first: float, second: float) -> None:
    """Monotone in the fall."""
    low, high = sorted((first, second))
    assert fall_energy_j(10, low) <= fall_energy_j(10, high)
    assert fall_speed_m_per_s(low) <= fall_speed_m_per_s(high)


def test_no_force_without_a_distance() -> None:
    """The trap of a hammer's "force": none is told until the set is given, and it says why."""
    result = reckon("press/drop-stamp-blow", {})
    assert "force" not in {value.output.key for value in result.values}
    assert any("no force of its own" in warning for warning in result.warnings)
    hard, soft = (reckon("press/drop-stamp-blow", {"stopping": set_}).figure("force") for set_ in ("0.5 mm", "1 mm"))
    assert hard == pytest.approx(2 * soft)
    assert abs(soft - 302) < 1


def test_a_counter_drive_leaves_the_blow_unchanged() -> None:
    """Common practice of the trade, no source."""
    alone, helped = (reckon("press/drop-stamp-blow", {"counter": share}) for share in ("0 %", "50 %"))
    assert alone.figure("energy") == helped.figure("energy")
    assert helped.figure("lift_energy") == pytest.approx(alone.figure("lift_energy") / 2)


@pytest.mark.parametrize(
    ("needed", "light", "blow", "count"), [(100, 0, 100, 1), (101, 0, 100, 2), (100, 20, 100, 2), (10, 20, 100, 1)]
)
def test_blows_are_whole(needed: float, light: float, blow: float, count: int) -> None:
    """The light blow counts, and its energy too."""
    assert blows_needed(needed, light, blow) == count


def test_first_light_then_working_blows() -> None:
    """50 kg from 0.4 m gives 196 J, from 1.2 m 588 J; half of each reaches the work, and 1000 J takes one and four."""
    given_ = {"mass": "50 kg", "fall": "1.2 m", "light_fall": "0.4 m", "needed": "1000 J", "efficiency": "50 %"}
    result = reckon("press/drop-stamp-blow", given_)
    assert abs(result.figure("light_energy") - 196) < 0.5
    assert result.figure("blows") == 5


@given(sizes, st.floats(min_value=0.1, max_value=3), st.floats(min_value=0.1, max_value=5))
def test_two_balls_store_what_a_ring_does(ball: float, radius: float, turns: float) -> None:
    """½ m v² of each ball is ½ I ω² of both."""
    speed = math.tau * radius * turns
    energy = spin_energy_j(inertia_kg_m2(2, ball, radius, 0, 0, 0), turns)
    assert energy == pytest.approx(2 * ball * speed**2 / 2)


def test_the_pull_over_the_swing_is_the_energy() -> None:
    """Work done by the hand is what the balls store: pull × radius × angle."""
    result = reckon("press/fly-press-blow", {"swing": "180 °", "lead": "60 mm"})
    assert result.figure("pull") * 0.45 * math.pi == pytest.approx(result.figure("energy"))
    assert result.figure("travel") == pytest.approx(30)
    assert result.figure("ram_speed") == pytest.approx(0.06)
    assert result.figure("swing_time") == pytest.approx(1)


@given(sizes, st.floats(min_value=0, max_value=0.04))
def test_which_tool_has_the_size(size: float, clearance: float) -> None:
    """A blank comes out as the die, a hole as the punch, and the die is always larger by twice the clearance."""
    for piercing in (False, True):
        punch, die = tool_sizes_mm(size, clearance, piercing=piercing)
        assert die - punch == pytest.approx(2 * clearance, abs=1e-9)
        assert size == (punch if piercing else die)


def test_millimetres_and_inches_cut_alike() -> None:
    """Size and thickness in inches or a named gauge give the same force."""
    metric = reckon("press/blanking", {"size": "25.4 mm", "thickness": "0.9144 mm"})
    inches = reckon("press/blanking", {"size": "1 in", "thickness": "20 SWG"})
    assert metric.figure("force") == pytest.approx(inches.figure("force"))


@settings(deadline=None)
@given(st.floats(min_value=23, max_value=200), st.floats(min_value=23, max_value=200))
def test_a_larger_blank_draws_harder(first: float, second: float) -> None:
    """Force and holder rise with the blank."""
    low, high = (reckon("press/cup-drawing", {"blank": repr(blank)}) for blank in sorted((first, second)))
    assert low.figure("force") <= high.figure("force")
    assert low.figure("holder") <= high.figure("holder")


def test_a_cup_beyond_one_draw_is_told() -> None:
    """A ratio above 2.0, a reduction above 50 % and a sheet under 1 % are each warned of."""
    result = reckon("press/cup-drawing", {"punch": "40 mm", "blank": "100 mm", "thickness": "0.5 mm"})
    assert result.value("verdict").value == "not in one draw"
    assert len(result.warnings) == 3


def test_a_range_holds_its_point() -> None:
    """The multiple for coining is told as 5 to 6, so its force is a range."""
    force = reckon("press/coining", {}).value("force")
    assert force.low is not None
    assert force.high is not None
    assert force.low < float(force.value) < force.high
