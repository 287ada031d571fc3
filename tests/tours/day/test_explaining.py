"""Why a day does not fit, and what would mend it, in words."""

from __future__ import annotations

from dataclasses import replace

from archive.tours.day.clashes import clashes
from archive.tours.day.explaining import why_not
from archive.tours.day.problem import DayProblem, Run
from archive.tours.day.solving import solve_day
from archive.tours.day.words import Names, advice, clash_told, mend_told
from tests.tours.day.days import going

NAMES = Names({"hall": "Hall"}, {"m": "Drop stamp"}, {"dm": "A blow"})


def school_day() -> DayProblem:
    """A school that may only come at 11:00, and another tour fixed in the same hall."""
    fixed = going("walk", [("hall", 12)], size=15, leaves=660, fixed=True, earliest=660, latest=660)
    school = going("school", [("hall", 20)], size=15, earliest=660, latest=660)
    free = going("free", [("hall", 5)], size=5)
    return DayProblem((fixed, school, free), {"hall": 20})


def test_only_those_in_the_way_are_named() -> None:
    """The third departure fits anyhow, and is not told."""
    why = why_not(school_day())
    assert why.refs == ("walk", "school")
    assert [clash.kind for clash in why.clashes] == ["room"]


def test_the_nearest_mend_is_told_and_does_mend() -> None:
    """The school fifteen minutes later; a quarter of an hour is on the grid, ten minutes would not do."""
    problem = school_day()
    mend = why_not(problem).mends[0]
    assert mend_told(problem, mend) == "Let “school” leave at 11:15, 15 minutes after 11:00."
    eased = [replace(one, latest=mend.at) if one.ref == mend.ref else one for one in problem.goings]
    assert solve_day(replace(problem, goings=tuple(eased))).fits


def test_a_fixed_departure_may_be_the_one_to_give_way() -> None:
    """It is told to be unfixed."""
    problem = school_day()
    told = [mend_told(problem, mend) for mend in why_not(problem).mends]
    assert "Unfix the 11:00 “walk” and let it leave at 10:45." in told


def test_two_groups_in_one_room_are_told_with_figures() -> None:
    """Who, where, when, how many, and how many may be."""
    problem = school_day()
    times = {"walk": 660, "school": 665}
    assert clash_told(problem, clashes(problem, times)[-1], times, NAMES).startswith("The 11:05 “school” may leave")
    told = clash_told(problem, clashes(problem, times)[0], times, NAMES)
    assert told == (
        "The 11:00 “walk” and the 11:05 “school” are both in the hall from 11:05 to 11:12: 30 people where 20 may be."
    )


def test_machine_noise_and_guide_are_told() -> None:
    """Each in a sentence that says what to look at."""
    run = Run(-60, 50, "m", "dm", "A blow", 0)
    one = replace(going("one", [("hall", 20)], guide="Ada", leaves=600), runs=(run,))
    two = replace(going("two", [("hall", 20)], guide="Ada", leaves=602), runs=(run,))
    problem = DayProblem((one, two), {"hall": 50}, {("dm", "st-hall"): 91.0})
    times = {"one": 600, "two": 602}
    told = " ".join(clash_told(problem, clash, times, NAMES) for clash in clashes(problem, times))
    assert "Ada gives the 10:00 “one” and the 10:02 “two”, with less than 10 minutes of pause between them." in told
    assert "The 10:00 “one” and the 10:02 “two” both ask for the drop stamp from 9:56 to 10:05" in told
    assert "stands in the noise of “A blow”" in told
    assert "above 80 dB(A)" in told


def test_what_no_time_mends_comes_with_advice() -> None:
    """A group too large and a day too loud."""
    large = going("one", [("hall", 20)], size=30, guide="Ada", noise=((99.0, 1.0),))
    problem = DayProblem((large,), {"hall": 20})
    why = why_not(problem)
    told = [clash_told(problem, clash, {}, NAMES) for clash in why.clashes]
    assert told == [
        "“one” has 30 people, and the hall holds 20.",
        "Ada’s day comes to 90.0 dB(A) over eight hours, above the action value of 80 dB(A): “one”.",
    ]
    assert all(advice(problem, clash) for clash in why.clashes)


def test_times_outside_the_window_are_told() -> None:
    """A departure moved by hand beyond what was asked."""
    problem = DayProblem((going("one", [("hall", 5)], leaves=800),), {"hall": 20})
    (clash,) = clashes(problem, {"one": 800})
    assert clash_told(problem, clash, {"one": 800}, NAMES) == "The 13:20 “one” may leave from 9:00 to 12:00 only."
