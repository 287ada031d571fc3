"""What a reckoner says in words follows its figures: tables of cases, worked by hand."""

from __future__ import annotations

import pytest

from archive.reckoners.heat.solder_margin import margin_told
from archive.reckoners.metal.cold_reduction import temper_told
from archive.reckoners.metal.season_cracking import risk
from archive.reckoners.metal.tool_steel import hardening_told
from archive.reckoners.output.counting import great_gross_told, gross_told
from archive.reckoners.output.piece_wages import piece_wage_d
from archive.reckoners.registry import reckon
from archive.reckoners.units.gauge import sixty_fourths_told
from archive.reckoners.units.weight import avoirdupois_told, troy_told


@pytest.mark.parametrize(
    ("alloy", "heat", "says"),
    [
        ("C22000", "400 °C", "below the window"),
        ("C22000", "427 °C", "within the window"),
        ("C22000", "788 °C", "within the window"),
        ("C22000", "800 °C", "above the window"),
        ("C22000", "1020 °C", "it begins to melt"),
        ("sterling", "788 °C", "it begins to melt"),
        ("sterling", "787 °C", "above the window"),
    ],
)
def test_what_an_annealing_heat_does(alloy: str, heat: str, says: str) -> None:
    """Below, within, above and melting; the lowest solidus of those that sources give counts."""
    result = reckon("metal/anneal-window", {"alloy": alloy, "temperature": heat})
    assert str(result.value("verdict").value).startswith(says)
    assert any(heat.split()[0] in warning for warning in result.warnings) is (says != "within the window")


@pytest.mark.parametrize(
    ("zinc", "state", "place", "says"),
    [
        (30, "worked", "ammonia", "high"),
        (30, "worked", "damp", "real"),
        (30, "worked", "dry", "possible in time"),
        (30, "relieved", "ammonia", "low"),
        (30, "annealed", "ammonia", "low"),
        (15, "worked", "damp", "low"),
        (10, "worked", "ammonia", "low, unless ammonia is strong"),
    ],
)
def test_season_cracking_needs_all_three(zinc: float, state: str, place: str, says: str) -> None:
    """Zinc, stress and ammonia together; take one away and the risk is low."""
    assert risk(zinc, state, place) == says


@pytest.mark.parametrize(
    ("heat", "says"), [(759, "too cold"), (760, "right"), (845, "right"), (846, "too hot"), (500, "too cold")]
)
def test_hardening_heats(heat: float, says: str) -> None:
    """W1 hardens from 760 to 845 °C."""
    assert hardening_told(heat).startswith(says)


@pytest.mark.parametrize(
    ("margin", "says"), [(-1, "none"), (0, "none"), (10, "narrow"), (30, "enough"), (50, "comfortable")]
)
def test_margins_of_solder(margin: float, says: str) -> None:
    """At least 30, better 50."""
    assert margin_told(margin).startswith(says)


@pytest.mark.parametrize(
    ("numbers", "says"),
    [
        (0, "annealed"),
        (0.5, "between annealed and quarter hard"),
        (3.99, "hard"),
        (5, "between hard and extra hard"),
        (10.2, "extra spring"),
        (12, "beyond extra spring"),
    ],
)
def test_tempers_by_gauge_numbers(numbers: float, says: str) -> None:
    """A temper is named only close to its own number."""
    assert temper_told(numbers) == says


@pytest.mark.parametrize(("whole_only", "pence"), [(True, 111), (False, 16000 / 144)])
def test_only_whole_lots_are_paid_where_that_was_the_rule(whole_only: bool, pence: float) -> None:
    """16,000 at a penny a gross: 111 whole gross, and 16 pieces that may or may not count."""
    assert piece_wage_d(16000, 1, 144, whole_lots_only=whole_only) == pytest.approx(pence)


@pytest.mark.parametrize(
    ("pieces", "gross", "in_full"),
    [
        (0, "0 gross", "0"),
        (7, "0 gross and 7", "7"),
        (144, "1 gross", "1 gross"),
        (28000, "194 gross and 64", "16 great gross 2 gross 5 dozen and 4"),
        (3228, "22 gross and 60", "1 great gross 10 gross 5 dozen"),
    ],
)
def test_counts_as_told(pieces: float, gross: str, in_full: str) -> None:
    """Whole lots and what is over."""
    assert gross_told(pieces) == gross
    assert great_gross_told(pieces) == in_full


def test_weights_and_fractions_as_told() -> None:
    """Greater units first, none that is nothing, and the nearest sixty-fourth in lowest terms."""
    assert troy_told(69.9828228) == "2 oz t 5 dwt"
    assert troy_told(0.06479891) == "1.0 gr"
    assert avoirdupois_told(182 * 453.59237) == "1 cwt 2 qr 14 lb"
    assert sixty_fourths_told(1.5875) == "1/16 in (1.587 mm)"
    assert sixty_fourths_told(38.1) == "1 1/2 in (38.100 mm)"


@pytest.mark.parametrize(
    ("given", "warned"),
    [
        ({"joints": "us-hard, us-easy", "parents": "fine-silver"}, ""),
        ({"joints": "hard, medium", "parents": "fine-silver"}, "begins to soften"),
        ({"joints": "easy, hard", "parents": "fine-silver"}, "will open"),
        ({"joints": "hard", "parents": "sterling"}, "from the metal itself"),
    ],
)
def test_steps_of_soldering_warn_and_never_fail(given: dict[str, str], warned: str) -> None:
    """A narrow step is told; the bench decides."""
    warnings = reckon("heat/step-soldering", given).warnings
    assert any(warned in warning for warning in warnings) if warned else not warnings


def test_the_weakest_metal_of_a_piece_sets_the_margin() -> None:
    """Sterling with brass: sterling melts first."""
    both = reckon("heat/step-soldering", {"joints": "easy", "parents": "C26000, sterling"})
    assert both.figure("margin") == 788 - 723
