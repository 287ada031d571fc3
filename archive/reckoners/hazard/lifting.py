"""The effort of lifting a weight again and again, all day."""

from __future__ import annotations

from archive.reckoners.hazard.cautions import LIFTING_CAUTION
from archive.reckoners.measures import STANDARD_GRAVITY_M_PER_S2
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number

_STAIR_M = 0.17
_PERSON_KG = 75.0


def lift_force_n(mass_kg: float, carried_share: float) -> float:
    """Force in the hand: m g (1 - c), c the share that a counter-drive carries. Source: mechanics."""
    return mass_kg * STANDARD_GRAVITY_M_PER_S2 * (1 - carried_share)


def lift_work_j(mass_kg: float, height_m: float, carried_share: float) -> float:
    """Work of one lift: force × height."""
    return lift_force_n(mass_kg, carried_share) * height_m


def _work(given: Given) -> Worked:
    mass, height, carried = given.number("mass"), given.number("height"), given.number("carried") / 100
    rate, hours = given.number("rate"), given.number("hours")
    force, work = lift_force_n(mass, carried), lift_work_j(mass, height, carried)
    lifts = rate * 60 * hours
    values: dict[str, float | str] = {
        "force": force, "work": work, "power": work * rate / 60, "lifts": lifts, "day": work * lifts / 1000,
        "moved": mass * (1 - carried) * lifts,
    }  # fmt: skip
    by = f" × (1 − {carried:.3g})" if carried else ""
    steps = (
        f"{mass:.4g} kg × 9.80665{by} = {force:.0f} N; × {height:.4g} m = {work:.0f} J each time.",
        f"{rate:g} a minute for {hours:g} h: {lifts:,.0f} lifts, {work * rate / 60:.0f} W while at it, "
        f"{work * lifts / 1000:,.0f} kJ in the day.",
    )
    stairs = work * lifts / (_PERSON_KG * STANDARD_GRAVITY_M_PER_S2 * _STAIR_M)
    compare = f"As much work as a person of 75 kg does climbing {stairs:,.0f} stairs."
    return Worked(values, steps, compare=compare)


LIFTING = Reckoner(
    name="hazard/lifting",
    title="Lifting, all day",
    about="The pull in the hand, the work of a lift, and what a day of lifts comes to.",
    inputs=(
        number("mass", "Weight lifted", "kg", 0.05, 5000, "A tup of 40 lb, a tray, a die.", default="40 lb"),
        number("height", "Height of the lift", "m", 0.01, 10, "How far up.", default="1.7 m"),
        number("carried", "Carried by a counter-drive", "%", 0, 100, "Share of the weight taken off the hand.",
               default="0 %"),
        number("rate", "Lifts a minute", "a minute", 0.01, 120, "While at it; a hand stamp 8 to 12.",
               default="8 to 12 a minute"),
        number("hours", "Hours at it", "h", 0.01, 24, "In the day, without rest.", default="8 h"),
    ),
    outputs=(
        Output("force", "Pull in the hand", "N", 0),
        Output("work", "Work of one lift", "J", 0),
        Output("power", "Power while at it", "W", 0),
        Output("lifts", "Lifts in the day", "lifts", 0),
        Output("moved", "Weight lifted in the day", "kg", 0),
        Output("day", "Work in the day", "kJ", 0),
    ),
    formula="force = weight × g × (1 − share carried); work = force × height; power = work × lifts a minute / 60",
    work=_work,
    sources=("mechanics", "counter-drive", "trade"),
    good_for=("The work done on the weight. A body spends several times as much, and lifts itself besides.",),
    caution=LIFTING_CAUTION,
)  # fmt: skip
