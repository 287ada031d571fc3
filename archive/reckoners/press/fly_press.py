"""A blow of the fly press: what the swing of arm and balls stores, and the force that spends it."""

from __future__ import annotations

import math

from archive.reckoners.press.drop_stamp import fall_energy_j, mean_force_n
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number, refuse


def inertia_kg_m2(balls: float, ball_kg: float, radius_m: float, arm_kg: float, disc_kg: float, disc_m: float) -> float:
    """Moment of inertia about the screw: balls m r², an arm end to end (1/12) m (2 r)², a solid disc ½ m r².

    The balls are taken as points at their radius. Source: mechanics.
    """
    return balls * ball_kg * radius_m**2 + arm_kg * (2 * radius_m) ** 2 / 12 + disc_kg * disc_m**2 / 2


def spin_energy_j(inertia: float, turns_per_s: float) -> float:
    """Energy of what spins: ½ I ω², ω = 2 π n. Source: mechanics."""
    return 0.5 * inertia * (math.tau * turns_per_s) ** 2


def _work(given: Given) -> Worked:
    balls, ball, radius = given.number("balls"), given.number("ball"), given.number("radius")
    inertia = inertia_kg_m2(balls, ball, radius, given.number("arm"), given.number("disc"), given.number("disc_radius"))
    if inertia == 0:
        raise refuse("balls", "There are no balls, no arm and no disc", "Give the weight of at least one of them")
    turns = given.number("speed") / 60
    energy = spin_energy_j(inertia, turns)
    values: dict[str, float | str] = {"inertia": inertia, "energy": energy}
    steps = [
        f"I = {_parts_told(given)} = {inertia:.3f} kg m².",
        f"½ × {inertia:.3f} × (2π × {turns:.3g} a second)² = {energy:.1f} J.",
    ]
    for more, told in (_force(given, energy), _swing(given, energy, turns), _screw(given, turns)):
        values |= more
        steps += told
    fall = energy / fall_energy_j(10, 1)
    compare = f"As much as a 10 kg weight falling {fall:.2f} m."
    warnings = () if "force" in values else (
        "A spinning arm has no force of its own. Force follows only from the distance in which the work stops it.",
    )  # fmt: skip
    return Worked(values, tuple(steps), warnings, compare)


def _parts_told(given: Given) -> str:
    """The parts of the moment of inertia that are there."""
    radius = given.number("radius")
    parts = []
    if given.number("balls") and given.number("ball"):
        parts.append(f"{given.number('balls'):g} × {given.number('ball'):.4g} × {radius:.4g}²")
    if given.number("arm"):
        parts.append(f"{given.number('arm'):.4g} × {2 * radius:.4g}² / 12")
    if given.number("disc"):
        parts.append(f"½ × {given.number('disc'):.4g} × {given.number('disc_radius'):.4g}²")
    return " + ".join(parts)


def _force(given: Given, energy: float) -> tuple[dict[str, float | str], list[str]]:
    """The mean force over the working distance."""
    distance = given.maybe("working")
    if distance is None:
        return {}, []
    share = given.number("efficiency") / 100
    force = mean_force_n(energy * share, distance) / 1000
    return {"force": force}, [f"{energy * share:.1f} J spent in {distance:.3g} mm: {force:.1f} kN on average."]


def _swing(given: Given, energy: float, turns: float) -> tuple[dict[str, float | str], list[str]]:
    """The steady pull at the balls that gives this energy in one swing, and how long the swing takes."""
    swing, radius = given.maybe("swing"), given.number("radius")
    if swing is None:
        return {}, []
    angle = math.radians(swing)
    pull, seconds = energy / (radius * angle), 2 * angle / (math.tau * turns)
    told = f"Over a swing of {swing:.4g}°: {energy:.1f} J / ({radius:.3g} m × {angle:.3f}) = {pull:.0f} N at the balls."
    return {"pull": pull, "swing_time": seconds}, [told]


def _screw(given: Given, turns: float) -> tuple[dict[str, float | str], list[str]]:
    """How fast the ram comes down, and how far in one swing."""
    lead, swing = given.maybe("lead"), given.maybe("swing")
    if lead is None:
        return {}, []
    speed = lead / 1000 * turns
    values: dict[str, float | str] = {"ram_speed": speed}
    told = [f"{lead:.4g} mm a turn × {turns:.3g} turns a second: the ram comes down at {speed:.3f} m/s."]
    if swing is not None:
        values["travel"] = lead * swing / 360
        told.append(f"In that swing it travels {values['travel']:.1f} mm.")
    return values, told


FLY_PRESS_BLOW = Reckoner(
    name="press/fly-press-blow",
    title="The blow of a fly press",
    about="What the swing of arm and balls stores, and the mean force that the work feels.",
    inputs=(
        number("balls", "Balls on the arm", "pieces", 0, 4, "How many weights.", default="2", whole=True),
        number("ball", "Weight of each ball", "kg", 0, 500, "Of one of them.", default="12 kg"),
        number("radius", "From screw to ball", "m", 0.05, 3, "From the middle of the screw to the middle of a ball.",
               default="0.45 m"),
        number("speed", "Speed of the arm at the work", "a minute", 1, 600, "Turns a minute as the tool arrives.",
               default="60 a minute"),
        number("arm", "Weight of the bare arm", "kg", 0, 500, "End to end, without the balls.", default="0 kg"),
        number("disc", "Weight of a flywheel", "kg", 0, 5000, "If it has a wheel, taken as a solid disc.",
               default="0 kg"),
        number("disc_radius", "Radius of the flywheel", "m", 0, 3, "From the middle to the rim.", default="0 m"),
        number("swing", "Swing of the arm", "°", 5, 1080, "From where the hand pulls to the work.", optional=True),
        number("lead", "Lead of the screw", "mm", 1, 500, "How far the ram comes down in one turn.", optional=True),
        number("working", "Working distance", "mm", 0.01, 200, "How far the tool goes while the work stops it.",
               optional=True),
        number("efficiency", "Share of the energy that the work gets", "%", 1, 100,
               "The screw and the frame take some.", default="100 %"),
    ),
    outputs=(
        Output("energy", "Energy of the swing", "J", 0),
        Output("inertia", "Moment of inertia", "kg m²", 2),
        Output("force", "Mean force over the working distance", "kN", 1),
        Output("pull", "Steady pull at the balls", "N", 0),
        Output("swing_time", "Time of the swing", "s", 2),
        Output("ram_speed", "Speed of the ram", "m/s", 3),
        Output("travel", "Travel of the ram in the swing", "mm", 1),
    ),
    formula="energy = ½ × I × (2π × turns a second)²; force = energy / working distance",
    work=_work,
    sources=("mechanics",),
    good_for=(
        "Balls small beside their radius. The weight of screw and ram is left out: it adds very little.",
        "The mean force, not the peak. Swing: a steady pull from rest.",
    ),
)  # fmt: skip
