"""A blow of the drop stamp: how fast the tup arrives, what it brings, and what stopping it does."""

from __future__ import annotations

import math

from archive.reckoners.measures import STANDARD_GRAVITY_M_PER_S2
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number, refuse

_SUGAR_BAG_KG = 1.0
_TABLE_M = 0.75


def fall_energy_j(mass_kg: float, fall_m: float, friction_share: float = 0.0) -> float:
    """Energy of the tup as it arrives: m g h (1 - f), f the share of its weight that the guides hold back.

    Source: mechanics, g = 9.80665 m/s².
    """
    return mass_kg * STANDARD_GRAVITY_M_PER_S2 * fall_m * (1 - friction_share)


def fall_speed_m_per_s(fall_m: float, friction_share: float = 0.0) -> float:
    """Speed of the tup as it arrives: sqrt(2 g h (1 - f)). The weight makes no difference."""
    return math.sqrt(2 * STANDARD_GRAVITY_M_PER_S2 * fall_m * (1 - friction_share))


def mean_force_n(energy_j: float, stopping_mm: float) -> float:
    """Mean force while the energy is spent over the set: E / s."""
    return energy_j / (stopping_mm / 1000)


def blows_needed(needed_j: float, light_j: float, blow_j: float) -> int:
    """The light blow, then as many working blows as make up the energy that the work takes."""
    return (1 if light_j else 0) + max(0, math.ceil((needed_j - light_j) / blow_j - 1e-12))


def _work(given: Given) -> Worked:
    mass, fall, loss = given.number("mass"), given.number("fall"), given.number("friction") / 100
    energy, speed = fall_energy_j(mass, fall, loss), fall_speed_m_per_s(fall, loss)
    values: dict[str, float | str] = {"energy": energy, "speed": speed}
    kept = f" × (1 − {loss:.3g})" if loss else ""
    steps = [
        f"{mass:.4g} kg × 9.80665 m/s² × {fall:.4g} m{kept} = {energy:.1f} J.",
        f"√(2 × 9.80665 m/s² × {fall:.4g} m{kept}) = {speed:.2f} m/s.",
    ]
    for more, told in (_light(given, mass, loss), _force(given, energy), _blows(given, energy), _lift(given)):
        values |= more
        steps += told
    bags = energy / fall_energy_j(_SUGAR_BAG_KG, _TABLE_M)
    compare = f"As much as {bags:,.0f} one-kilogram bags of sugar dropped together from a table {_TABLE_M:g} m high."
    return Worked(values, tuple(steps), _warnings(given), compare)


def _light(given: Given, mass: float, loss: float) -> tuple[dict[str, float | str], list[str]]:
    """The first light blow, which beds the sheet."""
    fall = given.maybe("light_fall")
    if fall is None:
        return {}, []
    if fall > given.number("fall"):
        raise refuse("light_fall", f"{fall:g} m is more than the working fall", "Give no more than the working fall")
    energy = fall_energy_j(mass, fall, loss)
    return {"light_energy": energy}, [f"The light blow falls {fall:.4g} m: {energy:.1f} J."]


def _force(given: Given, energy: float) -> tuple[dict[str, float | str], list[str]]:
    """The mean force over the set."""
    stopping = given.maybe("stopping")
    if stopping is None:
        return {}, []
    share = (given.maybe("efficiency") or 100.0) / 100
    force = mean_force_n(energy * share, stopping) / 1000
    return {"force": force}, [f"{energy * share:.1f} J stopped in {stopping:.3g} mm: {force:.1f} kN on average."]


def _blows(given: Given, energy: float) -> tuple[dict[str, float | str], list[str]]:
    """How many blows the work takes, where its energy is given."""
    needed, percent = given.maybe("needed"), given.maybe("efficiency")
    if needed is None:
        return {}, []
    if percent is None:
        raise refuse("efficiency", "Blows are asked for, but not what share of a blow the work gets", "Give the share")
    light, loss = given.maybe("light_fall"), given.number("friction") / 100
    light_j = fall_energy_j(given.number("mass"), light, loss) * percent / 100 if light else 0.0
    blow_j = energy * percent / 100
    if needed > 1e6 * blow_j:
        raise refuse("needed", f"{needed:g} J would be over a million blows", "Give less energy, or a heavier blow")
    count = blows_needed(needed, light_j, blow_j)
    lit = f" less {light_j:.1f} J from the light blow" if light_j else ""
    return {"blows": float(count)}, [f"{needed:.4g} J{lit}, at {blow_j:.1f} J a blow: {count} in all."]


def _lift(given: Given) -> tuple[dict[str, float | str], list[str]]:
    """What the hand lifts, with a counter-drive if there is one."""
    mass, fall, carried = given.number("mass"), given.number("fall"), given.number("counter") / 100
    force = mass * STANDARD_GRAVITY_M_PER_S2 * (1 - carried)
    by = f" × (1 − {carried:.3g})" if carried else ""
    told = f"To lift it: {mass:.4g} kg × 9.80665{by} = {force:.0f} N, {force * fall:.0f} J each time."
    return {"lift_force": force, "lift_energy": force * fall}, [told]


def _warnings(given: Given) -> tuple[str, ...]:
    told = []
    if given.maybe("stopping") is None:
        told.append("A falling tup has no force of its own. Force follows only from how far it goes while it stops.")
    elif given.maybe("efficiency") is None:
        told.append("All the energy is taken as spent in the set. Some goes into the bed, the frame and the noise.")
    return tuple(told)


DROP_STAMP_BLOW = Reckoner(
    name="press/drop-stamp-blow",
    title="The blow of a drop stamp",
    about="How fast the tup arrives, the energy it brings, and the mean force while the work stops it.",
    inputs=(
        number("mass", "Weight of the tup", "kg", 0.5, 20_000, "With the force fixed in it: 40 lb, 1 cwt, 1 ton.",
               default="40 lb"),
        number("fall", "Fall of the working blow", "m", 0.01, 10, "From where it is let go to the work.",
               default="1.7 m"),
        number("light_fall", "Fall of the first, light blow", "m", 0.005, 10, "The blow that beds the sheet.",
               optional=True),
        number("friction", "Held back by the guides", "%", 0, 90, "As a share of the weight of the tup.",
               default="0 %"),
        number("stopping", "Set", "mm", 0.01, 200, "How far the work gives while it stops the tup.", optional=True),
        number("efficiency", "Share of the blow that the work gets", "%", 1, 100,
               "Measured or judged by you; nothing is assumed.", optional=True),
        number("needed", "Energy that the work takes", "J", 0.1, 1e8, "To reckon the number of blows.", optional=True),
        number("counter", "Carried by the counter-drive", "%", 0, 100, "Share of the weight lifted for the hand.",
               default="0 %"),
    ),
    outputs=(
        Output("energy", "Energy of the working blow", "J", 0),
        Output("speed", "Speed as it arrives", "m/s", 2),
        Output("light_energy", "Energy of the light blow", "J", 0),
        Output("force", "Mean force over the set", "kN", 1),
        Output("blows", "Blows in all", "blows", 0),
        Output("lift_force", "Force to lift the tup", "N", 0),
        Output("lift_energy", "Work of one lift", "J", 0),
    ),
    formula="energy = mass × g × fall × (1 − friction); speed = √(2 × g × fall × (1 − friction)); force = energy / set",
    work=_work,
    sources=("mechanics", "counter-drive", "trade"),
    good_for=(
        "A tup that falls freely in its guides. A counter-drive that lets go helps the lift "
        "and leaves the blow as it is.",
        "The mean force, not the peak, which is greater and is not told by this sum.",
    ),
)  # fmt: skip
