"""Which line the sodium came from that was eaten, poured away or left behind, and the sugar that was eaten:
likely case, line by line.

Every place is well mixed, as the calculation has it: what leaves it is made of its lines' sodium in the
proportion in which it holds them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
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
    moves = [(source, target, mg) for source, target, mg, _ in outcome.state.pools.likely_moves]
    held = _played_again(outcome, brought, moves)
    names = {component.id for component in outcome.request.components}
    ended = {place: mg for place, mg in held.items() if place not in names}
    return SodiumOrigins(tuple(each.component for each in listed), ended)


def sugar_eaten_g(outcome: Outcome) -> NDArray[np.float64]:
    """g of each line's sugar that are eaten, in the order of `Outcome.listed`; of what is not known none."""
    foods = ((each.ingredient.food, each.grams) for each in outcome.listed)
    brought = np.array(
        [(food.per_100g("SUGAR") or 0.0) * grams / 100 if food else 0.0 for food, grams in foods]
    )
    moves = [(source, target, grams) for source, target, _, grams in outcome.state.pools.likely_moves]
    return _played_again(outcome, brought, moves)["eaten"]


_Move = tuple[str, str, float]
"""From where to where, and how much; below 0 the other way."""


def _played_again(
    outcome: Outcome, brought: NDArray[np.float64], moves: Iterable[_Move]
) -> dict[str, NDArray[np.float64]]:
    """By place, what is there in the end of what each line brought."""
    listed = outcome.listed
    eaten = np.array([each.eaten_share for each in listed])
    own = np.array([each.component for each in listed])
    held = {place: np.where(own == place, brought * eaten, 0.0) for place in outcome.state.pools.leading}
    held["not_eaten"] = brought * (1 - eaten)
    for source, target, amount in map(_forward, moves):
        whole = float(held[source].sum())
        if whole > 0 and amount > 0:
            moved = held[source] * min(amount / whole, 1.0)
            held[source] = held[source] - moved
            held[target] = held[target] + moved
    return held


def _forward(move: _Move) -> _Move:
    """A movement from the place that gives to the one that takes."""
    source, target, amount = move
    return move if amount >= 0 else (target, source, -amount)
