"""Pickling, plating and polishing: refusals, laws and cautions."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive.errors import Unacceptable
from archive.reckoners.finish.acid import DENSITY_OF_STRENGTH, acid_for_oxide_g, density_g_per_cm3
from archive.reckoners.finish.pickle_oxide import oxide_taken_g
from archive.reckoners.finish.plating import METALS, hours_for, thickness_um
from archive.reckoners.registry import reckon
from archive.reckoners.shape import CAUTION
from archive.reckoners.telling import lines

shares = st.floats(min_value=0.05, max_value=1)
currents = st.floats(min_value=0.01, max_value=50)


@pytest.mark.parametrize(
    ("name", "inputs", "field"),
    [
        ("finish/pickle-dilution", {"strength": "40 %"}, "strength"),
        ("finish/pickle-dilution", {"volume": "-1 L"}, "volume"),
        ("finish/plating", {}, "time"),
        ("finish/plating", {"time": "1 h"}, "current_density"),
        ("finish/plating", {"time": "1 h", "current": "2 A"}, "area"),
        ("finish/plating", {"time": "1 h", "current": "2 A", "current_density": "1", "area": "1 dm²"}, "current"),
        ("finish/plating", {"time": "1 h", "thickness": "5 µm", "current_density": "1"}, "time"),
        ("finish/plating", {"metal": "unobtainium"}, "metal"),
        ("finish/polishing-loss", {}, "before"),
        ("finish/polishing-loss", {"before": "2 g"}, "after"),
        ("finish/polishing-loss", {"before": "2 g", "after": "3 g"}, "after"),
        ("finish/polishing-loss", {"area": "2 cm²"}, "depth"),
        ("finish/polishing-loss", {"before": "2 g", "after": "1 g", "area": "2 cm²", "depth": "1 µm"}, "depth"),
    ],
)
def test_inputs_that_do_not_go_together(name: str, inputs: dict[str, str], field: str) -> None:
    """Each is refused under the field to mend."""
    with pytest.raises(Unacceptable) as caught:
        reckon(name, inputs)
    assert field in {fault.where for fault in caught.value.faults}


@settings(deadline=None)
@given(st.floats(min_value=0.1, max_value=30), st.floats(min_value=0.1, max_value=100))
def test_the_pickle_has_the_strength_asked_for(strength: float, volume: float) -> None:
    """Weigh it again: acid in the strong acid, over all that was poured together, is the strength."""
    result = reckon("finish/pickle-dilution", {"strength": repr(strength), "volume": repr(volume)})
    strong_g = result.figure("acid") * 1.84
    assert 100 * 0.96 * strong_g / (strong_g + result.figure("water")) == pytest.approx(strength, rel=1e-6)


def test_acid_goes_into_water() -> None:
    """Which is poured into which stands among the answers, the steps and the caution."""
    told = "\n".join(lines(reckon("finish/pickle-dilution", {})))
    assert told.count("the acid slowly into the water") == 2
    assert "Pour acid into water" in told
    assert "never let acid and cyanide meet" in told.lower()
    assert CAUTION in told


@given(st.floats(min_value=0, max_value=30), st.floats(min_value=0, max_value=30))
def test_stronger_acid_is_denser(first: float, second: float) -> None:
    """Monotone, and the figures tabled are met."""
    low, high = sorted((first, second))
    assert density_g_per_cm3(low) <= density_g_per_cm3(high)
    assert all(density_g_per_cm3(strength) == density for strength, density in DENSITY_OF_STRENGTH)


@given(st.floats(min_value=0.001, max_value=1e5))
def test_oxide_and_acid_balance(acid: float) -> None:
    """What the acid takes up needs just that acid."""
    assert acid_for_oxide_g(oxide_taken_g(acid)) == pytest.approx(acid)


@given(st.sampled_from(list(METALS)), currents, st.floats(min_value=0.01, max_value=100), shares)
def test_time_and_thickness_are_each_others_inverse(metal: str, current: float, hours: float, share: float) -> None:
    """Plating for the time that a thickness takes gives that thickness, and more current plates more."""
    thick = thickness_um(METALS[metal], current, hours, share)
    assert hours_for(METALS[metal], current, thick, share) == pytest.approx(hours)
    assert thickness_um(METALS[metal], current * 1.1, hours, share) > thick


@settings(deadline=None)
@given(currents, st.floats(min_value=0.1, max_value=100))
def test_weight_is_area_times_thickness_times_density(current: float, area: float) -> None:
    """The weight laid down and the thickness are one coat."""
    result = reckon("finish/plating", {"current": repr(current), "area": repr(area), "time": "30 min"})
    by_size = area * 100 * result.figure("thick") * 1e-4 * METALS["silver"].density_g_per_cm3
    assert result.figure("weight") == pytest.approx(by_size)


def test_square_feet_and_decimetres_plate_alike() -> None:
    """Units change nothing."""
    metric = reckon("finish/plating", {"current": "5 A", "area": "9.290304 dm²", "time": "0.5 h"})
    imperial = reckon("finish/plating", {"current_density": "5 A/ft²", "time": "30 min"})
    assert metric.figure("thick") == pytest.approx(imperial.figure("thick"))


def test_the_demo_coat_of_silver() -> None:
    """Twenty minutes at 0.5 A/dm² are about 6.4 µm (6.39 by hand: 0.639 × 10)."""
    result = reckon("finish/plating", {"metal": "silver", "current_density": "0.5 A/dm²", "time": "20 min"})
    assert abs(result.figure("thick") - 6.39) <= 0.01
    assert "cyanide" in result.reckoner.caution


def test_nothing_is_won_back_without_a_share() -> None:
    """What is won back and what is gone make up what was lost."""
    result = reckon("finish/polishing-loss", {"area": "30 cm²", "depth": "5 to 10 µm", "won_back": "70 %"})
    assert result.figure("back") + result.figure("gone") == pytest.approx(result.figure("lost"))
    lost = result.value("lost")
    assert lost.low is not None
    assert lost.high is not None
    assert lost.low < result.figure("lost") < lost.high
    assert "Dust" in result.reckoner.caution
