"""The time an order takes: pieces, machines, strokes, spoilage, hours a day."""

from __future__ import annotations

from archive.reckoners.output.counting import gross_told
from archive.reckoners.output.shift_output import shift_output
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number


def pieces_to_strike(order: float, spoiled_percent: float) -> float:
    """Pieces that must be struck so that enough are good: order / (1 - spoiled)."""
    return order / (1 - spoiled_percent / 100)


def days_needed(pieces: float, pieces_a_day: float) -> float:
    """Working days: pieces / pieces a day."""
    return pieces / pieces_a_day


def _work(given: Given) -> Worked:
    order, presses, hours = given.number("order"), given.number("presses"), given.number("hours")
    rate, share, spoiled = given.number("rate"), given.number("utilisation"), given.number("spoiled")
    struck = pieces_to_strike(order, spoiled)
    daily = presses * shift_output(rate, hours, share)
    days = days_needed(struck, daily)
    steps = (
        f"{order:,.0f} / (1 − {spoiled:g} %) = {struck:,.0f} to strike, which is {gross_told(struck)}.",
        f"{presses:g} × {rate:g} a minute × 60 × {hours:g} h × {share:g} % = {daily:,.0f} a day.",
        f"{struck:,.0f} / {daily:,.0f} = {days:.2f} days of {hours:g} h = {days * hours:.1f} h.",
    )
    values: dict[str, float | str] = {"struck": struck, "daily": daily, "days": days, "hours": days * hours}
    return Worked(values, steps)


ORDER_TIME = Reckoner(
    name="output/order-time",
    title="The time an order takes",
    about="How many days the press shop needs for an order.",
    inputs=(
        number("order", "Order", "pieces", 1, 1e8, "Good pieces wanted; gross will do."),
        number("rate", "Strokes a minute while striking", "a minute", 0.1, 2000, "One piece a stroke."),
        number("presses", "Presses on it", "machines", 1, 200, "One hand to a press.", default="1", whole=True),
        number("hours", "Hours a day", "h", 0.1, 24, "Without the meal break.", default="8 h"),
        number("utilisation", "Share of the time struck", "%", 1, 100,
               "What is left after setting, carrying, waiting and rest.", default="75 %"),
        number("spoiled", "Spoiled", "%", 0, 90, "Of every hundred struck, so many are thrown out.", default="0 %"),
    ),
    outputs=(
        Output("days", "Days", "day", 2),
        Output("hours", "Hours", "h", 1),
        Output("struck", "Pieces to strike", "pieces", 0),
        Output("daily", "Struck in a day", "pieces", 0),
    ),
    formula="days = order / (1 − spoiled) / (presses × strokes a minute × 60 × hours × share of the time struck)",
    work=_work,
    sources=("arithmetic", "trade"),
    good_for=("One process alone, tools set and metal ready. Annealing, carrying and other rooms come on top.",),
)  # fmt: skip
