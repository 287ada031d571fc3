"""Clouds of points as normal distributions, held as sums, so that two are joined by adding; and what joining costs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from archive.audio.cepstra import Floats

_LEAST_SPREAD = 1e-3
IMPOSSIBLE = -1e12


@dataclass(frozen=True)
class Clouds:
    """So many clouds: how many points each has, their sums, and the sums of their products."""

    counts: Floats
    sums: Floats
    products: Floats

    @classmethod
    def of(cls, points: Sequence[Floats]) -> Clouds:
        """The clouds of some sets of points, all of them together scaled to a middle of 0 and a spread of 1."""
        every = np.concatenate(points) if points else np.empty((0, 1))
        if len(every):
            middle, spread = every.mean(axis=0), every.std(axis=0) + 1e-9
            points = [(each - middle) / spread for each in points]
        width = every.shape[1]
        return cls(
            np.array([len(each) for each in points], np.float64),
            np.array([each.sum(axis=0) for each in points]).reshape(-1, width),
            np.array([each.T @ each for each in points]).reshape(-1, width, width),
        )

    def some(self, chosen: NDArray[np.intp]) -> Clouds:
        """A few of them."""
        return Clouds(self.counts[chosen], self.sums[chosen], self.products[chosen])

    def plus(self, at: int) -> Clouds:
        """Each of them joined with one of them."""
        return Clouds(self.counts + self.counts[at], self.sums + self.sums[at], self.products + self.products[at])

    @property
    def middles(self) -> Floats:
        """Where each has its middle."""
        return self.sums / np.maximum(self.counts, 1)[:, None]

    @property
    def spreads(self) -> Floats:
        """The covariance of each."""
        middles = self.middles
        found: Floats = self.products / np.maximum(self.counts, 1)[:, None, None]
        found -= middles[:, :, None] * middles[:, None, :]
        found += _LEAST_SPREAD * np.eye(self.sums.shape[1])
        return found

    @property
    def disorder(self) -> Floats:
        """Points times the logarithm of the determinant of the covariance."""
        found: Floats = self.counts * np.linalg.slogdet(self.spreads)[1]
        return found

    def likely_of(self, chosen: NDArray[np.bool_]) -> Floats:
        """The log likelihood of each under the normal distribution of some of them taken together."""
        one = Clouds(*(each[chosen].sum(axis=0, keepdims=True) for each in (self.counts, self.sums, self.products)))
        return self._likely(one)

    def likely_of_others(self, groups: NDArray[np.intp]) -> Floats:
        """The log likelihood of each under the distribution of the others of its own group, without itself."""
        held = (self.counts, self.sums, self.products)
        whole = [np.stack([each[groups == group].sum(axis=0) for group in range(groups.max() + 1)]) for each in held]
        others = Clouds(*(total[groups] - own for total, own in zip(whole, held, strict=True)))
        return np.where(others.counts > 0, self._likely(others), IMPOSSIBLE)

    def _likely(self, of: Clouds) -> Floats:
        """The log likelihood of each under a distribution of its own, or one for all."""
        middles, spreads = of.middles, of.spreads
        narrow, width = np.linalg.inv(spreads), middles.shape[1]
        pulled = np.einsum("nij,nj->ni", narrow, middles)
        off = np.sum(self.products * narrow, axis=(1, 2)) - 2 * np.sum(self.sums * pulled, axis=1)
        off = off + self.counts * np.sum(middles * pulled, axis=1)
        level = np.linalg.slogdet(spreads)[1] + width * np.log(2 * np.pi)
        likely: Floats = -0.5 * (off + self.counts * level)
        return likely


def joined(clouds: Clouds) -> Iterator[list[list[int]]]:
    """The groups as the two likest are joined, again and again, until one is left."""
    groups = [[at] for at in range(len(clouds.counts))]
    costs = np.array([joining_costs(clouds, at) for at in range(len(groups))]).reshape(len(groups), len(groups))
    while len(groups) > 1:
        first, second = sorted(int(at) for at in np.unravel_index(costs.argmin(), costs.shape))
        yield [list(group) for group in groups]
        groups[first] += groups.pop(second)
        whole = clouds.plus(second)
        for held, new in ((clouds.counts, whole.counts), (clouds.sums, whole.sums), (clouds.products, whole.products)):
            held[first] = new[first]
        left = np.delete(np.arange(len(clouds.counts)), second)
        clouds, costs = clouds.some(left), costs[np.ix_(left, left)]
        costs[first] = costs[:, first] = joining_costs(clouds, first)


def joining_costs(clouds: Clouds, at: int) -> Floats:
    """What it costs to join one cloud with each of them; with itself it cannot be joined.

    It is the difference of the Bayesian information criterion: below 0, one cloud is the better account of both.
    """
    both, width = clouds.plus(at), clouds.sums.shape[1]
    alone = clouds.disorder
    saved = 0.5 * (width + width * (width + 1) / 2) * np.log(np.maximum(both.counts, 2))
    found: Floats = 0.5 * (both.disorder - alone - alone[at]) - saved
    found[at] = np.inf
    return found
