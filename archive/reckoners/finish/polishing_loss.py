"""Metal lost in polishing, what is won back of it, and its worth."""

from __future__ import annotations

from archive.reckoners.finish.cautions import DUST_CAUTION
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number, refuse


def metal_off_g(area_cm2: float, depth_um: float, density_g_per_cm3: float) -> float:
    """Metal taken off a face: area × depth × density; 1 µm is 1e-4 cm. Source: arithmetic."""
    return area_cm2 * depth_um * 1e-4 * density_g_per_cm3


def worth_gbp(metal_g: float, fineness_permille: float, price_per_g: float) -> float:
    """Worth of the precious metal in it at a price a gram fine."""
    return metal_g * fineness_permille / 1000 * price_per_g


def _lost_each(given: Given) -> tuple[float, str]:
    """Metal lost by each piece, weighed or worked out."""
    before, after, area, depth = (given.maybe(key) for key in ("before", "after", "area", "depth"))
    weighed, measured = before is not None or after is not None, area is not None or depth is not None
    if weighed == measured:
        found = "There is nothing to reckon from" if not weighed else "Both weights and a depth are given"
        raise refuse(
            "before" if not weighed else "depth", found, "Give both weights, or the area and the depth taken off"
        )
    if measured:
        if area is None or depth is None:
            raise refuse("area" if area is None else "depth", "One of area and depth is wanting", "Give both")
        lost = metal_off_g(area, depth, given.number("density"))
        return lost, f"{area:.4g} cm² × {depth:.4g} µm × {given.number('density'):.4g} g/cm³ = {lost:.4f} g each."
    if before is None or after is None:
        raise refuse("before" if before is None else "after", "One of the two weights is wanting", "Give both")
    if after > before:
        raise refuse("after", f"{after:g} g is more than before, {before:g} g", "Give no more than before")
    return before - after, f"{before:.5g} − {after:.5g} = {before - after:.4f} g each."


def _work(given: Given) -> Worked:
    each, first = _lost_each(given)
    pieces, share = given.number("pieces"), given.number("won_back") / 100
    lost = each * pieces
    back = lost * share
    values: dict[str, float | str] = {"each": each, "lost": lost, "back": back, "gone": lost - back}
    steps = [first, f"{pieces:,.0f} pieces: {lost:,.2f} g off, {share:.3g} of it won back: {back:,.2f} g."]
    price = given.maybe("price")
    if price is not None:
        fine = given.number("fineness")
        values |= {"back_worth": worth_gbp(back, fine, price), "gone_worth": worth_gbp(lost - back, fine, price)}
        steps.append(f"{back:,.2f} g × {fine:g} / 1000 × £{price:g} = £{values['back_worth']:,.2f} won back.")
    compare = f"Of every thousand pieces, {1000 * each:,.1f} g goes into bag, sweepings and water."
    return Worked(values, tuple(steps), compare=compare)


POLISHING_LOSS = Reckoner(
    name="finish/polishing-loss",
    title="Metal lost in polishing",
    about="What polishing takes off, what dust bags, sweepings and skeleton give back, and what it is worth.",
    inputs=(
        number("pieces", "Pieces", "pieces", 1, 1e7, "Pieces, gross or great gross.", default="1 gross"),
        number("before", "Weight before", "g", 0.001, 1e5, "Of one piece.", optional=True),
        number("after", "Weight after", "g", 0.001, 1e5, "Of the same piece.", optional=True),
        number("area", "Or area polished", "cm²", 0.001, 1e6, "Of one piece.", optional=True),
        number("depth", "And depth taken off", "µm", 0.001, 2000, "Light work takes some micrometres.", optional=True),
        number("density", "Density", "g/cm³", 1, 25, "10.36 for sterling, 8.80 for gilding metal.", default="10.36"),
        number("won_back", "Share won back", "%", 0, 100, "What the refiner's account shows. Nothing is assumed.",
               default="100 %"),
        number("fineness", "Fineness", "‰", 1, 1000, "925 for sterling.", default="925"),
        number("price", "Price of a gram fine", "£", 0, 1e5, "In pounds, on the day you mean.", optional=True),
    ),
    outputs=(
        Output("each", "Lost by each piece", "g", 4),
        Output("lost", "Lost by all", "g", 2),
        Output("back", "Won back", "g", 2),
        Output("gone", "Gone for good", "g", 2),
        Output("back_worth", "Worth of what is won back", "£", 2),
        Output("gone_worth", "Worth of what is gone", "£", 2),
    ),
    formula="lost = area × depth × density × pieces; worth = weight × fineness / 1000 × price of a gram fine",
    work=_work,
    sources=("arithmetic", "trade"),
    good_for=("An even depth. The dust in the bag also holds mop and compound, which weigh but are worth nothing.",),
    caution=DUST_CAUTION,
)  # fmt: skip
