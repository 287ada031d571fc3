"""The noise field against the closed forms of acoustics, and what must be true of any field."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.reckoners.hazard.acoustics import room_level_db
from archive.reckoners.hazard.noise_law import NIOSH
from archive.reckoners.noise_field.about import time_told, times_told
from archive.reckoners.noise_field.field import Field
from archive.reckoners.noise_field.rooms import Machine, Opening, SoundHouse, SoundRoom
from archive.reckoners.noise_field.sound import power_level_db, room_constant_m2

SHOP = SoundRoom("shop", ((0, 0), (10, 0), (10, 8), (0, 8)), 4.0, 0.08)
STORE = SoundRoom("store", ((10, 0), (16, 0), (16, 8), (10, 8)), 3.0, 0.1)
YARD = SoundRoom("yard", ((0, 0), (200, 0), (200, 200), (0, 200)), 4.0, 1.0)
DOOR = Opening("door", "shop", "store", (10, 4), 2.0, True)
STAMP = Machine("stamp", "shop", (3, 4), 96.0, 3.0)


def alone(room: SoundRoom, *machines: Machine) -> Field:
    """The field of one room."""
    return Field(SoundHouse((room,), (), machines))


def test_the_surface_of_a_room_is_floor_ceiling_and_walls() -> None:
    """10 by 8 by 4 m: 2 × 80 + 36 × 4 = 304 m²."""
    assert SHOP.surface_m2 == pytest.approx(304)


@pytest.mark.parametrize("away", [0.5, 1, 2, 3.5, 6])
def test_one_source_in_one_room_is_the_closed_form(away: float) -> None:
    """L_p = L_W + 10 lg (Q / (4 π r²) + 4 / R). Source: Bies and Hansen, chapter 7 (from memory)."""
    constant = 304 * 0.08 / 0.92
    power = power_level_db(96, 3, constant)
    printed = power + 10 * math.log10(2 / (4 * math.pi * away**2) + 4 / constant)
    assert alone(SHOP, STAMP).level_at("shop", (3 + away, 4)) == pytest.approx(printed, abs=1e-9)
    assert room_level_db(power, away, 2, constant) == pytest.approx(printed, abs=1e-9)


def test_the_level_that_was_measured_comes_out_where_it_was_measured() -> None:
    """96 dB at 3 m in a room is 96 dB at 3 m on its map."""
    assert alone(SHOP, STAMP).level_at("shop", (6, 4)) == pytest.approx(96, abs=1e-9)


@pytest.mark.parametrize(("factor", "less"), [(2, 6.02), (10, 20.00), (4, 12.04)])
def test_out_of_doors_it_is_the_inverse_square(factor: float, less: float) -> None:
    """20 lg of the distance: 6.02 dB for a doubling, 20 for a tenfold. Source: reference A6, from memory."""
    field = alone(YARD, Machine("m", "yard", (100, 100), 90, 1))
    near, far = field.level_at("yard", (104, 100)), field.level_at("yard", (100 + 4 * factor, 100))
    assert near - far == pytest.approx(less, abs=0.005)
    assert field.reverberant_db("yard") == -math.inf


@pytest.mark.parametrize(("directivity", "printed"), [(1, 11), (2, 8)])
def test_power_to_level_out_of_doors(directivity: float, printed: float) -> None:
    """L_p = L_W - 20 lg r - 11 in the open, - 8 on the ground, at r = 1 m. Source: Bies and Hansen (from memory)."""
    machine = Machine("m", "yard", (100, 100), 100 - printed, 1, directivity)
    assert power_level_db(machine.level_db, 1, math.inf, directivity) == pytest.approx(100, abs=0.05)
    assert alone(YARD, machine).level_at("yard", (102, 100)) == pytest.approx(100 - printed - 6.02, abs=0.005)


def test_two_equal_sources_are_three_decibels_more() -> None:
    """85 and 85 are 88.0. Source: UK guide on sound, paragraph 1.19; exactly 10 lg 2 = 3.01."""
    once = alone(YARD, Machine("a", "yard", (100, 100), 85, 2)).level_at("yard", (102, 100))
    twice = alone(YARD, Machine("a", "yard", (100, 100), 85, 2), Machine("b", "yard", (100, 100), 85, 2)).level_at(
        "yard", (102, 100)
    )
    assert (once, twice) == (pytest.approx(85), pytest.approx(88.01, abs=0.005))


def test_half_the_absorption_is_three_decibels_more_of_the_reverberant_part() -> None:
    """4 / A: halving A adds 10 lg 2 = 3.01 dB for the same power. Source: reference A6, computed there."""
    thin = 0.002  # so thin that S α / (1 - α) is S α to a hundredth of a decibel
    half = alone(replace(SHOP, absorption=thin / 2), STAMP)
    whole = alone(replace(SHOP, absorption=thin), STAMP)
    powers = [power_level_db(96, 3, room_constant_m2(304, share)) for share in (thin / 2, thin)]
    more = (half.reverberant_db("shop") - powers[0]) - (whole.reverberant_db("shop") - powers[1])
    assert more == pytest.approx(3.01, abs=0.01)


def test_an_even_field_is_the_power_level_where_four_square_metres_take_it_in() -> None:
    """R = 4 m²: the reverberant level is L_W. Source: reference A6, computed there."""
    room = replace(SHOP, absorption=4 / (304 + 4))
    assert alone(room, STAMP).reverberant_db("shop") == pytest.approx(power_level_db(96, 3, 4.0), abs=1e-9)


def test_rooms_joined_by_a_door_keep_their_energy() -> None:
    """What comes in by machines and doors is what walls and doors take out, in each room."""
    field = Field(SoundHouse((SHOP, STORE), (DOOR,), (STAMP,)))
    even = {key: 10 ** (field.reverberant_db(key) / 10) for key in ("shop", "store")}
    power = 10 ** (power_level_db(96, 3, field.room_constant("shop")) / 10)
    straight = power * 2 / (4 * math.pi * 7**2) * DOOR.area_m2  # the door faces the stamp, seven metres off
    into_store = even["shop"] / 4 * DOOR.area_m2 + straight
    into_shop = power + even["store"] / 4 * DOOR.area_m2
    assert even["store"] * field.room_constant("store") / 4 == pytest.approx(into_store)
    assert even["shop"] * field.room_constant("shop") / 4 == pytest.approx(into_shop)


def test_a_shut_door_takes_off_what_it_is_said_to() -> None:
    """Shutting the door takes about 20 dB off the room beyond; a door that takes nothing off is open."""
    house = SoundHouse((SHOP, STORE), (DOOR,), (STAMP,))
    open_db = Field(house).level_at("store", (14, 6))
    shut = replace(house, openings=(replace(DOOR, is_open=False),))
    assert open_db - Field(shut).level_at("store", (14, 6)) == pytest.approx(20, abs=1.0)
    assert Field(replace(shut, shut_door_db=0)).level_at("store", (14, 6)) == pytest.approx(open_db)


def test_a_room_with_no_way_to_a_machine_is_silent() -> None:
    """Nothing is heard where no doorway leads."""
    assert Field(SoundHouse((SHOP, STORE), (), (STAMP,))).level_at("store", (14, 6)) == -math.inf


def test_a_corner_shades_the_machine_but_not_the_room() -> None:
    """Round the corner of an L-shaped room only the even part is heard."""
    ell = SoundRoom("ell", ((0, 0), (10, 0), (10, 4), (4, 4), (4, 10), (0, 10)), 4.0, 0.08)
    field = alone(ell, Machine("m", "ell", (9, 2), 90, 2))
    assert field.level_at("ell", (2, 9)) == pytest.approx(field.reverberant_db("ell"))
    assert field.level_at("ell", (3, 2)) > field.reverberant_db("ell")


def test_a_point_in_the_wall_is_read_at_the_wall() -> None:
    """The grid reaches beyond the walls; there the level is that of the nearest spot inside."""
    field = alone(SHOP, STAMP)
    levels = field.levels("shop", np.array([[-0.2, 4.0], [0.0, 4.0]]))
    assert levels[0] == pytest.approx(levels[1])


def test_the_distance_to_stand_back_to_is_where_the_level_is() -> None:
    """At the distance told the map reads the level asked for; where the room alone is louder there is none."""
    field = alone(SHOP, STAMP)
    metres = field.stand_back_m(STAMP, 98)
    assert metres is not None
    assert field.level_at("shop", (3 + metres, 4)) == pytest.approx(98, abs=1e-6)
    assert field.stand_back_m(STAMP, 90) is None
    assert alone(YARD, Machine("m", "yard", (100, 100), 91, 1)).stand_back_m(
        Machine("m", "yard", (100, 100), 91, 1), 85
    ) == pytest.approx(2, abs=0.01)


@pytest.mark.parametrize(
    ("level", "lower", "upper"),
    [
        (79, "more than 8 h", "more than 8 h"),
        (80, "8 h", "more than 8 h"),
        (85, "2 h 31 min", "8 h"),
        (95, "15 min", "48 min"),
        (100, "4 min", "15 min"),
        (115, "less than a minute", "less than a minute"),
    ],
)
def test_the_time_to_the_action_values_is_told_rounded_down(level: float, lower: str, upper: str) -> None:
    """95 dB 48 min, 100 dB 15.2. Source: UK guide on sound, paragraph 1.21, unrounded in reference A3."""
    assert times_told(level) == (lower, upper)
    assert time_told(NIOSH, 100) == "15 min"


@given(st.floats(0.02, 0.9), st.floats(0.02, 0.9), st.floats(0.3, 6))
def test_more_power_absorption_or_distance_does_what_physics_says(one: float, other: float, away: float) -> None:
    """More absorption is never louder for the same power, and further is never louder."""
    low, high = sorted((one, other))
    power = 100.0
    levels = [room_level_db(power, away, 2, room_constant_m2(304, share)) for share in (low, high)]
    assert levels[0] >= levels[1]
    assert room_level_db(power, away * 1.1, 2, room_constant_m2(304, low)) <= levels[0]
