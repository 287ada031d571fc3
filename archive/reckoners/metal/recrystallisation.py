"""Where a metal worked cold forms new soft grains: why lead never hardens and tungsten hardly softens."""

from __future__ import annotations

from archive.reckoners.metal.annealing import ZERO_C_IN_K, recrystallises_c
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, words

ROOM_C = 20.0
# (recrystallises at, melts at), °C. Callister, Materials Science and Engineering, Table 8.2 (from memory).
METALS = {
    "lead": (-4.0, 327.0), "tin": (-4.0, 232.0), "zinc": (10.0, 420.0), "aluminium": (80.0, 660.0),
    "copper": (120.0, 1085.0), "brass": (475.0, 900.0), "nickel": (370.0, 1455.0), "iron": (450.0, 1538.0),
    "tungsten": (1200.0, 3410.0),
}  # fmt: skip
NAMES = {"aluminium": "aluminium, 99.999 % pure", "copper": "copper, 99.999 % pure", "brass": "brass 60/40"}


def share_of_melting(recrystallises: float, melts: float) -> float:
    """Where it recrystallises as a share of its melting point, both in °C and reckoned in kelvins."""
    return (recrystallises + ZERO_C_IN_K) / (melts + ZERO_C_IN_K)


def _work(given: Given) -> Worked:
    metal = given.word("metal")
    at, melts = METALS[metal]
    share = share_of_melting(at, melts)
    low, high = recrystallises_c(melts)
    cold = at <= ROOM_C
    says = (
        "it softens by itself at room heat and cannot be work-hardened"
        if cold
        else "it keeps its hardness at room heat"
    )
    steps = (
        f"The table gives {at:.0f} °C for {NAMES.get(metal, metal)}, which melts at {melts:.0f} °C.",
        f"({at:.0f} + 273) / ({melts:.0f} + 273) = {share:.2f} of its melting point in kelvins.",
        f"The rule of 0.3 to 0.5 would say {low:.0f} to {high:.0f} °C.",
    )
    values: dict[str, float | str] = {"at": at, "melts": melts, "share": share, "says": says}
    within = 0.3 <= share <= 0.5
    warnings = () if within else ("Here the rule of 0.3 to 0.5 misses: alloying raises the heat. Trust the table.",)
    return Worked(values, steps, warnings)


RECRYSTALLISATION = Reckoner(
    name="metal/recrystallisation",
    title="Where worked metal goes soft by itself",
    about="The heat at which cold-worked metal forms new, soft grains, and how it goes with the melting point.",
    inputs=(
        choice("metal", "Metal", {key: NAMES.get(key, key) for key in METALS}, "One of the table.", default="copper"),
    ),
    outputs=(
        Output("at", "New grains form at about", "°C", 0),
        Output("melts", "Melts at", "°C", 0),
        Output("share", "Share of the melting point in kelvins", "times", 2),
        words("says", "So"),
    ),
    formula="share = (recrystallises + 273) / (melts + 273); as a rule 0.3 to 0.5",
    work=_work,
    sources=("callister-memory",),
    good_for=(
        "Metal worked hard and held about an hour. Worked less, or less pure, it needs more heat.",
        "The workshop's annealing heats are higher, for they must do it in minutes.",
    ),
)  # fmt: skip
