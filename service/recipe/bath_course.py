"""How one solute of a piece in its bath goes on over time: on average, at the centre, and in between."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np

from ..core.spread import Draws
from ..diffusion.compartments import Compartments, lag_at
from ..diffusion.eigenmodes import Array
from ..diffusion.stirred import Stirred
from ..transfer.profile import DEPTH
from .pools import TRACE

POSITIONS = tuple(np.linspace(0.0, 1.0, 11).tolist())
"""Where the profile is given: 0 the centre, 1 the surface."""


@dataclass(frozen=True, eq=False)
class Course:
    """One solute of a piece in its bath over time, in draws of shape (DRAWS + 1,), the likely case first.

    Shares are of what it comes to at rest, in the piece's own water. system: over `last_h` hours, one row.
    """

    system: Stirred
    body: Compartments
    last_h: float

    def mean(self, time_h: Any) -> Draws:
        """Mean share of equilibrium, 0 to 1."""
        return self._mean(self._gained(time_h))

    def centre(self, time_h: Any) -> Draws:
        """Share of equilibrium at the centre, 0 to 1; it is never ahead of the mean."""
        gained = self._gained(time_h)
        return np.minimum(_share(self._at(gained, lag_at(self.body)[np.newaxis])[0]), self._mean(gained))

    def profile(self, time_h: float) -> Draws | None:
        """Shares of equilibrium from the centre to the surface, (positions, draws), above 1 where the bath is
        still stronger than it will be; None for a body with edges."""
        if len(self.body.factors) > 1:
            return None
        places = self._at(
            self._gained(time_h), np.array([lag_at(self.body, position) for position in POSITIONS])
        )
        return np.asarray(np.maximum.accumulate(np.maximum(places, 0.0), axis=0))

    @property
    def most_absorbed(self) -> Draws:
        """Share of the bath's solute that the piece's own water holds at rest."""
        return np.asarray(self._at_rest * self._own_room / self.system.bath_held[0])

    def hours_until(self, share: Draws | float) -> Draws:
        """Hours until the centre has come to a share (0 to 1, ends left out) of equilibrium.

        Secants, kept inside a shrinking bracket, on the log odds of the share against the logarithm of time,
        where the curve is nearly straight.
        """
        end = np.log(self.last_h)
        low, high = (np.full(self._own_room.shape, end + reach) for reach in (-25.0, 0.0))
        target = np.broadcast_to(_log_odds(share), low.shape)
        # The slowest compartment is about that far on where the centre is half way.
        slowest = self.system.paces[0, DEPTH - 1]
        at = np.clip(end - np.log(np.maximum(slowest, TRACE)), low + 1.0, high)
        last = at - 0.5
        last_gap = _log_odds(self.centre(np.exp(last))) - target
        found, open_, course = np.empty_like(at), np.arange(len(at)), self
        for turn in range(60):
            gap = _log_odds(course.centre(np.exp(at))) - target
            low, high = np.where(gap < 0, at, low), np.where(gap < 0, high, at)
            rise = np.where(gap == last_gap, 1.0, gap - last_gap)
            step = at - gap * (at - last) / rise
            is_usable = (step > low) & (step < high) & (gap != last_gap) & (turn < 12)
            found[open_] = at
            # Draws that are there are left alone.
            far = np.abs(gap) >= 1e-7
            last, last_gap, at = at[far], gap[far], np.where(is_usable, step, 0.5 * (low + high))[far]
            if not at.size:
                break
            open_, target, low, high = open_[far], target[far], low[far], high[far]
            course = course._picked(lambda array, far=far: array[..., far])  # type: ignore[misc]
        return np.asarray(np.exp(found))

    def likely_at(self, hours: Draws) -> Course:
        """The likely case alone, with as many columns as there are times to ask for at once."""
        return self._picked(
            lambda array: np.asarray(np.broadcast_to(array[..., :1], (*array.shape[:-1], len(hours))))
        )

    def _picked(self, of: Callable[[Array], Array]) -> Course:
        """The same with other draws; of: which ones of an array, draws last."""
        system, lying = self.system, self.system.lying
        picked = Stirred(
            held=of(system.held),
            rooms=of(system.rooms),
            paces=of(system.paces),
            bath_held=of(system.bath_held),
            bath_rooms=of(system.bath_rooms),
            lying=None if lying is None else replace(lying, excess=of(lying.excess)),
        )
        return replace(self, system=picked)

    def _gained(self, time_h: Any) -> Array:
        """What film, swelling and the compartments of the piece have gained, (compartments, draws)."""
        return np.asarray(self.system.gained(time_h / self.last_h)[0])

    def _mean(self, gained: Array) -> Draws:
        return _share(gained[DEPTH - 1 :].sum(axis=0) / self._own_room / self._at_rest)

    def _at(self, gained: Array, lag: Array) -> Draws:
        """Concentrations at places over that at rest, by the weights, (places, compartments), of their lag
        behind the surface."""
        within = gained[DEPTH - 1 :] / np.maximum(self.system.rooms[DEPTH - 1 :], TRACE)
        bath_room = self.system.bath_rooms[0]
        outside = (self.system.bath_held[0] - gained.sum(axis=0)) / np.maximum(bath_room, TRACE)
        outside = np.where(bath_room > TRACE, np.minimum(outside, self._most), within[-1])
        return np.asarray((outside + lag @ (within - outside)) / self._at_rest)

    @property
    def _most(self) -> float:
        return self.system.lying.strength if self.system.lying else np.inf

    @cached_property
    def _own_room(self) -> Draws:
        return np.asarray(self.system.rooms[DEPTH - 1 :].sum(axis=0))

    @cached_property
    def _at_rest(self) -> Draws:
        """What a gram of water holds at rest."""
        whole = self.system.rooms.sum(axis=0) + self.system.bath_rooms[0]
        return np.asarray(np.minimum(self.system.bath_held[0] / whole, self._most))


def _share(values: Draws) -> Draws:
    """Held to 0 to 1: the weights of a place are fitted, and the last bits of nothing are not shown."""
    return np.asarray(np.clip(np.where(values > 1e-9, values, 0.0), 0.0, 1.0))


def _log_odds(share: Any) -> Any:
    """ln(share / (1 - share)), with the ends taken as 1e-13 short of 0 and 1."""
    safe = np.minimum(np.maximum(share, 1e-13), 1.0 - 1e-13)
    return np.log(safe / (1.0 - safe))
