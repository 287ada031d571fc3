"""What breaks on a day, what would mend it and what a plan moved, said to the people who give the tours. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from archive.plan.directions import plain_name
from archive.tours.day.clashes import Clash
from archive.tours.day.explaining import Mend
from archive.tours.day.problem import TENTHS, DayProblem, Going
from archive.values.counting import counted
from archive.values.dayclock import minute_told


@dataclass(frozen=True)
class Names:
    """How rooms, machines and demonstrations are called, by reference."""

    rooms: Mapping[str, str]
    machines: Mapping[str, str]
    demonstrations: Mapping[str, str]


def spoken(going: Going, at: int | None = None) -> str:
    """A departure as people speak of it: the 11:00 school tour (Jory)."""
    minute = going.leaves if at is None else at
    when = "" if minute is None else f"the {minute_told(minute)} "
    return f"{when}“{going.name}”"


def clash_told(problem: DayProblem, clash: Clash, times: Mapping[str, int], names: Names) -> str:
    """One thing that breaks, in a sentence or two."""
    who = [spoken(problem.by_ref[ref], times.get(ref)) for ref in clash.refs]
    return _upper(_TOLD[clash.kind](problem, clash, who, names))


def mend_told(problem: DayProblem, mend: Mend) -> str:
    """A mend, as advice."""
    going = problem.by_ref[mend.ref]
    if going.fixed and going.leaves is not None:
        return f"Unfix {spoken(going)} and let it leave at {minute_told(mend.at)}."
    window = "before" if mend.at < going.earliest else "after"
    limit = going.earliest if mend.at < going.earliest else going.latest
    beyond = f"{counted(mend.minutes, 'minute')} {window} {minute_told(limit)}"
    return f"Let {spoken(going)} leave at {minute_told(mend.at)}, {beyond}."


def move_told(going: Going, before: int, after: int) -> str:
    """A departure that had a time and got another."""
    return f"“{going.name}” leaves at {minute_told(after)} and no longer at {minute_told(before)}."


def advice(problem: DayProblem, clash: Clash) -> str:
    """What to do about something that no other time would mend; "" for the rest."""
    if clash.kind == "large":
        return f"Make the group at most {clash.amount:.0f}, or choose a tour that does not go there."
    if clash.kind == "day":
        return "Give one of these tours to another guide, or choose one with fewer machines run."
    return ""


def _room(problem: DayProblem, clash: Clash, who: list[str], names: Names) -> str:
    people = sum(problem.by_ref[ref].size for ref in clash.refs)
    holds = problem.capacities[clash.thing]
    many = "both" if len(who) == 2 else "all"
    return (
        f"{listed(who)} are {many} in {plain_name(names.rooms[clash.thing])} {_when(clash)}: "
        f"{people} people where {holds} may be."
    )


def _large(problem: DayProblem, clash: Clash, who: list[str], names: Names) -> str:
    size = problem.by_ref[clash.refs[0]].size
    people, room = counted(size, "person", "people"), plain_name(names.rooms[clash.thing])
    return f"{who[0]} has {people}, and {room} holds {clash.amount:.0f}."


def _machine(problem: DayProblem, clash: Clash, who: list[str], names: Names) -> str:
    return f"{listed(who)} both ask for {plain_name(names.machines[clash.thing])} {_when(clash)}, warming up counted."


def _noise(problem: DayProblem, clash: Clash, who: list[str], names: Names) -> str:
    name = names.demonstrations[clash.thing]
    return (
        f"{who[1]} stands in the noise of “{name}”, run for {who[0]}, {_when(clash)}: "
        f"it is above {problem.rules.level_db:g} dB(A) there."
    )


def _guide(problem: DayProblem, clash: Clash, who: list[str], names: Names) -> str:
    pause = problem.rules.pause
    return f"{clash.thing} gives {listed(who)}, with less than {counted(pause, 'minute')} of pause between them."


def _day(problem: DayProblem, clash: Clash, who: list[str], names: Names) -> str:
    value = problem.rules.value_db
    return (
        f"{clash.thing}’s day comes to {clash.amount:.1f} dB(A) over eight hours, above the action value of "
        f"{value:g} dB(A): {listed(who)}."
    )


def _window(problem: DayProblem, clash: Clash, who: list[str], names: Names) -> str:
    going = problem.by_ref[clash.refs[0]]
    return f"{who[0]} may leave from {minute_told(going.earliest)} to {minute_told(going.latest)} only."


_TOLD = {
    "room": _room,
    "large": _large,
    "machine": _machine,
    "noise": _noise,
    "guide": _guide,
    "day": _day,
    "window": _window,
}


def listed(words: Sequence[str]) -> str:
    """One, two and three in a row."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _when(clash: Clash) -> str:
    begins, ends = (clash.begins or 0) // TENTHS, -(-(clash.ends or 0) // TENTHS)
    return f"from {minute_told(begins)} to {minute_told(ends)}"


def _upper(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]
