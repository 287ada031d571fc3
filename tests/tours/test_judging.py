"""A tour as it stands is held against its wishes: what is wrong is told with what to do, and what adding takes."""

from __future__ import annotations

from dataclasses import replace

import pytest

from archive.tours.judging import Standing, additions, troubles
from archive.tours.planning.problem import Barred, Choice, Place, Problem

STATIONS = ("gate", "rolls", "press", "loft")
A_MINUTE_EACH = {(one, other): 10 for one in STATIONS for other in STATIONS if one != other}
NAMES = {"gate": "the gate", "rolls": "the rolls", "press": "the press", "loft": "the loft"}


PROBLEM = Problem(
    tenths=200,
    places=tuple(Place(ref, seats=ref == "loft") for ref in STATIONS),
    choices=(
        Choice("t-gate", "gate", "talk", 30),
        Choice("t-rolls", "rolls", "talk", 40),
        Choice("v-rolls", "rolls", "clip", 20, is_voice=True),
        Choice("d-press", "press", "demonstration", 50, noise=600_000),
        Choice("t-loft", "loft", "talk", 60),
    ),
    walks=A_MINUTE_EACH,
)
TOUR = (
    Standing(0, "gate", ("t-gate",)),
    Standing(1, "rolls", ("t-rolls",)),
    Standing(2, "press", ("d-press",)),
)


def said(problem: Problem, stops: tuple[Standing, ...] = TOUR) -> list[tuple[str, int | None]]:
    """What is wrong, and at which stop."""
    return [(trouble.what, trouble.position) for trouble in troubles(problem, stops, NAMES)]


def test_nothing_is_wrong_with_a_tour_that_keeps_to_its_wishes() -> None:
    """12 minutes of telling and 2 of walking are within 20."""
    assert said(PROBLEM) == []


def test_minutes_over_are_told() -> None:
    """12 minutes of telling and 2 of walking are 2 more than 12."""
    assert said(replace(PROBLEM, tenths=120)) == [("It runs 2 minutes over", None)]


def test_what_may_not_be_told_takes_its_minutes_all_the_same() -> None:
    """As long as it stands on the tour."""
    stops = (*TOUR[:2], Standing(2, "press", ("d-press", "x"), besides={"x": 70}))
    assert ("It runs 1 minute over", None) in said(PROBLEM, stops)


@pytest.mark.parametrize(
    ("change", "what", "at"),
    [
        ({"start": "rolls"}, "It does not start at the rolls, where the group meets", None),
        ({"finish": "gate"}, "It does not end at the gate, where the group leaves", None),
        ({"noise_left": 599_999}, "The group would take in more noise than its day allows", None),
        (
            {"guide_noise_left": 1},
            "With the day's other tours, the guide would take in more noise than a day allows",
            None,
        ),
        ({"must_stations": frozenset({"loft"})}, "the loft must be visited and is not", None),
        ({"must_tellings": frozenset({"t-loft"})}, "Something that must be told is not", None),
        ({"voice_every": 100}, "No voice is heard for 14 minutes", None),
        ({"seats_every": 100}, "There is no seat for 14 minutes", None),
        ({"before": frozenset({("press", "rolls")})}, "The metal goes to the press before it comes here", 1),
        ({"walks": {("gate", "rolls"): 10}}, "There is no way from the rolls that meets these needs", 2),
        (
            {"barred": (Barred("d-press", "press", "its clearance ran out on 3 May 2026"),)},
            "Its clearance ran out on 3 May 2026",
            2,
        ),
    ],
)
def test_each_wish_that_is_not_kept_is_told(change: dict[str, object], what: str, at: int | None) -> None:
    """With the stop where it is wrong, if it is wrong at one."""
    assert (what, at) in said(replace(PROBLEM, **change))  # type: ignore[arg-type]


def test_what_is_no_longer_in_use_is_told_at_its_stop() -> None:
    """It is neither to be chosen nor barred."""
    problem = PROBLEM.without("d-press")
    assert said(problem) == [("Something that is told here is no longer in use", 2)]


def test_everything_wrong_says_what_to_do() -> None:
    """No trouble is told without a remedy."""
    problem = replace(PROBLEM, tenths=10, start="loft", finish="loft", walks={}, noise_left=0, voice_every=10)
    found = troubles(problem, TOUR, NAMES)
    assert len(found) >= 6
    assert all(trouble.remedy for trouble in found)


def test_a_machine_outside_its_hours_is_told_and_one_that_can_be_waited_for_is_not() -> None:
    """It is reached at 9 minutes; the group may wait, but not go back in time."""

    def within(*windows: tuple[int, int]) -> Problem:
        choices = tuple(replace(one, windows=windows) if one.ref == "d-press" else one for one in PROBLEM.choices)
        return replace(PROBLEM, choices=choices)

    assert said(within((120, 130))) == []
    assert said(within((50, 80))) == [("The machine would run outside its hours", 2)]
    assert ("It runs 5 minutes over", None) in said(replace(within((120, 130)), tenths=120))


def test_a_voice_in_the_middle_breaks_the_silence() -> None:
    """From the start to the stop that has one 4 minutes, from its end to the finish 6: the whole stop counts."""
    stops = (TOUR[0], Standing(1, "rolls", ("t-rolls", "v-rolls")), TOUR[2])
    assert said(replace(PROBLEM, voice_every=60), stops) == []
    assert said(replace(PROBLEM, voice_every=59), stops) == [("No voice is heard for 6 minutes", None)]


def test_adding_at_a_stop_takes_its_own_minutes() -> None:
    """The tour stops at the rolls already."""
    adding = {one.telling: one for one in additions(PROBLEM, TOUR)}["v-rolls"]
    assert (adding.minutes, adding.over, adding.position) == (2.0, 0.0, None)


def test_adding_a_machine_takes_the_wait_for_it_too() -> None:
    """It is warm after ten minutes; the rolls are left after eight. Behind the last stop nothing is waited for."""
    stops = TOUR[:2]
    warm = tuple(replace(one, windows=((100, 150),)) if one.ref == "d-press" else one for one in PROBLEM.choices)
    adding = {one.telling: one for one in additions(replace(PROBLEM, choices=warm), stops)}["d-press"]
    assert (adding.minutes, adding.over, adding.position) == (7.0, 0.0, 2)
    late = tuple(replace(one, windows=((0, 5),)) if one.ref == "d-press" else one for one in PROBLEM.choices)
    adding = {one.telling: one for one in additions(replace(PROBLEM, choices=late, start="gate"), stops)}["d-press"]
    assert adding.barred == "The machine may not begin when the tour would be there"


def test_what_is_told_while_a_machine_warms_up_takes_no_longer() -> None:
    """The two minutes of the voice are waited otherwise."""
    warm = tuple(replace(one, windows=((120, 150),)) if one.ref == "d-press" else one for one in PROBLEM.choices)
    adding = {one.telling: one for one in additions(replace(PROBLEM, choices=warm), TOUR)}["v-rolls"]
    assert (adding.minutes, adding.over) == (0.0, 0.0)


def test_a_group_that_parts_where_it_met_keeps_the_order() -> None:
    """That it comes back to the gate at the end is no visit."""
    round_ = (*TOUR[:2], Standing(2, "gate", ()))
    problem = replace(PROBLEM, start="gate", finish="gate", before=frozenset({("gate", "rolls")}))
    assert said(problem, round_) == []


def test_adding_elsewhere_takes_the_way_too_and_says_where() -> None:
    """Between any two stops the loft is two minutes' walk less one; at the end it is one."""
    adding = {one.telling: one for one in additions(replace(PROBLEM, tenths=150), TOUR)}["t-loft"]
    assert (adding.minutes, adding.over, adding.position) == (7.0, 6.0, 0)


def test_adding_keeps_the_start_the_finish_and_the_order() -> None:
    """After the gate, before the press, and after the rolls there is one place."""
    problem = replace(PROBLEM, start="gate", finish="press", before=frozenset({("rolls", "loft")}))
    adding = {one.telling: one for one in additions(problem, TOUR)}["t-loft"]
    assert (adding.minutes, adding.position) == (7.0, 2)


def test_what_cannot_be_reached_or_is_barred_cannot_be_added() -> None:
    """Each says why."""
    no_way = {pair: steps for pair, steps in PROBLEM.walks.items() if "loft" not in pair}
    problem = replace(PROBLEM, walks=no_way, start="gate", barred=(Barred("x", "press", "needs the stairs"),))
    barred = {one.telling: one.barred for one in additions(problem, TOUR) if one.barred}
    assert barred == {
        "t-loft": "There is no way there and on that meets these needs and this order",
        "x": "needs the stairs",
    }
