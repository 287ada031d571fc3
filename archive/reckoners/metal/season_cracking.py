"""Season cracking: brass that was worked cold and splits later by itself, where there is ammonia."""

from __future__ import annotations

from archive.reckoners.metal.alloys import alloys
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number, refuse, words

SUSCEPTIBLE_FROM_ZINC_PERCENT = 15.0
RELIEF_C, RELIEF_H = 260.0, 1.0
_STATES = {
    "worked": "worked cold and left so",
    "relieved": "worked cold, then stress relieved",
    "annealed": "annealed after the last working",
}
_PLACES = {
    "dry": "dry, and no ammonia known",
    "damp": "damp, ammonia not known",
    "ammonia": "near ammonia: stables, latrines, some cleaning fluids, manure",
}


def susceptible(zinc_percent: float) -> bool:
    """Whether a brass is of the kind that season cracks: more than 15 % zinc (Metals Handbook, from memory)."""
    return zinc_percent > SUSCEPTIBLE_FROM_ZINC_PERCENT


def risk(zinc_percent: float, state: str, place: str) -> str:
    """All three are needed: a brass rich in zinc, stress left in it, and ammonia with damp."""
    if state != "worked":
        return "low"
    if not susceptible(zinc_percent):
        return "low, unless ammonia is strong" if place == "ammonia" else "low"
    return {"dry": "possible in time", "damp": "real", "ammonia": "high"}[place]


def _zinc(given: Given) -> float:
    zinc, key = given.maybe("zinc"), given.word("alloy")
    if (zinc is None) == (not key):
        found = "Neither an alloy nor its zinc is given" if not key else "Both are given"
        raise refuse("alloy", found, "Choose an alloy, or give the zinc")
    return zinc if zinc is not None else alloys()[key].mix.get("Zn", 0.0)


def _work(given: Given) -> Worked:
    zinc, state, place = _zinc(given), given.word("state"), given.word("place")
    found = risk(zinc, state, place)
    values: dict[str, float | str] = {"zinc": zinc, "risk": found}
    steps = [
        f"{zinc:g} % zinc: {'more' if susceptible(zinc) else 'not more'} than {SUSCEPTIBLE_FROM_ZINC_PERCENT:g} %.",
        f"Stress left in it: {_STATES[state]}.",
        f"Where it is kept: {_PLACES[place]}.",
        f"All three together: the risk is {found}.",
    ]
    sources: tuple[str, ...] = ()
    if state == "worked" and susceptible(zinc):
        values |= {"relief_temperature": RELIEF_C, "relief_time": RELIEF_H}
        steps.append(f"Stress relief that leaves cartridge brass hard: {RELIEF_H:g} h at {RELIEF_C:g} °C.")
        sources = ("lfa-wire",)
    return Worked(
        values, tuple(steps), (), "Cartridge cases kept by stables split in the rainy season: hence the name.", sources
    )


SEASON_CRACKING = Reckoner(
    name="metal/season-cracking",
    title="Season cracking of brass",
    about="Whether a piece of brass may split by itself on the shelf, and what prevents it.",
    inputs=(
        choice("alloy", "Alloy", {k: a.name for k, a in alloys().items() if a.family in ("brass", "copper")},
               "A copper or brass of the table.", optional=True),
        number("zinc", "Or its zinc", "%", 0, 50, "Per cent by weight.", optional=True, sound=(0, 45)),
        choice("state", "How it was left", _STATES, "What was done to it last.", default="worked"),
        choice("place", "Where it is kept", _PLACES, "Damp and ammonia together do the harm.", default="damp"),
    ),
    outputs=(
        Output("zinc", "Zinc", "%", 1),
        words("risk", "Risk of season cracking"),
        Output("relief_temperature", "Stress relief at", "°C", 0),
        Output("relief_time", "Stress relief for", "h", 1),
    ),
    formula="a check of three things: zinc above 15 %, stress left by cold working, and ammonia with damp",
    work=_work,
    sources=("asm-season", "trade"),
    good_for=(
        "Copper-zinc alloys in air. It tells what to look for; it does not say when a piece will split.",
        "The heat for stress relief is that of cartridge brass; other brasses differ a little.",
    ),
)  # fmt: skip
