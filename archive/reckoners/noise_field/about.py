"""The model in words: what it does, what it leaves out, where it holds, and what its figures rest on."""

from __future__ import annotations

from archive.reckoners.hazard.noise_law import LOWER, REFERENCE_HOURS, UPPER, Regime

HOW = (
    "In each room two sounds are added: the machine's own, which thins with distance (6 dB for each doubling), and an "
    "even one thrown back by walls, floor and ceiling, the same all over the room.",
    "A machine's power is found from the level that was measured where it stands, with the room's share taken out.",
    "A doorway is met by both sounds. What passes it sounds in the next room, and comes back again: all rooms of the "
    "house are worked out together.",
)
LEFT_OUT = (
    "Walls, floors and stairs pass no sound, and shut windows none. Only doorways do.",
    "A machine is one point on a hard floor, not nearer than half a metre. Corners throw a shadow in the machine's own "
    "sound; machines and people throw none.",
    "A doorway sends sound evenly into the next room, not as a beam.",
    "One level in dB(A), an average over the demonstration. Single blows peak far higher, and peaks are not shown.",
)
HOLDS = (
    "Rooms that are not far longer than they are wide, with hard walls (mean absorption up to about 0.3). Within about "
    "3 dB there; less surely in passages, in the yard and within a metre of a machine or doorway.",
)
SOURCES = ("bies-hansen", "noise-regulations", "hse-screening", "sound-advice")
# From the level up, what it means to people: to 90 dB by HSE L108 (as quoted), above by the UK guide on sound.
HEARD_AS = (
    (100.0, "very loud: a quarter of an hour of it makes up a whole day's upper action value"),
    (95.0, "very loud: three quarters of an hour of it makes up a whole day's upper action value"),
    (90.0, "you must shout at one metre"),
    (85.0, "you must shout at two metres"),
    (80.0, "you can talk, but it intrudes"),
    (75.0, "below the action values; loud for a talk"),
    (70.0, "below the action values"),
)
QUIET = "below 70 dB(A)"


def heard_as(level_db: float) -> str:
    """What a level means to people."""
    return next((words for low, words in HEARD_AS if level_db >= low), QUIET)


def time_told(value: Regime, level_db: float) -> str:
    """How long at a level makes up an action value, rounded down to minutes; past a day of eight hours just that."""
    hours = value.hours_allowed(level_db)
    if hours >= REFERENCE_HOURS:
        return "more than 8 h" if hours > REFERENCE_HOURS else "8 h"
    if hours >= 1:
        whole, rest = divmod(int(hours * 60), 60)
        return f"{whole} h {rest:02d} min"
    minutes = int(hours * 60)
    return f"{minutes} min" if minutes else "less than a minute"


def times_told(level_db: float) -> tuple[str, str]:
    """How long makes up the lower and the upper action value."""
    return time_told(LOWER, level_db), time_told(UPPER, level_db)
