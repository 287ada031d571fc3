"""Phase diagrams of silver-copper and copper-zinc, with the alloy and its lever on them."""

from __future__ import annotations

from archive.reckoners.figures.axes import Axes, Axis, plain_axis
from archive.reckoners.figures.figure import Drawn, Figure
from archive.reckoners.figures.paper import Paper
from archive.reckoners.metal.lever import ALPHA_LIMIT, BETA_LIMIT, LEVER_FROM_C, SETS, Eutectic

# Fixed points of the International Temperature Scale of 1990.
SILVER_FREEZES_C, COPPER_FREEZES_C = 961.78, 1084.62
_STRAIGHT = "Lines are drawn straight between the published points; the true ones bend a little."


def silver_copper(drawn: Drawn) -> Figure:
    """The eutectic of silver and copper, with an alloy just below it."""
    held, copper = SETS[drawn.words["figures"]], drawn.numbers["copper"]
    silver = drawn.figure("silver_solid") or 0.0
    alternative = (
        f"Phase diagram of silver and copper. Pure silver freezes at 962 °C, pure copper at 1085 °C; between them both "
        f"lines fall to the eutectic at {held.liquid_cu:g} % copper and {held.temperature_c:g} °C. The alloy of "
        f"{copper:g} % copper is marked on the eutectic line: just below it {silver:.1f} % is the solid rich in "
        f"silver and {100 - silver:.1f} % the solid rich in copper."
    )
    paper = Paper()
    axes = Axes(
        paper, plain_axis("Copper, % by weight", 0, 100, 5), Axis("Temperature, °C", 640, 1150, _every_hundred())
    )
    _eutectic(axes, held)
    heat = held.temperature_c
    both = held.silver_cu < copper < held.copper_cu
    if both:
        _lever(axes, heat - 28, (held.silver_cu, copper, held.copper_cu), (f"{silver:.1f} %", f"{100 - silver:.1f} %"))
    axes.guides(copper, heat)
    axes.point(copper, heat)
    rows = (
        ("Silver freezes", "0 %", f"{SILVER_FREEZES_C:g} °C"),
        ("Silver holds at most", f"{held.silver_cu:g} %", f"{heat:g} °C"),
        ("Eutectic", f"{held.liquid_cu:g} %", f"{heat:g} °C"),
        ("Copper holds all but", f"{held.copper_cu:g} %", f"{heat:g} °C"),
        ("Copper freezes", "100 %", f"{COPPER_FREEZES_C:g} °C"),
        ("This alloy", f"{copper:g} %", f"just below {heat:g} °C"),
    )
    gap = "How little copper cold silver holds could not be placed in a source, so nothing is drawn below the eutectic."
    return Figure(
        paper.svg(alternative), "Silver and copper", alternative, ("Point", "Copper", "Temperature"), rows,
        (_STRAIGHT, gap),
    )  # fmt: skip


def _every_hundred() -> tuple[tuple[float, str], ...]:
    return tuple((float(heat), f"{heat:,}") for heat in range(700, 1200, 100))


def _eutectic(axes: Axes, held: Eutectic) -> None:
    heat = held.temperature_c
    axes.curve([(0, SILVER_FREEZES_C), (held.liquid_cu, heat), (100, COPPER_FREEZES_C)])
    axes.curve([(0, SILVER_FREEZES_C), (held.silver_cu, heat)])
    axes.curve([(held.copper_cu, heat), (100, COPPER_FREEZES_C)])
    axes.curve([(held.silver_cu, heat), (held.copper_cu, heat)])
    axes.label(32, 1040, "liquid")
    axes.label(13.5, 828, "silver")
    axes.label(16, 794, "+ liquid")
    axes.label(72, 850, "copper + liquid")
    axes.label(50, 670, "silver + copper, both solid")


def copper_zinc(drawn: Drawn) -> Figure:
    """The brasses: how much zinc alpha holds, and the beta beside it."""
    zinc, heat = drawn.numbers["zinc"], drawn.numbers["temperature"]
    alpha, beta = drawn.figure("alpha_limit"), drawn.figure("beta_limit")
    share = drawn.figure("alpha") or 0.0
    what = f"{share:.1f} % alpha and {100 - share:.1f} % beta" if beta is not None else "all alpha"
    alternative = (
        f"Phase diagram of copper with up to half zinc, from 250 to 950 °C. Alpha holds 35 % zinc at 250 °C, most at "
        f"454 °C, 39 %, and less again to 32.5 % at 902 °C; beyond it lies beta. The brass of {zinc:g} % zinc at "
        f"{heat:g} °C is marked: {what}."
    )
    paper = Paper()
    ticks = tuple((float(at), str(at)) for at in range(200, 1000, 100))
    axes = Axes(paper, plain_axis("Zinc, % by weight", 0, 50, 5), Axis("Temperature, °C", 200, 950, ticks))
    axes.curve([(limit, at) for at, limit in ALPHA_LIMIT])
    axes.curve([(limit, at) for at, limit in BETA_LIMIT])
    axes.curve([(ALPHA_LIMIT[-1][1], ALPHA_LIMIT[-1][0]), (BETA_LIMIT[-1][1], BETA_LIMIT[-1][0])])
    axes.label(15, 780, "alpha")
    axes.label(40.3, 625, "both")
    axes.label(46, 800, "beta")
    if alpha is not None and beta is not None:
        _lever(axes, heat, (alpha, zinc, beta), ("", ""))
    axes.guides(zinc, heat)
    axes.point(zinc, heat)
    rows = tuple((f"Alpha holds at {at:g} °C", f"{limit:g} % zinc") for at, limit in ALPHA_LIMIT)
    rows += tuple((f"Beta begins at {at:g} °C", f"{limit:g} % zinc") for at, limit in BETA_LIMIT)
    rows += ((f"This brass at {heat:g} °C", f"{zinc:g} % zinc: {what}"),)
    gap = f"The edge of beta is held here only from {LEVER_FROM_C:g} °C up, so it is not drawn below."
    return Figure(
        paper.svg(alternative), "Copper and zinc", alternative, ("Point", "Composition"), rows, (_STRAIGHT, gap)
    )


def _lever(axes: Axes, heat: float, ends: tuple[float, float, float], shares: tuple[str, str]) -> None:
    """The lever: a bar from phase to phase, resting on the alloy; each phase's share at its own end."""
    near, whole, far = ends
    axes.curve([(near, heat), (far, heat)], "drawn-lever")
    for end in (near, far):
        x, y = axes.at(end, heat)
        axes.paper.line((x, y - 12), (x, y + 12), "drawn-lever")
    x, y = axes.at(whole, heat)
    axes.paper.path([(x, y + 4), (x - 11, y + 24), (x + 11, y + 24)], "drawn-fulcrum", closed=True)
    if shares[0]:
        axes.label(near, heat, shares[0], off=(-6, 48), anchor="start")
        axes.label(far, heat, shares[1], off=(6, 48), anchor="end")
