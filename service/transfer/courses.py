"""How uptake from one bath, or from dry salt, goes on over time: on average, at the centre, and in between.

A bath is finite and stirred. Dry salt has no water but what it draws: while it lies on the food its brine is
saturated, as an endless bath would be; once it is used up, what went in evens out. By then it is known when
how much went in, and each part of it evens out as a thin layer laid on at its own moment (Duhamel's rule).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from ..core.spread import Draws
from ..diffusion.curves import invert, profile
from ..diffusion.eigenmodes import SHAPES, Shape
from ..diffusion.geometry import Body
from .brine import SATURATED_G_PER_G_WATER

BARELY_WET = 1e-6
"""Bath water over food water that stands for a layer of salt with no water to speak of."""

_LAYERS = 4
"""Equal parts of the salt, each laid on when half of it had gone in. Against a numerical solution the centre
is within 1.5 % of equilibrium; close under the surface the profile is rougher."""


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """Uptake in a stirred bath, in draws of shape (DRAWS + 1,) with the likely case first.

    alpha: bath water over food water. pace_per_h: Fourier number per hour. most_absorbed: share of the
    bath's salt that is in the food at equilibrium.
    """

    body: Body
    alpha: Draws
    diffusivity_m2_s: Draws
    pace_per_h: Draws
    most_absorbed: Draws

    def mean(self, time_h: Any) -> Draws:
        """Mean share of equilibrium, 0 to 1; `time_h` broadcasts against the draws."""
        return self.body.mean_reached(time_h * self.pace_per_h, self.alpha)

    def centre(self, time_h: Any) -> Draws:
        """Share of equilibrium at the centre, 0 to 1."""
        return self.body.centre_reached(time_h * self.pace_per_h, self.alpha)

    def centre_fourier(self, share: ArrayLike) -> Draws:
        """The Fourier number at which the centre has come to a share of equilibrium."""
        return self.body.fourier_for(share, self.alpha)

    def profile(self, time_h: float, positions: ArrayLike) -> Draws | None:
        """Shares of equilibrium from the centre (position 0) to the surface (1), shape (positions, draws).

        Above 1 where the bath is still stronger than it will be; None for a body with edges. The bath is that
        of the likely case: shares of equilibrium hang little on it, and much on the pace.
        """
        shape = _plain(self.body)
        if shape is None:
            return None
        return profile(time_h * self.pace_per_h, float(self.alpha[0]), shape, positions)


@dataclass(frozen=True, slots=True, eq=False)
class DryCourse(Course):
    """Uptake from dry salt. room: what the food's water can hold over what lies on it, draws.

    spent_fourier: when the salt is used up, inf where the food is full before. layers: when each equal part
    of the salt went in, Fourier numbers of shape (_LAYERS, draws).
    """

    room: Draws
    spent_fourier: Draws
    layers: Draws

    @classmethod
    def of(
        cls, lying_g: float, food_water_g: Draws, body: Body, diffusivity: Draws, pace: Draws
    ) -> DryCourse:
        """From the grams of salt on the food, and of water in it."""
        room = SATURATED_G_PER_G_WATER * food_water_g / lying_g
        parts = np.append((np.arange(_LAYERS) + 0.5) / _LAYERS, 1.0)[:, np.newaxis]
        went_in = body.fourier_for(parts / np.maximum(room, 1.0), math.inf, "mean")
        return cls(
            body=body,
            alpha=np.full_like(room, BARELY_WET),
            diffusivity_m2_s=diffusivity,
            pace_per_h=pace,
            most_absorbed=np.minimum(room, 1.0),
            room=room,
            spent_fourier=went_in[-1],
            layers=went_in[:-1],
        )

    def mean(self, time_h: Any) -> Draws:
        most = np.maximum(self.room, 1.0)
        return np.minimum(most * self.body.mean_reached(time_h * self.pace_per_h, math.inf), 1.0)

    def centre(self, time_h: Any) -> Draws:
        return self._in_two_parts(time_h * self.pace_per_h, self.body.centre_reached)

    def centre_fourier(self, share: ArrayLike) -> Draws:
        return invert(
            lambda fourier, _: self._in_two_parts(fourier, self.body.centre_reached), share, self.alpha
        )

    def profile(self, time_h: float, positions: ArrayLike) -> Draws | None:
        shape = _plain(self.body)
        if shape is None:
            return None
        return self._in_two_parts(
            time_h * self.pace_per_h, lambda fourier, bath: profile(fourier, bath, shape, positions)
        )

    def _in_two_parts(self, fourier: Draws, curve: Callable[[Draws, float], Draws]) -> Draws:
        lying = np.maximum(self.room, 1.0) * curve(fourier, math.inf)
        after = [curve(np.maximum(fourier - laid_on, 0.0), BARELY_WET) for laid_on in self.layers]
        return np.where(fourier <= self.spent_fourier, lying, np.mean(after, axis=0))


def _plain(body: Body) -> Shape | None:
    """The shape of a body without edges; None for one with."""
    return next((shape for shape in SHAPES if shape == body.shape), None)
