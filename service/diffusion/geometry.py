"""Pieces of food by shape and size, with the short cylinder and the brick besides Crank's three shapes.

In an endless bath what is missing from equilibrium in a brick is the product of what is missing in three
sheets (in a short cylinder: a cylinder and a sheet; Crank 1975, section 2.2). That product does not hold once
the bath weakens. Here the endless-bath curve of the body is matched to those of two of Crank's shapes, time
by time, and their exact curves in the finite bath are blended by how the body's slowest mode compares with
theirs. Against exact solutions (every mode coupled to the bath) the mean is within 0.3 % of equilibrium and
the centre within 1.5 % for alpha of 1 and more, 3.5 % down to 0.1.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import count
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from . import curves
from .compartments import Compartments, product
from .curves import Reached, Where, reached
from .eigenmodes import SHAPES, Array, Shape

THICKNESS_REACH = 0.1
"""A stated thickness is held to within this share: pieces taper, and a rule is held by hand."""

BODIES = (*SHAPES, "short_cylinder", "brick")

_DIMENSIONS: dict[Shape, int] = {"sheet": 1, "cylinder": 2, "sphere": 3}
_SLOWEST: dict[Shape, float] = {"sheet": (math.pi / 2) ** 2, "cylinder": 5.783185962947, "sphere": math.pi**2}
"""The slowest mode's root squared in an endless bath."""


@dataclass(frozen=True, slots=True)
class Body:
    """A piece. thickness_cm: of a sheet or brick, or the diameter; the lengths are in cm too.

    A short cylinder has `length_cm`, a brick `length_cm` and `width_cm`. Fourier numbers go by half of
    thickness_cm in every shape. Raises ValueError for an unknown shape or a missing or zero length.
    """

    shape: str
    thickness_cm: float
    length_cm: float | None = None
    width_cm: float | None = None

    def __post_init__(self) -> None:
        if self.shape not in BODIES:
            raise ValueError(f"unknown shape {self.shape!r}: use one of {', '.join(BODIES)}")
        if not all(size is not None and size > 0 for size in (self.thickness_cm, *self._other_lengths())):
            raise ValueError(f"a {self.shape} needs all its lengths, above 0 cm")

    @property
    def half_thickness_m(self) -> float:
        """The length l of the Fourier number D t / l^2."""
        return self.thickness_cm / 200.0

    @property
    def compartments(self) -> Compartments:
        """The piece as its surface sees it; rates go by the Fourier number of half of thickness_cm."""
        return product(tuple(self._factors()))

    def surface_per_cm(self, thickness_cm: Array) -> Array:
        """Surface over volume, per cm, of a body of this form and such a thickness."""
        around = sum(_DIMENSIONS[shape] / ratio for shape, ratio in self._factors())
        return np.asarray(2.0 * around / thickness_cm)

    def mean_reached(self, fourier: ArrayLike, alpha: ArrayLike) -> Reached:
        """Mean concentration as a share of equilibrium; see `curves.mean_reached`."""
        return self.reached(fourier, alpha, "mean")

    def centre_reached(self, fourier: ArrayLike, alpha: ArrayLike) -> Reached:
        """Centre concentration as a share of equilibrium; see `curves.centre_reached`."""
        return self.reached(fourier, alpha, "centre")

    def reached(self, fourier: ArrayLike, alpha: ArrayLike, where: Where) -> Reached:
        """`mean_reached` or `centre_reached`, by name."""
        for shape in SHAPES:
            if self.shape == shape:
                return reached(fourier, alpha, shape, where)
        root = np.sqrt(self._reached_endless(fourier, where))
        first, second, weight = self._blend()
        one = reached(_endless_time(root, first, where), alpha, first, where)
        other = reached(_endless_time(root, second, where), alpha, second, where)
        return np.asarray(np.minimum(np.maximum(one + weight * (other - one), 0.0), 1.0))

    def mean_reached_in_turns(self, fourier: ArrayLike, alpha: ArrayLike) -> Iterator[Reached]:
        """Share of the way to equilibrium that a piece goes in each of like fresh baths, one after another.

        fourier and alpha: those of each bath. A piece that has stood in one water already is spent near its
        surface and gives up less to the next than an even one would. Fick's law is linear, so that a bath
        poured away is a pulse taken out, and the piece misses what it would have had of that from then on
        (Duhamel's superposition): as exact as the curve of one bath.
        """
        ended = self.mean_reached(fourier, alpha)
        yield ended
        time, held = np.asarray(fourier, dtype=float), 1.0 / (1.0 + np.asarray(alpha, dtype=float))
        curves, poured = [np.zeros_like(ended), ended], list[Array]()
        for baths in count(1):
            missed = sum((p * (1.0 - held * curves[baths - at]) for at, p in enumerate(poured, 1)), 0.0)
            poured.append(held * curves[baths] - missed)
            curves.append(self.mean_reached((baths + 1) * time, alpha))
            begun, ended = ended, _with_pulses(curves, poured)
            still = 1.0 - (1.0 - held) * begun
            moved = np.divide(ended - begun, still, out=np.ones_like(ended + still), where=still > 1e-9)
            yield np.asarray(np.clip(moved, 0.0, 1.0))

    def fourier_for(self, share: ArrayLike, alpha: ArrayLike, where: Where = "centre") -> Reached:
        """The Fourier number at which `share` of equilibrium is reached; see `curves.fourier_for`."""
        return curves.invert(lambda time, bath: self.reached(time, bath, where), share, alpha)

    def _other_lengths(self) -> tuple[float | None, ...]:
        lengths = {"short_cylinder": (self.length_cm,), "brick": (self.width_cm, self.length_cm)}
        return lengths.get(self.shape, ())

    def _factors(self) -> list[tuple[Shape, float]]:
        """The shapes whose endless-bath solutions multiply, each with its size over the thickness."""
        plain: dict[str, Shape] = {"cylinder": "cylinder", "short_cylinder": "cylinder", "sphere": "sphere"}
        first: Shape = plain.get(self.shape, "sheet")
        others = [length / self.thickness_cm for length in self._other_lengths() if length is not None]
        return [(first, 1.0), *(("sheet", ratio) for ratio in others)]

    def _reached_endless(self, fourier: ArrayLike, where: Where) -> Reached:
        missing: Any = 1.0
        for shape, ratio in self._factors():
            missing = missing * (1.0 - reached(np.divide(fourier, ratio**2), math.inf, shape, where))
        return np.asarray(1.0 - missing)

    def _blend(self) -> tuple[Shape, Shape, float]:
        """Two shapes and the weight of the second (above 1 for bodies beyond the sphere, as the cube)."""
        factors = self._factors()
        surface = sum(_DIMENSIONS[shape] / ratio for shape, ratio in factors)
        slowest = sum(_SLOWEST[shape] / ratio**2 for shape, ratio in factors) / surface**2
        flat = slowest > _compactness("cylinder")
        first: Shape = "sheet" if flat else "cylinder"
        second: Shape = "cylinder" if flat else "sphere"
        return first, second, (_compactness(first) - slowest) / (_compactness(first) - _compactness(second))


def _with_pulses(curves: Sequence[Array], poured: Sequence[Array]) -> Array:
    """How far a piece is when the curves end, as a share of its way to equilibrium with the first bath."""
    pulses = (pulse * curve for pulse, curve in zip(poured, reversed(curves[1:-1]), strict=True))
    return curves[-1] + sum(pulses, np.zeros_like(curves[-1]))


def _compactness(shape: Shape) -> float:
    """The slowest mode's rate, length taken as volume over surface."""
    return _SLOWEST[shape] / _DIMENSIONS[shape] ** 2


def _endless_time(root: Reached, shape: Shape, where: Where) -> Array:
    """The Fourier number at which a shape in an endless bath has reached a share, by its square `root`."""
    pace = np.interp(root, *_endless_curve(shape, where))
    return np.square(pace * pace)


@cache
def _endless_curve(shape: Shape, where: Where) -> tuple[Array, Array]:
    """The root of the share, rising, and the fourth root of the Fourier number: nearly a line for a mean."""
    paces = np.linspace(0.0, 14.0**0.25, 1000)
    roots = np.sqrt(reached(paces**4, math.inf, shape, where))
    rising = np.append(np.diff(roots) > 0, False)
    return roots[rising], paces[rising]
