"""Bands and lines lie where the levels are."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest

from archive.reckoners.noise_field.contours import BANDS_DB, picture_of
from archive.reckoners.noise_field.field import Field
from archive.reckoners.noise_field.outlines import area_m2, facing, inside, seen
from archive.reckoners.noise_field.rooms import Machine, SoundHouse, SoundRoom

YARD = SoundRoom("yard", ((0, 0), (40, 0), (40, 40), (0, 40)), 4.0, 1.0)
STAMP = Machine("stamp", "yard", (20, 20), 91.02, 1.0)  # 85 dB at 2 m, 80 dB at 3.56 m in the open
UNIT = 0.01


def points(path: str) -> np.ndarray:
    """The points of a path, in metres."""
    found = re.findall(r"(-?[\d.]+),(-?[\d.]+)", path)
    return np.array(found, dtype=float) * UNIT


def rings(path: str) -> list[np.ndarray]:
    """The closed rings of a path."""
    return [points(ring) for ring in path.split("Z") if ring.strip()]


def test_a_line_runs_where_the_level_is() -> None:
    """The 80 dB line around one machine in the open is a circle at the distance of the inverse square."""
    field = Field(SoundHouse((YARD,), (), (STAMP,)))
    picture = picture_of(field.patch("yard", 0.25), UNIT, 85.0)
    line = next(line for line in picture.lines if line.level_db == 80)
    away = np.hypot(*(points(line.path) - 20).T)
    assert away == pytest.approx(10 ** ((91.02 - 80) / 20), abs=0.05)


def test_the_stand_back_line_is_the_level_chosen_and_drawn_once() -> None:
    """At 85 dB it stands at two metres, in place of the band's own line; at 83 dB beside it."""
    field = Field(SoundHouse((YARD,), (), (STAMP,)))
    chosen = picture_of(field.patch("yard", 0.25), UNIT, 85.0)
    assert chosen.stand_back is not None
    assert np.hypot(*(points(chosen.stand_back.path) - 20).T) == pytest.approx(2.0, abs=0.05)
    assert 85.0 not in [line.level_db for line in chosen.lines]
    between = picture_of(field.patch("yard", 0.25), UNIT, 83.0)
    assert [line.level_db for line in between.lines] == [70.0, 75.0, 80.0, 85.0, 90.0, 95.0]


def test_bands_cover_the_rings_between_their_levels() -> None:
    """The area of the band from 80 to 85 dB is that between two circles, hole taken out."""
    field = Field(SoundHouse((YARD,), (), (STAMP,)))
    picture = picture_of(field.patch("yard", 0.25), UNIT, 85.0)
    band = next(band for band in picture.bands if band.from_db == 80)
    outer, inner = sorted((area_m2([tuple(p) for p in ring]) for ring in rings(band.path)), reverse=True)
    assert outer - inner == pytest.approx(math.pi * (3.556**2 - 2.0**2), rel=0.02)


def test_a_silent_room_has_no_bands() -> None:
    """Where no machine is heard nothing is drawn but the outline."""
    picture = picture_of(Field(SoundHouse((YARD,))).patch("yard", 0.25), UNIT, 85.0)
    assert (picture.bands, picture.lines, picture.stand_back) == ((), (), None)
    assert picture.outline.startswith("M0,0 4000,0")


def test_an_even_room_has_one_band_and_no_lines() -> None:
    """A small hard room far from the machine is one band from wall to wall."""
    room = SoundRoom("room", ((0, 0), (3, 0), (3, 3), (0, 3)), 3.0, 0.02)
    field = Field(SoundHouse((room,), (), (Machine("m", "room", (1.5, 1.5), 88, 1.0, 0.01),)))
    picture = picture_of(field.patch("room", 0.25), UNIT, 95.0)
    assert [band.from_db for band in picture.bands] == [85.0]
    assert picture.lines == ()


def test_labels_lie_on_their_line_and_off_other_marks() -> None:
    """A figure stands on its line, inside the room, and not where a check is."""
    field = Field(SoundHouse((YARD,), (), (STAMP,)))
    marks = [(20 + 3.556, 20.0)]
    for line in picture_of(field.patch("yard", 0.25), UNIT, 85.0, marks).lines:
        if line.label is None:
            continue
        spot = np.array(line.label) * UNIT
        assert np.hypot(*(points(line.path) - spot).T).min() < 0.01
        assert inside(YARD.outline, spot[None])[0]
        assert np.hypot(*(spot - marks[0])) > 0.69


def test_bands_begin_at_the_action_values_too() -> None:
    """80 and 85 dB(A), the action values, are edges of bands."""
    assert {80.0, 85.0} <= set(BANDS_DB)


def test_seeing_and_facing_in_a_corner() -> None:
    """Round a corner nothing is seen; a wall met straight on has a cosine of one."""
    ell = ((0, 0), (10, 0), (10, 4), (4, 4), (4, 10), (0, 10))
    spots = np.array([[2.0, 9.0], [2.0, 2.0], [3.9, 4.1]])
    assert seen(ell, (9, 2), spots).tolist() == [False, True, False]
    assert facing(ell, (10, 2), (5, 2)) == pytest.approx(1)
    assert facing(ell, (10, 2), (7, -1)) == pytest.approx(math.sqrt(0.5))
