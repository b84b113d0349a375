"""Which line the sodium came from that was eaten, poured away or left behind, and the sugar that was eaten:
likely case, line by line.

Every place is well mixed, as the calculation has it: what leaves it is made of its lines' sodium in the
proportion in which it holds them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from .outcome import Outcome

Milligrams = list[float]
"""mg of sodium by line: so few that lists are quicker than arrays."""


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
            for place, held in self.ended.items():
                own = zip(self.components, held, strict=True)
                part = sum(mg for of, mg in own if of == component)
                if part > 0:
                    yield component, place, part


def sodium_origins(outcome: Outcome) -> SodiumOrigins:
    """Play the movements of sodium again, each amount marked by its line."""
    listed = outcome.listed
    brought = [
        (each.sodium_mg or 0.0) + (each.assumed_mg.likely if each.assumed_mg else 0.0) for each in listed
    ]
    moves = [(source, target, mg) for source, target, mg, _ in outcome.state.pools.likely_moves]
    held = _played_again(outcome, brought, moves)
    names = {component.id for component in outcome.request.components}
    ended = {place: mg for place, mg in held.items() if place not in names}
    return SodiumOrigins(tuple(each.component for each in listed), ended)


def sugar_eaten_g(outcome: Outcome) -> list[float]:
    """g of each line's sugar that are eaten, in the order of `Outcome.listed`; of what is not known none."""
    foods = ((each.ingredient.food, each.grams) for each in outcome.listed)
    brought = [(food.per_100g("SUGAR") or 0.0) * grams / 100 if food else 0.0 for food, grams in foods]
    moves = [(source, target, grams) for source, target, _, grams in outcome.state.pools.likely_moves]
    return _played_again(outcome, brought, moves)["eaten"]


_Move = tuple[str, str, float]
"""From where to where, and how much; below 0 the other way."""


def _played_again(outcome: Outcome, brought: list[float], moves: Iterable[_Move]) -> dict[str, list[float]]:
    """By place, what is there in the end of what each line brought."""
    listed = outcome.listed
    held = {place: [0.0] * len(listed) for place in outcome.state.pools.leading}
    for line, (each, amount) in enumerate(zip(listed, brought, strict=True)):
        held[each.component][line] += amount * each.eaten_share
        held["not_eaten"][line] += amount * (1 - each.eaten_share)
    for source, target, amount in map(_forward, moves):
        giving, taking = held[source], held[target]
        whole = sum(giving)
        if whole > 0 and amount > 0:
            share = min(amount / whole, 1.0)
            for line, mine in enumerate(giving):
                if mine:
                    giving[line] = mine - mine * share
                    taking[line] += mine * share
    return held


def _forward(move: _Move) -> _Move:
    """A movement from the place that gives to the one that takes."""
    source, target, amount = move
    return move if amount >= 0 else (target, source, -amount)
