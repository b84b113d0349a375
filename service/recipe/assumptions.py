"""The book of assumptions: each figure is entered once and drawn once, and the weightiest can be named."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from ..findings import Assumption
from ..units.spread import Draws, Spread, draw, standard_normal


@dataclass(slots=True, eq=False)
class _Entry:
    """A figure as it was taken; the assumption is put together when it is asked for."""

    made_of: tuple[str, Spread, str, str, int | None]
    cause: str
    draws: Draws

    @property
    def assumption(self) -> Assumption:
        return Assumption(*self.made_of)


class Book:
    """Assumptions in the order they were made, and their draws, shape (DRAWS + 1,)."""

    def __init__(self) -> None:
        self._entries: dict[str, _Entry] = {}
        self._added: list[Callable[[], Iterable[Assumption]]] = []

    def __iter__(self) -> Iterator[Assumption]:
        yield from (entry.assumption for entry in self._entries.values())
        for added in self._added:
            yield from added()

    def take(
        self,
        id: str,
        value: Spread,
        unit: str,
        source: str,
        step: int | None = None,
        *,
        shared: str | None = None,
        floor: float = 0.0,
        ceiling: float = math.inf,
    ) -> Draws:
        """Enter a figure and give its draws; one already entered under this id is drawn no second time.

        shared: a name that figures with one cause have in common (the diffusivity of salt in pork at two
        temperatures, say), so that they are high together and low together.
        """
        entry = self._entries.get(id)
        if entry is None:
            drawn = draw(value, shared or id, floor=floor, ceiling=ceiling)
            entry = self._entries[id] = _Entry((id, value, unit, source, step), shared or id, drawn)
        return entry.draws

    def drawn(
        self, value: Spread, cause: str, *, floor: float = -math.inf, ceiling: float = math.inf
    ) -> Draws:
        """Draws of a figure that an entry made under the same cause rests on."""
        return draw(value, cause, floor=floor, ceiling=ceiling)

    def add(self, assumptions: Callable[[], Iterable[Assumption]]) -> None:
        """Enter figures whose draws are made elsewhere; they are made when listed, and carry no range."""
        self._added.append(assumptions)

    def shares_of_range(self, outcome: Draws) -> list[tuple[Assumption, float]]:
        """How much of the outcome's variance each open assumption carries, largest first.

        First order: the squared correlation of the outcome with the assumption's own draws, 0 to 1.
        """
        causes = {
            entry.cause: entry for entry in reversed(self._entries.values()) if not entry.made_of[1].is_exact
        }
        spread = outcome[1:] - outcome[1:].mean()
        size = math.sqrt(float(spread @ spread))
        if not causes or size == 0.0:
            return []
        design = np.array([standard_normal(cause)[1:] for cause in causes])
        correlation = (design @ spread) / (np.sqrt((design * design).sum(axis=1)) * size)
        shares = zip(causes.values(), (float(c) for c in correlation * correlation), strict=True)
        return sorted(((entry.assumption, share) for entry, share in shares), key=lambda pair: -pair[1])
