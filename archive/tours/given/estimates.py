"""A better estimate of minutes from those that were needed: the median, how far it can be trusted, how it spreads.

The median is moved by no single outing in which a child was lost. Its confidence interval rests on no assumption about
the shape of the times: the median lies between the k-th smallest and k-th largest with the chance that a fair coin
falls heads at least k and at most n - k times in n (the sign test turned round). The spread is the median absolute
deviation, times 1.4826 so that it compares with a standard deviation where the times are normal. Pure.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import median

NORMAL = 1.4826
FEWEST = 3
CONFIDENCE = 0.95
# Smaller differences are nothing that a guide could keep to.
WORTH_MINUTES = 0.5
LEAST_MINUTES = 0.5


@dataclass(frozen=True)
class Estimate:
    """The median of so many outings; `low` and `high` bound it with the chance `sure`, where there are enough."""

    count: int
    minutes: float
    spread: float
    low: float | None
    high: float | None
    sure: float | None


@dataclass(frozen=True)
class Share:
    """One telling of a stop: its minutes, and whether they can change (those of a clip or a machine cannot)."""

    ref: str
    minutes: float
    fixed: bool


def estimate(minutes: Sequence[float]) -> Estimate | None:
    """The estimate from real minutes; None where there are fewer than three."""
    if len(minutes) < FEWEST:
        return None
    kept = sorted(minutes)
    middle = median(kept)
    spread = NORMAL * median(abs(each - middle) for each in kept)
    rank, sure = _rank(len(kept))
    low, high = (kept[rank - 1], kept[-rank]) if rank else (None, None)
    return Estimate(len(kept), round(middle, 2), round(spread, 2), low, high, sure)


def worth_offering(planned: float, found: Estimate | None) -> bool:
    """Whether the plan is far enough off: half a minute, and outside the interval where there is one."""
    if found is None or abs(found.minutes - planned) < WORTH_MINUTES:
        return False
    return found.low is None or found.high is None or not found.low <= planned <= found.high


def shared_out(shares: Sequence[Share], wanted: float) -> Mapping[str, float]:
    """New minutes of the tellings that can change, in tenths, so that the whole comes as near to `wanted` as may be.

    Each keeps its part of what they take together, and none falls under half a minute (or what it has already).
    """
    free = [share for share in shares if not share.fixed]
    have = sum(share.minutes for share in free)
    if not free or have <= 0:
        return {}
    for_free = wanted - sum(share.minutes for share in shares if share.fixed)
    tenths = {share.ref: max(_least(share), math.floor(share.minutes * for_free / have * 10)) for share in free}
    left = round(for_free * 10) - sum(tenths.values())
    by_rest = sorted(free, key=lambda share: (-(share.minutes * for_free / have * 10 % 1), share.ref))
    for share in by_rest[: max(0, left)]:
        tenths[share.ref] += 1
    return {ref: each / 10 for ref, each in tenths.items()}


def _least(share: Share) -> int:
    return round(min(LEAST_MINUTES, share.minutes) * 10)


def _rank(count: int) -> tuple[int, float | None]:
    """The largest rank k whose interval holds the median with the wanted confidence; 0 where none does."""
    best: tuple[int, float | None] = (0, None)
    for rank in range(1, count // 2 + 1):
        sure = 1 - 2 * sum(math.comb(count, heads) for heads in range(rank)) / 2**count
        if sure < CONFIDENCE:
            break
        best = (rank, sure)
    return best
