"""A piece of food as its surface sees it: compartments side by side, each following the surface at its own
rate.

In an endless bath a piece takes up  1 - sum(share * exp(-rate * fourier)),  one term an eigenmode (Crank
1975, chapters 4 to 6). Read backwards, each term is a compartment that holds its share of the piece's water
and goes straight towards what the surface has. Any number of baths, weak or strong, any rest in air and any
pieces in one bath follow from that, for what a compartment does next depends on what it holds and on
nothing else (`stirred`). The two slowest eigenmodes are kept as they are and all faster ones are joined
into six, fitted to the exact curve within 0.06 % from a Fourier number of 2e-5 on."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from .eigenmodes import Array, Shape, eigenfunction, roots_and_weights

_OCTAVE = 2.5
"""Compartments of a body with edges are joined where their rates are within this factor."""
_LEAST = 1e-5
"""A compartment of less than this share is joined to the next."""


Factors = tuple[tuple[Shape, float], ...]
"""The plain shapes whose product a body is, each with its size over the first's."""


@dataclass(frozen=True, slots=True, eq=False)
class Compartments:
    """rates: per unit of the Fourier number D t / l^2, rising. shares: of the piece's water, 1 in all."""

    factors: Factors
    rates: Array
    shares: Array

    def __len__(self) -> int:
        return len(self.rates)


def _plain(shape: Shape, rates: list[float], shares: list[float]) -> Compartments:
    return Compartments(((shape, 1.0),), np.array(rates), np.array(shares) / sum(shares))


PLAIN: dict[Shape, Compartments] = {
    "sheet": _plain(
        "sheet",
        [2.4674, 22.2066, 69.024, 260.334, 1178.96, 5502.0, 25981.9, 155554.0],
        [0.810569, 0.0900633, 0.0439266, 0.028903, 0.0142201, 0.00662966, 0.00309731, 0.00259059],
    ),
    "cylinder": _plain(
        "cylinder",
        [5.78319, 30.4713, 84.5625, 306.971, 1344.03, 6053.99, 27572.8, 159608.0],
        [0.69166, 0.131271, 0.0756735, 0.0520566, 0.0260366, 0.0123458, 0.005876, 0.00508],
    ),
    "sphere": _plain(
        "sphere",
        [9.8696, 39.4784, 100.549, 349.319, 1480.53, 6489.69, 28833.2, 163170.0],
        [0.607927, 0.151982, 0.0987581, 0.0712813, 0.0364855, 0.01758, 0.00848539, 0.00750084],
    ),
}
"""Rates and shares of Crank's shapes, l being half the thickness of a sheet or the radius."""


@lru_cache(maxsize=512)
def product(factors: Factors) -> Compartments:
    """The compartments of a body that is the product of plain ones.

    What a brick lacks of rest is the product of what three sheets lack (Crank 1975, section 2.2).
    """
    if len(factors) == 1:
        (shape, size), plain = factors[0], PLAIN[factors[0][0]]
        return plain if size == 1.0 else Compartments(factors, plain.rates / size**2, plain.shares)
    rates, shares = np.zeros(1), np.ones(1)
    for shape, size in factors:
        part = PLAIN[shape]
        rates = np.add.outer(rates, part.rates / size**2).ravel()
        shares = np.outer(shares, part.shares).ravel()
    return Compartments(factors, *_joined(rates, shares))


def _joined(rates: Array, shares: Array) -> tuple[Array, Array]:
    """Fewer: the slowest alone, then one compartment for each further factor of _OCTAVE, at its mean rate."""
    octave = np.ceil(np.log(rates / rates.min()) / np.log(_OCTAVE) - 1e-9).astype(int)
    held = np.bincount(octave, shares)
    octave = np.searchsorted(
        np.flatnonzero(held > _LEAST), np.minimum(octave, np.flatnonzero(held > _LEAST)[-1])
    )
    whole = np.bincount(octave, shares)
    slowed = np.exp(np.bincount(octave, shares * np.log(rates)) / whole)
    return slowed, whole / whole.sum()


@lru_cache(maxsize=512)
def lag_at(body: Compartments, position: float = 0.0) -> Array:
    """Weights of the compartments' lag behind the surface in that at `position`: 0 the centre, 1 the surface,
    of which a body with edges has only the centre.

    That of the slowest eigenmode is its own, the others are fitted by least squares to Crank's solution for a
    surface that stands still; any other history of the surface follows, as all is linear. They add up to 1
    inside and are 0 at the surface. Shape (compartments,).
    """
    if position >= 1.0:
        return np.zeros(len(body))
    times = np.geomspace(1e-3, 4.0, 300)
    lag, slowest = np.ones_like(times), 1.0
    for shape, size in body.factors:
        roots, weights = roots_and_weights(shape, 120)
        heights = weights * eigenfunction(roots, np.array(position), shape)
        lag *= np.exp(-np.outer(times / size**2, roots**2)) @ heights
        slowest *= heights[0]
    lag -= slowest * np.exp(-body.rates[0] * times)
    counts, rest = np.where(times > 0.02, 6.0, 1.0), len(body) - 1
    fading = np.exp(-np.outer(times, body.rates[1:])) * counts[:, np.newaxis]
    # They add up to 1, and stay small.
    bounds = np.concatenate((np.full((1, rest), 100.0), 0.01 * np.eye(rest)))
    wanted = np.concatenate((lag * counts, [100.0 * (1.0 - slowest)], np.zeros(rest)))
    found = np.append(slowest, np.linalg.lstsq(np.concatenate((fading, bounds)), wanted)[0])
    found[-1] += 1.0 - found.sum()
    return found
