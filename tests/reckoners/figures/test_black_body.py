"""Glow colours against chromaticities that the CIE prints."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest

from archive.reckoners.figures.black_body import chromaticity, srgb


@pytest.mark.parametrize(
    ("kelvin", "x", "y"),
    [
        (1000, "0.6527", "0.3445"),
        (1500, "0.5857", "0.3931"),
        (2000, "0.5267", "0.4133"),
        (6500, "0.3135", "0.3237"),
    ],
)
def test_black_bodies_have_their_printed_chromaticities(kelvin: float, x: str, y: str) -> None:
    """Half the last digit. Source: Wyszecki and Stiles, Color Science, Planckian locus (from memory)."""
    found = chromaticity(kelvin)
    assert found[0] == pytest.approx(float(x), abs=0.00006)
    assert found[1] == pytest.approx(float(y), abs=0.00006)


def test_the_standard_lamp_is_illuminant_a() -> None:
    """CIE standard illuminant A, a black body of 2855.5 K by today's constant: x 0.44757, y 0.40745. Source: CIE 15."""
    assert chromaticity(2855.5) == pytest.approx((0.44757, 0.40745), abs=0.00006)


def test_hotter_is_brighter_and_less_red() -> None:
    """Over every heat of the charts the swatch grows brighter and turns from red to orange."""
    colours = [_parts(srgb(heat)) for heat in range(430, 1500, 50)]
    for cooler, hotter in pairwise(colours):
        assert hotter[0] > cooler[0]
        assert hotter[1] >= cooler[1]
    assert colours[0][1] == 0
    assert colours[-1][1] > 100


def test_a_swatch_is_a_colour_a_screen_can_show() -> None:
    """Each is six hexadecimal digits; deep red has no green, and none is brighter than a screen."""
    for heat in range(200, 2000, 60):
        assert re.fullmatch("#[0-9a-f]{6}", srgb(heat))


def _parts(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)
