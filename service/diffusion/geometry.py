"""Pieces of food by shape and size, with the short cylinder and the brick besides Crank's three shapes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .compartments import Compartments, product
from .eigenmodes import SHAPES, Array, Shape

THICKNESS_REACH = 0.1
"""A stated thickness is held to within this share: pieces taper, and a rule is held by hand."""

BODIES = (*SHAPES, "short_cylinder", "brick")

FLAT = ("sheet", "brick")
"""The bodies of which one side can be shut."""

DIMENSIONS: dict[Shape, int] = {"sheet": 1, "cylinder": 2, "sphere": 3}


@dataclass(frozen=True, slots=True)
class Body:
    """A piece. thickness_cm: of a sheet or brick, or the diameter; the lengths are in cm too.

    A short cylinder has `length_cm`, a brick `length_cm` and `width_cm`. Fourier numbers D t / l^2 go by half
    of thickness_cm in every shape. open_faces: 1 where skin or rind shuts one broad side of a sheet or brick,
    which is then half of a piece twice as thick. Raises ValueError for an unknown shape, a missing or zero
    length, or a round piece with one face.
    """

    shape: str
    thickness_cm: float
    length_cm: float | None = None
    width_cm: float | None = None
    open_faces: int = 2

    def __post_init__(self) -> None:
        if self.open_faces != 2 and (self.open_faces != 1 or self.shape not in FLAT):
            raise ValueError(f"a {self.shape} cannot be open on {self.open_faces} faces")
        if self.shape not in BODIES:
            raise ValueError(f"unknown shape {self.shape!r}: use one of {', '.join(BODIES)}")
        if not all(size is not None and size > 0 for size in (self.thickness_cm, *self._other_lengths())):
            raise ValueError(f"a {self.shape} needs all its lengths, above 0 cm")

    @property
    def compartments(self) -> Compartments:
        """The piece as its surface sees it; rates go by the Fourier number of half of thickness_cm."""
        return product(tuple(self.factors))

    def surface_per_cm(self, thickness_cm: Array) -> Array:
        """Surface over volume, per cm, of a body of this form and such a thickness (above 0, any shape)."""
        around = sum(DIMENSIONS[shape] / ratio for shape, ratio in self.factors)
        return np.asarray(2.0 * around / thickness_cm)

    def _other_lengths(self) -> tuple[float | None, ...]:
        lengths = {"short_cylinder": (self.length_cm,), "brick": (self.width_cm, self.length_cm)}
        return lengths.get(self.shape, ())

    @property
    def factors(self) -> list[tuple[Shape, float]]:
        """The shapes whose endless-bath solutions multiply, each with its size over the thickness."""
        plain: dict[str, Shape] = {"cylinder": "cylinder", "short_cylinder": "cylinder", "sphere": "sphere"}
        first: Shape = plain.get(self.shape, "sheet")
        others = [length / self.thickness_cm for length in self._other_lengths() if length is not None]
        return [(first, 2.0 / self.open_faces), *(("sheet", ratio) for ratio in others)]
