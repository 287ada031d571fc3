"""Old money is read and told without losing a farthing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.reckoners.money import decimal_pounds, pence_written, pounds_shillings_pence
from archive.reckoners.quantities import read_amount


@pytest.mark.parametrize("text", ["", "seven", "7/6/5/4", "£", "d", "7//6", "6d 7s"])
def test_what_is_no_sum_is_not_read(text: str) -> None:
    """None, and never a guess."""
    assert pence_written(text) is None


@given(st.integers(min_value=0, max_value=10_000_000))
def test_told_and_read_again_is_the_same(farthings: int) -> None:
    """Whatever is told can be read back, to the farthing."""
    pence = farthings / 4
    assert read_amount(pounds_shillings_pence(pence), "d").point == pence


def test_decimal_worth() -> None:
    """£1 is 240 old pence."""
    assert decimal_pounds(240) == 1
