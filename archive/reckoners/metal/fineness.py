"""Fineness and carat, and the standard that an article may be marked with."""

from __future__ import annotations

from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number, refuse, words

# Standards of fineness by law: those of the Act of 1973, and those added from 1 January 1999 and later.
OF_1973 = {"gold": (375.0, 585.0, 750.0, 916.6), "silver": (925.0, 958.4), "platinum": (950.0,), "palladium": ()}
ADDED = {
    "gold": (990.0, 999.0),
    "silver": (800.0, 999.0),
    "platinum": (850.0, 900.0, 999.0),
    "palladium": (500.0, 950.0, 999.0),
}
NAMED = {
    ("silver", 925.0): "sterling",
    ("silver", 958.4): "Britannia",
    ("gold", 375.0): "9 carat",
    ("gold", 585.0): "14 carat",
    ("gold", 750.0): "18 carat",
    ("gold", 916.6): "22 carat",
}
# An article lighter than this, in grams, needs no mark.
EXEMPT_BELOW_G = {"gold": 1.0, "silver": 7.78, "platinum": 0.5, "palladium": 1.0}


def fineness_permille(precious_g: float, total_g: float) -> float:
    """Parts of precious metal in a thousand by weight: 1000 * precious / total."""
    return 1000 * precious_g / total_g


def fineness_of_carat_permille(carat: float) -> float:
    """Parts in a thousand of gold of so many carats: 1000 * carat / 24, for 0 to 24."""
    return 1000 * carat / 24


def carat_of_fineness(permille: float) -> float:
    """Carats of gold of so many parts in a thousand: 24 * fineness / 1000."""
    return 24 * permille / 1000


def standard_marked(metal: str, permille: float, *, since_1999: bool) -> float | None:
    """The highest standard that the metal reaches, always rounding down; None if it reaches none.

    Source: Hallmarking Act 1973, Schedule 2; SI 1998/2978 and later orders for the standards added from 1999.
    """
    standards = OF_1973[metal] + (ADDED[metal] if since_1999 else ())
    return max((standard for standard in standards if permille >= standard), default=None)


def _fineness_given(given: Given) -> tuple[float, str]:
    """The fineness from whichever way it was told, with the step."""
    told, precious, total = given.maybe("fineness"), given.maybe("precious"), given.maybe("total")
    if told is not None and precious is None:
        return told, f"Fineness as given: {told:.1f} parts in a thousand."
    if told is not None:
        raise refuse("fineness", "Both the fineness and a weight of precious metal are given", "Give one of them")
    if precious is None or total is None:
        raise refuse(
            "precious" if precious is None else "total",
            "There is nothing to reckon from",
            "Give the fineness, or both the weight of precious metal and the whole weight",
        )
    if precious > total:
        raise refuse("precious", f"{precious:g} g is more than the whole, {total:g} g", "Give at most the whole weight")
    permille = fineness_permille(precious, total)
    return permille, f"1000 × {precious:g} g / {total:g} g = {permille:.1f} parts in a thousand."


def _marking(metal: str, permille: float, law: str) -> tuple[dict[str, float | str], str]:
    """The mark and the step that tells it."""
    standard = standard_marked(metal, permille, since_1999=law == "from 1999")
    if standard is None:
        return {"mark": "none"}, f"{permille:.1f} reaches no standard for {metal}, so it may not be marked."
    name = NAMED.get((metal, standard))
    mark = f"{standard:g}" + (f" ({name})" if name else "")
    return {"mark": mark}, f"Marks round down: {permille:.1f} reaches {mark} and no higher standard."


def _work(given: Given) -> Worked:
    permille, first = _fineness_given(given)
    metal, total = given.word("metal"), given.maybe("total")
    values: dict[str, float | str] = {"fineness": permille}
    steps, warnings = [first], []
    if metal in ("gold", ""):
        values["carat"] = carat_of_fineness(permille)
        steps.append(f"24 × {permille:.1f} / 1000 = {values['carat']:.2f} carat, as gold is told.")
    if metal:
        marked, step = _marking(metal, permille, given.word("law"))
        values |= marked
        steps.append(step)
        if total is not None and total < EXEMPT_BELOW_G[metal]:
            steps.append(f"At {total:g} g it is lighter than {EXEMPT_BELOW_G[metal]:g} g and needs no mark.")
    if metal == "gold" and 583 <= permille < 585:
        warnings.append("14 carat is 583.3 by division, but the law asks 585 for its mark.")
    compare = f"Of every 10 g, {permille / 100:.2f} g is {metal or 'the precious metal'}."
    return Worked(values, tuple(steps), tuple(warnings), compare)


FINENESS = Reckoner(
    name="metal/fineness",
    title="Fineness, carat and mark",
    about="How much of a piece is precious metal, and which standard it may be marked with.",
    inputs=(
        number(
            "fineness",
            "Fineness or carat",
            "‰",
            1,
            1000,
            "Parts in a thousand, or carats of 24: 925, 18 ct, 75 %.",
            optional=True,
        ),
        number(
            "precious", "Precious metal", "g", 0.001, 1e6, "The weight of precious metal in the piece.", optional=True
        ),
        number("total", "Whole weight", "g", 0.001, 1e6, "The weight of the whole piece.", optional=True),
        choice(
            "metal", "Which metal", {word: word for word in OF_1973}, "The metal that the mark is for.", optional=True
        ),
        choice(
            "law",
            "Which list of standards",
            {"1973": "the Act of 1973, as first made", "from 1999": "with the standards added from 1999"},
            "Which years the mark is from.",
            default="from 1999",
        ),
    ),
    outputs=(
        Output("fineness", "Fineness", "‰", 1),
        Output("carat", "Carat, as gold is told", "carat", 2),
        words("mark", "Standard it may be marked with"),
    ),
    formula="fineness = 1000 × precious weight / whole weight = 1000 × carat / 24, rounded down to a legal standard",
    work=_work,
    sources=("hallmarking-1973", "hallmarking-1998", "tukes-marking", "hallmark-exempt"),
    good_for=("United Kingdom standards. Other countries keep other lists.",),
)
