"""The line to stand behind: the larger of the keeper's own and the map's, and what ears need there."""

from __future__ import annotations

import pytest

from archive.objects.running.line import NONE, OFFERED, WORN, line_of
from archive.reckoners.noise_field.field import Field
from archive.reckoners.noise_field.rooms import Machine, SoundHouse, SoundRoom

HALL = SoundRoom("hall", ((0.0, 0.0), (20.0, 0.0), (20.0, 12.0), (0.0, 12.0)), 5.0, 0.3)


def placed(level_db: float) -> tuple[Machine, SoundHouse]:
    """A machine in the middle of a hall with soft walls, with its level at two metres."""
    machine = Machine("m", "hall", (10.0, 6.0), level_db, 2.0)
    return machine, SoundHouse((HALL,), (), (machine,))


def test_without_a_measured_level_the_keepers_line_stands_and_ears_are_guarded() -> None:
    """Nothing is taken for quiet because nobody measured it."""
    line = line_of(2.5, None, None, sudden=False)
    assert (line.metres, line.asked_m, line.level_db) == (2.5, None, None)
    assert (line.group_ears, line.operator_ears) == (OFFERED, WORN)


@pytest.mark.parametrize(("own", "level", "larger"), [(6.0, 80.0, "the keeper's"), (0.5, 80.0, "the map's")])
def test_the_larger_of_the_two_lines_is_taken(own: float, level: float, larger: str) -> None:
    """Whichever is further off, and the sentence says which."""
    line = line_of(own, *placed(level), sudden=False)
    assert line.asked_m is not None
    assert line.metres == max(own, line.asked_m)
    assert f"The larger of the two is {larger}." in line.how


def test_behind_the_maps_line_the_group_is_below_the_lower_action_value() -> None:
    """The whole figure shown is below 80, so nobody needs protectors for the level."""
    line = line_of(0.5, *placed(80.0), sudden=False)
    assert line.level_db is not None
    assert line.level_db <= 79
    assert line.group_ears == NONE


def test_the_level_at_the_line_is_that_of_the_map() -> None:
    """Read off the field at the same distance."""
    machine, house = placed(88.0)
    line = line_of(4.0, machine, house, sudden=False)
    at = Field(house).level_at("hall", (10.0 + line.metres, 6.0))
    assert line.level_db == round(at)


@pytest.mark.parametrize(("level", "ears"), [(96.0, WORN), (82.0, OFFERED), (74.0, NONE)])
def test_ears_follow_the_level_at_the_line(level: float, ears: str) -> None:
    """85 and more is worn, 80 and more offered, in a hard room that no distance makes quiet."""
    hard = SoundRoom("hall", ((0.0, 0.0), (6.0, 0.0), (6.0, 5.0), (0.0, 5.0)), 3.0, 0.03)
    machine = Machine("m", "hall", (3.0, 2.5), level, 2.0)
    line = line_of(2.0, machine, SoundHouse((hard,), (), (machine,)), sudden=False)
    assert line.group_ears == ears


def test_where_no_distance_is_enough_the_sentence_says_so() -> None:
    """The keeper's own line stands, and it is told that it does not guard the ears."""
    line = line_of(3.0, *placed(110.0), sudden=False)
    assert (line.metres, line.asked_m) == (3.0, None)
    assert "does not guard the ears" in line.how
    assert line.group_ears == WORN


def test_sudden_noise_has_protectors_offered_at_any_level() -> None:
    """An average says nothing of single blows."""
    assert line_of(6.0, *placed(70.0), sudden=True).group_ears == OFFERED
