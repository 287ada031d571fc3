"""Better minutes: the median as the standard library has it, interval and spread as scipy, shares that add up."""

from __future__ import annotations

import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from archive.tours.given.estimates import LEAST_MINUTES, Share, estimate, shared_out, worth_offering

MINUTES = st.lists(st.integers(1, 600).map(lambda tenths: tenths / 10), min_size=3, max_size=60)


@pytest.mark.parametrize("minutes", [[], [3.0], [3.0, 4.0]])
def test_fewer_than_three_outings_estimate_nothing(minutes: list[float]) -> None:
    """Two outings are no ground to change a plan on."""
    assert estimate(minutes) is None


@given(MINUTES)
def test_median_and_spread_are_those_of_others(minutes: list[float]) -> None:
    """The median of the standard library; the spread of scipy, scaled for the normal distribution."""
    found = estimate(minutes)
    assert found is not None
    assert found.minutes == pytest.approx(statistics.median(minutes), abs=0.01)
    spread = float(stats.median_abs_deviation(minutes)) * 1.4826
    assert found.spread == pytest.approx(spread, abs=0.01)


@pytest.mark.parametrize("count", range(3, 61))
def test_the_interval_is_that_of_the_sign_test(count: int) -> None:
    """Its ranks are scipy's binomial quantile, its confidence the binomial's, and no narrower one would do."""
    found = estimate([float(n) for n in range(1, count + 1)])
    assert found is not None
    rank = int(stats.binom.ppf(0.025, count, 0.5))
    if rank == 0:
        assert (found.low, found.high, found.sure) == (None, None, None)
        return
    assert (found.low, found.high) == (rank, count + 1 - rank)
    assert found.sure == pytest.approx(1 - 2 * stats.binom.cdf(rank - 1, count, 0.5))
    assert found.sure >= 0.95 > 1 - 2 * stats.binom.cdf(rank, count, 0.5)


def test_one_odd_outing_moves_nothing() -> None:
    """A fire alarm in one outing of seven is not what the stop takes."""
    usual, odd = estimate([4, 4.2, 4.1, 4.3, 3.9, 4, 4.2]), estimate([4, 4.2, 4.1, 4.3, 3.9, 4, 40])
    assert usual is not None
    assert odd is not None
    assert abs(usual.minutes - odd.minutes) <= 0.1


@pytest.mark.parametrize(
    ("planned", "minutes", "offered"),
    [
        (4.0, [4.2, 4.3, 4.4], False),
        (2.0, [4.2, 4.3, 4.4], True),
        (4.0, [3, 5, 5.1, 5.2, 5.3, 5.4], False),
        (2.9, [3, 5, 5.1, 5.2, 5.3, 5.4], True),
        (4.0, [9.0, 9.0], False),
    ],
)
def test_an_estimate_is_offered_when_it_is_worth_it(planned: float, minutes: list[float], offered: bool) -> None:
    """Half a minute off at least, and the plan outside the interval where there is one."""
    assert worth_offering(planned, estimate(minutes)) is offered


SHARES = st.lists(st.tuples(st.integers(1, 90), st.booleans()), min_size=1, max_size=8).map(
    lambda rows: [Share(f"tl-{number}", tenths / 10, fixed) for number, (tenths, fixed) in enumerate(rows)]
)


@given(SHARES, st.integers(1, 900).map(lambda tenths: tenths / 10))
def test_shares_add_up_and_leave_voices_alone(shares: list[Share], wanted: float) -> None:
    """What can change adds up to what is wanted, unless the least of each is more; what is fixed is not named."""
    new = shared_out(shares, wanted)
    free = [share for share in shares if not share.fixed]
    assert set(new) == {share.ref for share in free}
    assert all(new[share.ref] >= min(LEAST_MINUTES, share.minutes) - 1e-9 for share in free)
    fixed = sum(share.minutes for share in shares if share.fixed)
    raised = any(new[share.ref] <= LEAST_MINUTES for share in free)
    if free and not raised:
        assert sum(new.values()) + fixed == pytest.approx(wanted, abs=0.051)
