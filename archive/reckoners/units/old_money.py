"""Pounds, shillings and pence in decimal money, and back."""

from __future__ import annotations

from archive.reckoners.money import PENCE_IN_SHILLING, decimal_pounds, pounds_shillings_pence
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number


def _work(given: Given) -> Worked:
    pence = given.number("sum")
    pounds = decimal_pounds(pence)
    steps = (
        f"{pounds_shillings_pence(pence)} = {pence:,.6g} old pence.",
        f"{pence:,.6g} / 240 = £{pounds:,.3f}.",
    )
    values: dict[str, float | str] = {
        "sum": pence, "pence": pence, "shillings": pence / PENCE_IN_SHILLING, "pounds": pounds
    }  # fmt: skip
    return Worked(values, steps, compare="A shilling became five new pence; 2.4 old pence made one new penny.")


OLD_MONEY = Reckoner(
    name="units/old-money",
    title="Pounds, shillings and pence",
    about="A sum of old money in decimal pounds.",
    inputs=(
        number("sum", "Sum", "d", 0, 1e8, "As it was written: £3 17s 6d, 7/6, 2½d, 3 guineas; or £3.875."),
    ),
    outputs=(
        Output("sum", "In pounds, shillings and pence", "£sd"),
        Output("pounds", "In decimal pounds", "£", 3),
        Output("shillings", "In shillings", "shilling", 2),
        Output("pence", "In old pence", "d", 2),
    ),
    formula="£1 = 20s = 240d; 1s = 12d = 5p",
    work=_work,
    sources=("decimal-day",),
    good_for=("The same sum on the day of change, 15 February 1971; not what it would buy today.",),
)  # fmt: skip
