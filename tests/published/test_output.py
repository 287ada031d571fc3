"""Output: worked sums of strokes, gross and piece wages; the trade's own figures are common practice, no source."""

from __future__ import annotations

import pytest

from tests.published.checks import Check

CHECKS = (
    Check(
        "output/shift-output",
        "arithmetic: 40 a minute, 8 h, 75 % is 14 400, 100 gross",
        {"rate": "40", "hours": "8", "utilisation": "75 %"},
        {"pieces": "14400", "gross": "100.0", "told": "100 gross"},
    ),
    Check(
        "output/shift-output",
        "common practice, no source: a quick hand, 28 000 in ten hours",
        {"pieces": "28000", "hours": "10"},
        {"rate": "46.7", "each": "1.3"},
    ),
    Check(
        "output/shift-output",
        "common practice, no source: held to 16 000 in ten hours, one every 2.3 s (2.25)",
        {"pieces": "16000", "hours": "10"},
        {"rate": "26.7", "each": "2.3"},
    ),
    Check(
        "output/gross",
        "Weights and Measures Act 1985 (from memory): 22 gross 5 dozen is 3228",
        {"pieces": "22 gross 5 dozen"},
        {"pieces": "3228", "told": "22 gross and 60"},
    ),
    Check(
        "output/gross",
        "arithmetic: a great gross is 12 gross",
        {"pieces": "1 great gross"},
        {"pieces": "1728", "whole": "12", "over": "0"},
    ),
    Check(
        "output/piece-wages",
        "arithmetic: 4 d a gross, 60 gross, is £1 0s 0d",
        {"pieces": "60 gross", "rate": "4d"},
        {"pay": "240", "decimal": "1.000"},
    ),
    Check(
        "output/piece-wages",
        "arithmetic: 2½ d a gross, 85 gross, is 17s 8½d",
        {"pieces": "85 gross", "rate": "2½d"},
        {"pay": "212.5"},
    ),
    Check(
        "output/piece-wages",
        "arithmetic: 2½ d a gross, 1000 gross, is £10 8s 4d",
        {"pieces": "1,000 gross", "rate": "2½d"},
        {"pay": "2500"},
    ),
    Check(
        "output/order-time",
        "arithmetic: 100 gross at 40 a minute, 75 % of 8 h, is a day",
        {"order": "100 gross", "rate": "40", "utilisation": "75 %"},
        {"days": "1.00", "daily": "14400"},
    ),
    Check(
        "output/training",
        "common practice, no source: seven years against a week and a half (reference.md, L); 2556.75 days / 10.5 days",
        {"shorter": "1.5", "longer": "7 years"},
        {"ratio": "244", "years": "7.0"},
    ),
)


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_printed_figures(check: Check) -> None:
    """The reckoner gives the printed figure to half of its last digit."""
    check.holds()
