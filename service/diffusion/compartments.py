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

from .eigenmodes import Array, Shape

_SLOW = 2
"""Compartments of a plain shape that are true eigenmodes."""
_OCTAVE = 2.5
"""Compartments of a body with edges are joined where their rates are within this factor."""
_LEAST = 1e-5
"""A compartment of less than this share is joined to the next."""


@dataclass(frozen=True, slots=True, eq=False)
class Compartments:
    """rates: per unit of the Fourier number D t / l^2, rising. shares: of the piece's water, adding up to 1.

    centre: weights of the compartments' lag behind the surface in that of the centre; they add up to 1.
    """

    rates: Array
    shares: Array
    centre: Array

    def __len__(self) -> int:
        return len(self.rates)


def _plain(rates: list[float], shares: list[float], centre: tuple[float, float]) -> Compartments:
    weights = np.zeros(len(rates))
    weights[:_SLOW] = centre
    weights[_SLOW] = 1.0 - sum(centre)
    return Compartments(np.array(rates), np.array(shares) / sum(shares), weights)


PLAIN: dict[Shape, Compartments] = {
    "sheet": _plain(
        [2.4674, 22.2066, 69.024, 260.334, 1178.96, 5502.0, 25981.9, 155554.0],
        [0.810569, 0.0900633, 0.0439266, 0.028903, 0.0142201, 0.00662966, 0.00309731, 0.00259059],
        (1.27324, -0.424413),
    ),
    "cylinder": _plain(
        [5.78319, 30.4713, 84.5625, 306.971, 1344.03, 6053.99, 27572.8, 159608.0],
        [0.69166, 0.131271, 0.0756735, 0.0520566, 0.0260366, 0.0123458, 0.005876, 0.00508],
        (1.601975, -1.064799),
    ),
    "sphere": _plain(
        [9.8696, 39.4784, 100.549, 349.319, 1480.53, 6489.69, 28833.2, 163170.0],
        [0.607927, 0.151982, 0.0987581, 0.0712813, 0.0364855, 0.01758, 0.00848539, 0.00750084],
        (2.0, -2.0),
    ),
}
"""Rates and shares of Crank's shapes, l being half the thickness of a sheet or the radius."""


@lru_cache(maxsize=512)
def product(factors: tuple[tuple[Shape, float], ...]) -> Compartments:
    """The compartments of a body that is the product of plain ones: (shape, its size over the first's).

    What a brick lacks of rest is the product of what three sheets lack (Crank 1975, section 2.2).
    """
    rates, shares, centre = np.zeros(1), np.ones(1), np.ones(1)
    for shape, size in factors:
        part = PLAIN[shape]
        rates = np.add.outer(rates, part.rates / size**2).ravel()
        shares, centre = np.outer(shares, part.shares).ravel(), np.outer(centre, part.centre).ravel()
    return PLAIN[factors[0][0]] if len(factors) == 1 else _joined(rates, shares, centre)


def _joined(rates: Array, shares: Array, centre: Array) -> Compartments:
    """Fewer: the slowest alone, then one compartment for each further factor of _OCTAVE, at its mean rate."""
    octave = np.ceil(np.log(rates / rates.min()) / np.log(_OCTAVE) - 1e-9).astype(int)
    held = np.bincount(octave, shares)
    octave = np.searchsorted(
        np.flatnonzero(held > _LEAST), np.minimum(octave, np.flatnonzero(held > _LEAST)[-1])
    )
    whole = np.bincount(octave, shares)
    slowed = np.exp(np.bincount(octave, shares * np.log(rates)) / whole)
    weights: Array = np.bincount(octave, centre).astype(float)
    return Compartments(slowed, whole / whole.sum(), weights)
