"""Laws that hold whatever the figures: monotone, unit-invariant, and the range holds the point."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.reckoners.metal.alloys import alloys
from archive.reckoners.metal.cold_reduction import numbers_rolled, strip_reduction_percent, wire_reduction_percent
from archive.reckoners.metal.colours import HEAT, TEMPER, Chart
from archive.reckoners.metal.density import ideal_mixing_density_g_per_cm3
from archive.reckoners.metal.mixing import mass_to_add_g
from archive.reckoners.registry import reckon
from archive.reckoners.sources import SOURCES

shares = st.floats(min_value=0, max_value=100)
sizes = st.floats(min_value=0.2, max_value=100)


@given(shares, shares)
def test_more_copper_means_less_silver_solid(first: float, second: float) -> None:
    """The lever is monotone."""
    low, high = sorted((first, second))
    silver = [
        reckon("metal/lever-silver-copper", {"copper": repr(copper)}).figure("silver_solid") for copper in (low, high)
    ]
    assert silver[0] >= silver[1]


@given(shares)
def test_the_parts_of_the_lever_make_a_whole(copper: float) -> None:
    """Primary and eutectic, and silver solid and copper solid, each make a hundred."""
    result = reckon("metal/lever-silver-copper", {"copper": repr(copper)})
    assert result.figure("primary") + result.figure("eutectic") == pytest.approx(100)
    assert result.figure("silver_solid") + result.figure("copper_solid") == pytest.approx(100)


@given(sizes, st.floats(min_value=0.1, max_value=0.99), st.floats(min_value=0.1, max_value=0.99))
def test_reductions_follow_one_another(before: float, first: float, second: float) -> None:
    """Gauge numbers add up over two passes, and more numbers mean more reduction, of wire more than of strip."""
    middle, after = before * first, before * first * second
    assert numbers_rolled(before, after) == pytest.approx(
        numbers_rolled(before, middle) + numbers_rolled(middle, after)
    )
    numbers = numbers_rolled(before, after)
    assert strip_reduction_percent(numbers) == pytest.approx(100 * (1 - first * second))
    assert wire_reduction_percent(numbers) > strip_reduction_percent(numbers)


@given(
    st.floats(min_value=0.1, max_value=68),
    st.floats(min_value=0.1, max_value=68),
    st.sampled_from(["C26000", "C22000"]),
)
def test_more_rolling_never_makes_strip_weaker(first: float, second: float, alloy: str) -> None:
    """Strength climbs with reduction, without a step back between tempers."""
    strengths = [
        reckon("metal/cold-reduction", {"before": "1 mm", "reduction": f"{percent!r} %", "alloy": alloy})
        for percent in sorted((first, second))
    ]
    assert strengths[0].figure("strength_from") <= strengths[1].figure("strength_from") + 1e-9
    assert strengths[0].figure("left") >= strengths[1].figure("left")


@given(sizes, st.floats(min_value=0.05, max_value=1))
def test_millimetres_and_inches_give_one_answer(before_mm: float, kept: float) -> None:
    """The unit that it was written in changes nothing."""
    after_mm = before_mm * kept
    metric = reckon("metal/cold-reduction", {"before": f"{before_mm!r} mm", "after": f"{after_mm!r} mm"})
    inches = reckon("metal/cold-reduction", {"before": f"{before_mm / 25.4!r} in", "after": f"{after_mm / 25.4!r} in"})
    for key in ("reduction", "numbers", "left"):
        assert metric.figure(key) == pytest.approx(inches.figure(key), abs=1e-6)


def test_a_key_with_its_unit_is_the_same_input() -> None:
    """`before_mm=1.43` is `before=1.43 mm`, for folders and scripts that keep bare numbers."""
    joined = reckon("metal/cold-reduction", {"before_mm": 1.43, "after_mm": 0.90})
    apart = reckon("metal/cold-reduction", {"before": "1.43 mm", "after": "0.90 mm"})
    assert joined.values == apart.values


@given(st.floats(min_value=0, max_value=100), st.floats(min_value=0, max_value=40))
def test_a_mixture_lies_between_its_metals(copper: float, zinc: float) -> None:
    """Ideal mixing never leaves the range of the metals mixed."""
    whole = copper + zinc + 1
    parts = {"Cu": 100 * copper / whole, "Zn": 100 * zinc / whole, "Ag": 100 / whole}
    assert 7.14 <= ideal_mixing_density_g_per_cm3(parts) <= 10.49


@given(
    st.floats(min_value=1, max_value=1000),
    st.floats(min_value=500, max_value=1000),
    st.floats(min_value=100, max_value=499),
    st.floats(min_value=0, max_value=99),
)
def test_what_is_mixed_keeps_its_silver(mass: float, now: float, wanted: float, added: float) -> None:
    """The fineness after is the one wanted, by weighing the precious metal."""
    more = mass_to_add_g(mass, now, wanted, added)
    assert more > 0
    assert (mass * now + more * added) / (mass + more) == pytest.approx(wanted)


RANGES = [
    ("metal/lever-silver-copper", {"copper": "5 to 40 %"}),
    ("metal/cold-reduction", {"before": "1.4 to 1.5 mm", "after": "about 0.9 mm", "alloy": "C26000"}),
    ("metal/fineness", {"precious": "about 50 g", "total": "100 ± 1 g"}),
    ("metal/mixing", {"mass": "90 to 110 g", "now": "990 to 1000"}),
    ("output/shift-output", {"rate": "8 to 12 a minute", "utilisation": "70 to 80 %"}),
    ("output/piece-wages", {"pieces": "80 to 90 gross", "rate": "2 to 3d"}),
    ("output/training", {"shorter": "1 to 2", "longer": "7 years"}),
    ("output/order-time", {"order": "about 100 gross", "rate": "35 to 45", "spoiled": "1 to 5 %"}),
    ("units/weight", {"weight": "2 to 3 oz t"}),
    ("heat/solder-margin", {"parent_solidus": "about 800 °C"}),
]


@pytest.mark.parametrize(("name", "inputs"), RANGES, ids=lambda value: value if isinstance(value, str) else "")
def test_a_range_holds_its_point(name: str, inputs: dict[str, str]) -> None:
    """Where something is about, every number is a range around its point, and one at least is wide."""
    result = reckon(name, inputs)
    numbers = [value for value in result.values if isinstance(value.value, (int, float))]
    assert all(
        value.low is not None and value.high is not None and value.low <= float(value.value) <= value.high
        for value in numbers
    )
    assert any(value.low != value.high for value in numbers)
    assert result.interval_note


@given(st.floats(min_value=0, max_value=1))
def test_a_range_holds_every_answer_within_it(place: float) -> None:
    """The share first to freeze falls to nothing at the eutectic and climbs again, so its ends alone would not do."""
    wide = reckon("metal/lever-silver-copper", {"copper": "10 to 60 %"}).value("silver_solid")
    within = reckon("metal/lever-silver-copper", {"copper": repr(10 + 50 * place)}).figure("silver_solid")
    assert wide.low is not None
    assert wide.high is not None
    assert wide.low - 1e-9 <= within <= wide.high + 1e-9


def test_a_bend_inside_a_range_is_seen() -> None:
    """From 20 to 60 % copper the first solid dips far below both ends, near the eutectic."""
    dip = reckon("metal/lever-silver-copper", {"copper": "20 to 60 %"}).value("primary")
    assert dip.low is not None
    assert dip.low < 10 < 41.8


def test_whole_numbers_stay_whole_in_a_range() -> None:
    """Two to three presses are never two and a half."""
    seen = reckon("output/order-time", {"order": "100 gross", "rate": "40", "presses": "2 to 3"}).value("daily")
    assert (seen.low, seen.high) == (28_800, 43_200)
    assert seen.value in (28_800, 43_200)


def test_no_strength_is_told_beyond_the_last_temper() -> None:
    """Past extra spring the table ends: a gap and a warning, never a line drawn on."""
    result = reckon("metal/cold-reduction", {"before": "1 mm", "reduction": "85 %", "alloy": "C26000"})
    assert "strength_from" not in {value.output.key for value in result.values}
    assert any("beyond extra spring" in warning for warning in result.warnings)


def test_a_warning_at_one_end_of_a_range_is_told_as_such() -> None:
    """The point may be sound while an end is not."""
    result = reckon("heat/solder-margin", {"parent_solidus": "800 to 830 °C"})
    assert any(warning.startswith("In part of the range given") for warning in result.warnings)


def test_outside_its_sound_range_a_figure_is_warned_of() -> None:
    """A heat above the hardening range is taken, with a warning that names the range."""
    result = reckon("metal/tool-steel", {"harden": "900 °C"})
    assert any("760 to 845" in warning for warning in result.warnings)


def test_every_cell_of_the_alloy_table_has_a_source_that_exists() -> None:
    """No figure without a source, and no range upside down."""
    for alloy in alloys().values():
        for cell in alloy.cells:
            assert cell.source in SOURCES, cell
            assert cell.high is None or cell.low <= cell.high, cell
    assert sum(len(alloy.cells) for alloy in alloys().values()) == 188


def test_mixtures_make_a_whole() -> None:
    """The nominal parts of every alloy make a hundred."""
    for alloy in alloys().values():
        assert not alloy.mix or sum(alloy.mix.values()) == pytest.approx(100), alloy.key


@pytest.mark.parametrize("chart", [*HEAT, *TEMPER], ids=lambda chart: chart.key)
def test_charts_run_from_cold_to_hot(chart: Chart) -> None:
    """Each figure is hotter than the last, and the chart is a source."""
    heats = [heat for heat, _ in chart.colours]
    assert heats == sorted(heats)
    assert chart.key in SOURCES
