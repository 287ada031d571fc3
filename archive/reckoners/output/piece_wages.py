"""Piece wages: so many at so much, in pounds, shillings and pence and in decimal money."""

from __future__ import annotations

import math

from archive.reckoners.money import decimal_pounds, pounds_shillings_pence
from archive.reckoners.output.counting import DOZEN, GREAT_GROSS, GROSS
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number

_LOTS = {"piece": 1, "dozen": DOZEN, "hundred": 100, "gross": GROSS, "thousand": 1000, "great gross": GREAT_GROSS}


def piece_wage_d(pieces: float, rate_d: float, lot: int, *, whole_lots_only: bool) -> float:
    """Old pence earned: pieces / lot * rate, with only whole lots paid where that was the rule."""
    lots = pieces / lot
    return (math.floor(lots) if whole_lots_only else lots) * rate_d


def _work(given: Given) -> Worked:
    pieces, rate, per = given.number("pieces"), given.number("rate"), given.word("per")
    whole_only = given.word("paid_for") == "whole"
    pay = piece_wage_d(pieces, rate, _LOTS[per], whole_lots_only=whole_only)
    lots = pieces / _LOTS[per]
    counted = math.floor(lots) if whole_only else lots
    steps = (
        f"{pieces:,.0f} pieces / {_LOTS[per]} = {lots:,.2f} {per}"
        + (f", of which {counted:,} whole." if whole_only else "."),
        f"{counted:,.6g} × {pounds_shillings_pence(rate)} = {pay:,.6g}d = {pounds_shillings_pence(pay)}.",
        f"{pay:,.6g} / 240 = £{decimal_pounds(pay):.3f} in decimal money.",
    )
    return Worked({"pay": pay, "decimal": decimal_pounds(pay), "lots": float(counted)}, steps)


PIECE_WAGES = Reckoner(
    name="output/piece-wages",
    title="Piece wages",
    about="What so many pieces came to in the wages book.",
    inputs=(
        number("pieces", "Pieces made", "pieces", 0, 1e8, "Pieces, or 85 gross."),
        number("rate", "Rate", "d", 0.01, 1e5, "Money as it was written: 2½d, 7/6, £1 2s 6d."),
        choice("per", "Paid by the", {word: word for word in _LOTS}, "The lot that the rate is for.", default="gross"),
        choice("paid_for", "Paid for", {"every": "every piece", "whole": "whole lots only"},
               "Whether what was over was paid.", default="every"),
    ),
    outputs=(
        Output("pay", "Earned", "£sd"),
        Output("decimal", "In decimal pounds of the same day", "£", 3),
        Output("lots", "Lots paid", "lots", 2),
    ),
    formula="earned = pieces / lot × rate; £1 = 20s = 240d",
    work=_work,
    sources=("weights-and-measures", "trade"),
    good_for=(
        "The sum alone, to the nearest farthing. Stoppages and fines are not in it.",
        "Decimal pounds of the day of change, 15 February 1971, not what the money would buy today.",
        "Rates differ by works and year: take them from a wages book, for no general rate could be placed.",
    ),
)  # fmt: skip
