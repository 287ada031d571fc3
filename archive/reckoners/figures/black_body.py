"""The colour of a glowing black body: Planck's law through the eye of CIE 1931, as sRGB for a screen.

Sources: Planck's law (constants CODATA 2018); CIE 1931 standard observer, 2 degrees, at 5 nm (ISO/CIE 11664-1), in
cie_1931.csv; sRGB by IEC 61966-2-1. Checked against chromaticities of black bodies printed by the CIE.
"""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

SECOND_RADIATION_CONSTANT_M_K = 1.438776877e-2
ZERO_C_IN_K = 273.15
# How bright a swatch is drawn is not to scale: glow at 1500 °C is some thirty million times that at 500 °C. The sixth
# root of its share of the brightest brings dark red to a dark red on a screen.
BRIGHTEST_C = 1500.0
_ROOT = 6.0
_XYZ_TO_RGB = np.array(
    [[3.2406, -1.5372, -0.4986], [-0.9689, 1.8758, 0.0415], [0.0557, -0.2040, 1.0570]], dtype=np.float64
)
_WHITE = np.array([1.0, 1.0, 1.0])


@cache
def _observer() -> NDArray[np.float64]:
    """Rows of wavelength nm, x, y, z."""
    return np.loadtxt(Path(__file__).with_name("cie_1931.csv"), delimiter=",", skiprows=1)


def tristimulus(temperature_k: float) -> NDArray[np.float64]:
    """X, Y, Z of a black body: the sum over wavelengths of Planck's law times the observer."""
    table = _observer()
    wave_m = table[:, 0] * 1e-9
    glow = wave_m**-5 / np.expm1(SECOND_RADIATION_CONSTANT_M_K / (wave_m * temperature_k))
    return np.asarray(glow @ table[:, 1:])


def chromaticity(temperature_k: float) -> tuple[float, float]:
    """x and y of CIE 1931."""
    added = tristimulus(temperature_k)
    return float(added[0] / added.sum()), float(added[1] / added.sum())


def srgb(temperature_c: float) -> str:
    """The colour of a glow as "#rrggbb". What no screen can show is brought in towards grey until it can."""
    added = tristimulus(temperature_c + ZERO_C_IN_K)
    bright = (added[1] / tristimulus(BRIGHTEST_C + ZERO_C_IN_K)[1]) ** (1 / _ROOT)
    linear = _XYZ_TO_RGB @ (added / added[1])
    if linear.min() < 0:
        linear = linear - linear.min() * _WHITE
    linear = linear / linear.max() * min(1.0, float(bright))
    return "#" + "".join(f"{round(255 * _encoded(float(part))):02x}" for part in linear)


def _encoded(linear: float) -> float:
    """The screen's own curve. Source: IEC 61966-2-1."""
    return 12.92 * linear if linear <= 0.0031308 else 1.055 * math.pow(linear, 1 / 2.4) - 0.055
