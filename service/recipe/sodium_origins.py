"""Which line the sodium came from that was eaten, poured away or left behind: likely case, line by line.

Every place is well mixed, as the calculation has it: what leaves it is made of its lines' sodium in the
proportion in which it holds them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .outcome import Outcome

Milligrams = NDArray[np.float64]
"""mg of sodium by line, shape (lines,)."""


@dataclass(frozen=True, slots=True, eq=False)
class SodiumOrigins:
    """mg of each line's sodium by the place where it ended, in the order of `Outcome.listed`."""

    components: tuple[str, ...]
    ended: Mapping[str, Milligrams]

    @property
    def eaten_mg(self) -> Milligrams:
        return self.ended["eaten"]

    def by_component(self) -> Iterator[tuple[str, str, float]]:
        """(component, place, mg): what of a component's own sodium ended where, where any did."""
        for component in dict.fromkeys(self.components):
            own = np.array([each == component for each in self.components])
            for place, mg in self.ended.items():
                part = float(mg[own].sum())
                if part > 0:
                    yield component, place, part


def sodium_origins(outcome: Outcome) -> SodiumOrigins:
    """Play the movements of sodium again, each amount marked by its line."""
    listed = outcome.listed
    brought = np.array(
        [(each.sodium_mg or 0.0) + (each.assumed_mg.likely if each.assumed_mg else 0.0) for each in listed]
    )
    eaten = np.array([each.eaten_share for each in listed])
    held = {place: np.zeros(len(listed)) for place in outcome.state.pools.leading}
    for i, each in enumerate(listed):
        held[each.component][i] = brought[i] * eaten[i]
        held["not_eaten"][i] = brought[i] * (1 - eaten[i])
    for source, target, mg in map(_forward, outcome.state.pools.sodium_moves):
        whole = float(held[source].sum())
        if whole > 0:
            moved = held[source] * min(mg / whole, 1.0)
            held[source] = held[source] - moved
            held[target] = held[target] + moved
    names = {component.id for component in outcome.request.components}
    ended = {place: mg for place, mg in held.items() if place not in names}
    return SodiumOrigins(tuple(each.component for each in listed), ended)


def _forward(move: tuple[str, str, float]) -> tuple[str, str, float]:
    """A movement from the place that gives to the one that takes."""
    source, target, mg = move
    return move if mg >= 0 else (target, source, -mg)
