"""How far back a group stands at a demonstration, and what it takes in over a tour."""

from __future__ import annotations

from archive.reckoners.hazard.acoustics import power_from_level_db, room_level_db, stand_back_m
from archive.reckoners.hazard.cautions import NOISE_CAUTION
from archive.reckoners.hazard.noise_law import LOWER_ACTION_DB, daily_exposure_db, points, standing_told, time_told
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number, words

FLOOR = 2.0
_ENDLESS_ROOM_M2 = 1e12
_SECONDS_IN_HOUR = 3600.0
_NEAREST_M = 0.5


def _work(given: Given) -> Worked:
    level, at, distance = given.number("level"), given.number("at"), given.number("distance")
    wanted, area = given.number("wanted"), given.maybe("absorption")
    power = power_from_level_db(level, at, FLOOR)
    line = stand_back_m(power, wanted, FLOOR, area)
    there = room_level_db(power, distance, FLOOR, area or _ENDLESS_ROOM_M2)
    hours = given.number("lasts") * given.number("demonstrations") / _SECONDS_IN_HOUR
    tours = given.number("tours")
    group, guide = daily_exposure_db([(there, hours)]), daily_exposure_db([(there, hours * tours)])
    values: dict[str, float | str] = {
        "there": there, "group": group, "group_points": points(there, hours), "guide": guide,
        "guide_points": points(there, hours * tours), "guide_standing": standing_told(guide),
        "line": _line_told(line, wanted),
    }  # fmt: skip
    if line is not None:
        values["line_at"] = line
    room = f", with what a room of {area:g} m² of absorption gives back" if area else ", in the open"
    steps = (
        f"{level:g} dB(A) at {at:g} m, on the floor: sound power level {power:.1f} dB.",
        f"Down to {wanted:g} dB(A): {_line_told(line, wanted)}{room}.",
        f"At {distance:g} m: {there:.1f} dB(A). On a tour {time_told(hours)}: {group:.1f} dB(A) as a day.",
        f"The guide, {tours:g} tours a day: {guide:.1f} dB(A), {values['guide_points']:.1f} points.",
    )
    return Worked(values, steps, _warnings(area, there, guide))


def _line_told(line: float | None, wanted: float) -> str:
    if line is None:
        return f"no distance is enough: the room alone gives more than {wanted:g} dB(A)"
    return f"stand {max(line, _NEAREST_M):.1f} m back or more"


def _warnings(area: float | None, there: float, guide: float) -> tuple[str, ...]:
    told = []
    if area is None:
        told.append("Reckoned as in the open. In a room it is louder: give the room's absorption, or measure.")
    if there >= LOWER_ACTION_DB:
        told.append("At this spot you cannot talk at ease: offer ear defenders, and think of children and babies.")
    if guide >= LOWER_ACTION_DB:
        told.append(f"The guide's day is {standing_told(guide)}.")
    return (*told, "The law on noise at work covers staff and volunteers. Visitors are owed care too.",
            "This is for noise alone. Moving parts, sparks and flying scale set a line of their own.")  # fmt: skip


STAND_BACK = Reckoner(
    name="hazard/stand-back",
    title="Standing back at a demonstration",
    about="How far back the noise is down to a level, and what a group and its guide take in.",
    inputs=(
        number("level", "Level of the machine, dB(A)", "dB", 40, 150, "While it runs or strikes.", default="96 dB"),
        number("at", "Measured at", "m", 0.1, 100, "From the machine.", default="3 m"),
        number("wanted", "Level wanted for the group, dB(A)", "dB", 50, 110, "While it runs.", default="85 dB"),
        number("distance", "The group stands at", "m", 0.5, 200, "From the machine.", default="3 m"),
        number("absorption", "Absorption of the room", "m²", 0.5, 1e5, "Surface × absorption; leave out in the open.",
               optional=True),
        number("lasts", "One demonstration lasts", "s", 0.1, 28_800, "Only while it is loud.", default="1 min"),
        number("demonstrations", "Demonstrations on a tour", "times", 1, 100, "Of this machine.", default="1"),
        number("tours", "Tours that the guide gives in a day", "times", 1, 40, "With the demonstration.", default="4"),
    ),
    outputs=(
        words("line", "Stand-back line"),
        Output("line_at", "Level wanted is reached at", "m", 1),
        Output("there", "Level where the group stands, dB(A)", "dB", 1),
        Output("group", "The group's tour as a day of eight hours, dB(A)", "dB", 1),
        Output("group_points", "The group's points", "points", 1),
        Output("guide", "The guide's day, dB(A)", "dB", 1),
        Output("guide_points", "The guide's points", "points", 1),
        words("guide_standing", "The guide, by UK law"),
    ),
    formula="level = power + 10 lg (2 / (4π × distance²) + 4 / absorption); "
    "day = 10 lg (time × 10^(level / 10) / 8 h)",
    work=_work,
    sources=("bies-hansen", "noise-regulations", "arithmetic"),
    good_for=(
        "One machine on the floor, the level measured near it and mostly straight from it. Blows: the level is the "
        "LAeq while they fall, and peaks need a meter of their own.",
    ),
    caution=NOISE_CAUTION,
)  # fmt: skip
