"""Heat: printed figures of solders. "From memory" stands where a source was recalled."""

from __future__ import annotations

import pytest

from archive.reckoners.heat.solders import solders
from archive.reckoners.measures import convert
from tests.published.checks import Check, half_last_digit

CHECKS = (
    Check(
        "heat/solder-margin",
        "UK bullion suppliers' data (from memory) and two sources for sterling: 10 to 24 °C",
        {"solder": "hard", "parent": "sterling"},
        {"margin": "10", "margin_most": "24"},
    ),
    Check(
        "heat/solder-margin",
        "tin-lead eutectic 183 °C (from memory) under C26000, 915 °C",
        {"solder": "tin-lead", "parent": "C26000"},
        {"flows": "183", "margin": "732"},
    ),
    Check(
        "heat/step-soldering",
        "maker's table of US flow points: hard 788, medium 738, easy 719 °C",
        {"joints": "us-hard, us-medium, us-easy"},
        {"flow_step": "19", "order": "us-hard, us-medium, us-easy"},
    ),
    Check(
        "heat/step-soldering",
        "UK bullion suppliers' data (from memory): hard 745-778, medium 720-765, easy 705-723 °C",
        {"joints": "hard, medium, easy"},
        {"step": "-20", "flow_step": "13"},
    ),
)


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_printed_figures(check: Check) -> None:
    """The reckoner gives the printed figure to half of its last digit."""
    check.holds()


@pytest.mark.parametrize(
    ("solder", "fahrenheit"),
    [("us-extra-easy", "1207"), ("us-easy", "1325"), ("us-hard", "1450"), ("us-extra-hard", "1490")],
)
def test_flow_points_printed_in_fahrenheit(solder: str, fahrenheit: str) -> None:
    """The maker's table gives both scales; they agree to a degree Celsius."""
    printed = convert(float(fahrenheit), "°F", "°C")
    assert abs(solders()[solder].liquidus_c - printed) <= 1 + half_last_digit(fahrenheit) * 5 / 9
