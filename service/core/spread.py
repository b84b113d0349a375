"""A figure with its range, and how such figures are drawn together.

A `Spread` says: most likely `likely`; between `low` and `high` nine times in ten. Draws use a fixed
stratified (Latin hypercube) design, so equal requests give equal answers.
"""

from __future__ import annotations

import math
import random
import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache, reduce
from statistics import NormalDist
from typing import Any

import numpy as np
from numpy.typing import NDArray

Draws = NDArray[np.float64]

DRAWS = 200
"""Number of stratified draws; column 0 of every array of draws is the likely case itself."""

NINETY_FIVE = NormalDist().inv_cdf(0.95)
"""How many standard deviations `low` and `high` lie from `likely`."""


@dataclass(frozen=True, slots=True)
class Spread:
    """A value with its 90 % range: `low` <= `likely` <= `high`, all finite, in one unit."""

    low: float
    likely: float
    high: float

    def __post_init__(self) -> None:
        if -math.inf < self.low <= self.likely <= self.high < math.inf:
            return
        if not all(map(math.isfinite, (self.low, self.likely, self.high))):
            raise ValueError(f"a spread must be finite, got {self.low}, {self.likely}, {self.high}")
        raise ValueError(f"a spread must run low <= likely <= high, got {self}")

    @classmethod
    def exact(cls, value: float) -> Spread:
        """A value taken as known."""
        return cls(value, value, value)

    @classmethod
    def within(cls, likely: float, share: float) -> Spread:
        """`likely` give or take `share` of it (0.1 for ten percent)."""
        reach = abs(likely) * share
        return cls(likely - reach, likely, likely + reach)

    @property
    def is_exact(self) -> bool:
        return self.low == self.high

    def scaled(self, factor: float) -> Spread:
        """The spread times a factor of zero or more."""
        return Spread(self.low * factor, self.likely * factor, self.high * factor)

    def times(self, share: Spread) -> Spread:
        """The spread times another, low with low and high with high; both zero or more."""
        return Spread(self.low * share.low, self.likely * share.likely, self.high * share.high)

    def towards(self, other: Spread, part: float) -> Spread:
        """Between this spread (part 0) and another (part 1), end by end."""
        return Spread(
            self.low + (other.low - self.low) * part,
            self.likely + (other.likely - self.likely) * part,
            self.high + (other.high - self.high) * part,
        )

    def reaching(self, other: Spread) -> Spread:
        """With the same likely value, as far as either of them reaches."""
        return Spread(min(self.low, other.low), self.likely, max(self.high, other.high))

    def capped(self, most: float) -> Spread:
        """No part of it above `most`."""
        return Spread(min(self.low, most), min(self.likely, most), min(self.high, most))

    def as_dict(self) -> dict[str, float]:
        return {"low": self.low, "likely": self.likely, "high": self.high}

    @classmethod
    def from_mapping(cls, row: Mapping[str, Any]) -> Spread:
        """From anything with `low`, `likely` and `high`, as the tables of seed_foods have."""
        return cls(float(row["low"]), float(row["likely"]), float(row["high"]))


def product(*factors: Spread) -> Spread:
    """The product of independent spreads of zero or more: their logarithms' reaches add in quadrature.

    Where a factor may be nothing at all, low goes with low and high with high.
    """
    if any(factor.low <= 0 for factor in factors):
        return reduce(Spread.times, factors)
    likely = math.prod(factor.likely for factor in factors)
    below = math.hypot(*(math.log(factor.likely / factor.low) for factor in factors))
    above = math.hypot(*(math.log(factor.high / factor.likely) for factor in factors))
    return Spread(min(likely, likely * math.exp(-below)), likely, max(likely, likely * math.exp(above)))


_STRATA = np.array([NormalDist().inv_cdf((rank + 0.5) / DRAWS) for rank in range(DRAWS)])
"""The middle of each of DRAWS equal parts of the standard normal distribution, rising."""


@lru_cache(maxsize=4096)
def standard_normal(name: str, copy: int = 0) -> Draws:
    """The stratified standard-normal draws that belong to `name`; column 0 is 0 (the likely case).

    The same name always gives the same draws, so that figures that share an assumption move together.
    Shape (DRAWS + 1,).
    """
    draws = np.concatenate(([0.0], _STRATA[permutation(zlib.crc32(f"{name}#{copy}".encode()))]))
    draws.setflags(write=False)
    return draws


def permutation(seed: int) -> list[int]:
    """The numbers below DRAWS in an order of the seed's own: that of numpy's `RandomState(seed)`, which is
    frozen (NEP 19), without the 6 MB of memory that numpy.random takes. seed: 32 bits.

    Matsumoto and Nishimura, "Mersenne Twister", 1998, seeded as in their code of 2002, and the shuffle of
    Fisher and Yates.
    """
    state = [seed]
    for at in range(1, _MT_WORDS):
        seed = 1812433253 * (seed ^ (seed >> 30)) + at & 0xFFFFFFFF
        state.append(seed)
    twister = random.Random()
    twister.setstate((3, (*state, _MT_WORDS), None))
    order = list(range(DRAWS))
    for last in range(DRAWS - 1, 0, -1):
        mask = (1 << last.bit_length()) - 1
        while (drawn := twister.getrandbits(32) & mask) > last:
            pass
        order[last], order[drawn] = order[drawn], order[last]
    return order


_MT_WORDS = 624


@lru_cache(maxsize=4096)
def draw(spread: Spread, name: str, *, floor: float = -math.inf, ceiling: float = math.inf) -> Draws:
    """Draws of `spread`, shape (DRAWS + 1,), clipped to [floor, ceiling]; column 0 is the likely value.

    A split normal: 5 % below `low`, 5 % above `high`, half on each side of `likely`. Where all three
    figures are positive the split is taken on their logarithms, which keeps draws positive. Equal figures
    share their draws, which are not to be written to.
    """
    if spread.is_exact:
        values = np.full(DRAWS + 1, min(max(spread.likely, floor), ceiling))
    else:
        values = _split_normal(spread, standard_normal(name))
        np.minimum(np.maximum(values, floor, out=values), ceiling, out=values)
    values.setflags(write=False)
    return values


def shifted(spread: Spread, normal: Draws) -> Draws:
    """`draw` from standard-normal draws of the caller's own, whose column 0 need not be 0."""
    values = _split_normal(spread, normal)
    if normal[0] != 0.0:
        values[0] = _split_normal(spread, normal[:1].repeat(2))[1]
    return values


def _split_normal(spread: Spread, z: Draws) -> Draws:
    if spread.is_exact:
        return np.full(len(z), spread.likely)
    reach = z / NINETY_FIVE
    if spread.low > 0:
        below, above = math.log(spread.likely / spread.low), math.log(spread.high / spread.likely)
        values = spread.likely * np.exp(np.where(z < 0, reach * below, reach * above))
    else:
        below, above = spread.likely - spread.low, spread.high - spread.likely
        values = spread.likely + np.where(z < 0, reach * below, reach * above)
    values[0] = spread.likely
    return values


def stacked(draws: Sequence[Draws]) -> Draws:
    """Arrays of one length as rows of one; numpy's own `stack` takes thrice as long for so few."""
    return np.concatenate(draws).reshape(len(draws), -1)


def summarise(draws: Draws) -> Spread:
    """The spread that draws came to: 5th percentile, likely case (column 0), 95th percentile."""
    return summarise_rows(draws[np.newaxis, :])[0]


def summarise_rows(draws: Draws) -> list[Spread]:
    """The spread of each row of draws, shape (rows, DRAWS + 1)."""
    return [Spread(*row) for row in ends(draws).tolist()]


def ends(draws: Draws) -> Draws:
    """The same of draws of shape (…, DRAWS + 1) as plain figures, shape (…, 3): low, likely, high."""
    low, high = _percentiles(draws[..., 1:])
    likely = draws[..., 0]
    return np.stack((np.minimum(low, likely), likely, np.maximum(high, likely)), axis=-1)


_LOW_AT, _HIGH_AT = 0.05 * (DRAWS - 1), 0.95 * (DRAWS - 1)


def _percentiles(draws: Draws) -> tuple[Draws, Draws]:
    """5th and 95th percentile of each row, between ranks in proportion; faster than numpy's own quantile."""
    ranked = np.sort(draws, axis=-1)  # which numpy does with the widest instructions there are
    return _at(ranked, _LOW_AT), _at(ranked, _HIGH_AT)


def _at(ranked: Draws, place: float) -> Draws:
    below = int(place)
    value: Draws = ranked[..., below] + (place - below) * (ranked[..., below + 1] - ranked[..., below])
    return value
