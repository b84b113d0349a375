"""Which component, and which line of it, the sodium came from that was eaten, poured away or left behind.

An answer's ledger says what moved between components. Following it with each component well mixed, as
the calculation has it, tells how much of each component's own sodium ended where.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Document = Mapping[str, Any]

EATEN = "eaten"
NOT_EATEN = "not_eaten"


@dataclass(frozen=True, slots=True)
class Line:
    """One ingredient's sodium, likely case, mg per serving. listed: as the list has it, less what the
    caller said of this line is not eaten. eaten: what of it is in a serving."""

    component: str
    line: str
    food_code: str | None
    food_name: str | None
    listed_mg: float
    eaten_mg: float


@dataclass(frozen=True, slots=True, eq=False)
class Trace:
    """Where each component's sodium went, mg in the whole recipe: `mg[i, j]` came from `origins[i]` and
    ended at `places[j]`."""

    origins: tuple[str, ...]
    places: tuple[str, ...]
    mg: NDArray[np.float64]

    def eaten_share(self, component: str) -> float | None:
        """The share (0 to 1) of a component's own sodium that is eaten; None where it had none."""
        if component not in self.origins:
            return None
        row = self.mg[self.origins.index(component)]
        whole = float(row.sum())
        return float(row[self.places.index(EATEN)]) / whole if EATEN in self.places and whole > 0 else 0.0


def trace(answer: Document) -> Trace:
    """Follow an answer's ledger from the components, as listed, to the places where sodium ends."""
    origins, brought = _brought(answer)
    held: dict[str, NDArray[np.float64]] = {}
    for i, component in enumerate(origins):
        held[component] = np.zeros(len(origins))
        held[component][i] = brought[component]
    for entry in _in_order(answer, _kept_back(answer)):
        source = held.get(entry["from"], np.zeros(len(origins)))
        whole = float(source.sum())
        share = min(entry["mg"] / whole, 1.0) if whole > 0 else 0.0
        held[entry["from"]] = source * (1 - share)
        held[entry["to"]] = held.get(entry["to"], np.zeros(len(origins))) + source * share
    # An answer's figures are rounded, so that a hair may seem to stay in a component that was emptied.
    hair = 1e-5 * sum(brought.values())
    ended = (place for place, mg in held.items() if mg.sum() > (hair if place in brought else 0.0))
    places = tuple(sorted(ended, key=lambda place: place != EATEN))
    mg = np.column_stack([held[place] for place in places]) if places else np.zeros((len(origins), 0))
    return Trace(origins, places, mg)


def lines(answer: Document) -> list[Line]:
    """Each ingredient's sodium per serving, as listed and as eaten, in the order of the answer."""
    traced = trace(answer)
    servings = answer["servings"]
    return [
        _line(each, traced.eaten_share(each["component"]) or 0.0, servings) for each in answer["ingredients"]
    ]


def _line(ingredient: Document, eaten_share: float, servings: float) -> Line:
    food = ingredient["food"] or {"code": None, "name": None}
    listed = _into_component(ingredient) / servings
    return Line(
        ingredient["component"],
        ingredient["line"],
        food["code"],
        food["name"],
        listed,
        listed * eaten_share,
    )


def _into_component(ingredient: Document) -> float:
    """mg of sodium of an ingredient that take part in its component."""
    eaten = ingredient.get("eaten_fraction")
    return _listed_mg(ingredient) * (1.0 if eaten is None else eaten)


def _listed_mg(ingredient: Document) -> float:
    """mg of sodium that an ingredient lists, and that are taken for it where it was not counted."""
    return float(ingredient["sodium_mg"] or 0.0) + float(ingredient.get("assumed_mg") or 0.0)


def _brought(answer: Document) -> tuple[tuple[str, ...], dict[str, float]]:
    brought: dict[str, float] = {}
    for each in answer["ingredients"]:
        brought[each["component"]] = brought.get(each["component"], 0.0) + _into_component(each)
    return tuple(brought), brought


def _kept_back(answer: Document) -> dict[str, float]:
    """mg by component that left it at the very start, because single lines of it are not all eaten."""
    kept: dict[str, float] = {}
    for each in answer["ingredients"]:
        back = _listed_mg(each) - _into_component(each)
        kept[each["component"]] = kept.get(each["component"], 0.0) + back
    return kept


def _in_order(answer: Document, kept_back: Mapping[str, float]) -> list[Document]:
    """The ledger in the order of cooking: serving (no step) comes last, what was kept back is taken off."""
    ledger: Sequence[Document] = answer["sodium"]["ledger"]
    steps = [entry for entry in ledger if entry["step"] is not None]
    serving = [entry for entry in ledger if entry["step"] is None]
    return steps + [_less(entry, kept_back) for entry in serving]


def _less(entry: Document, kept_back: Mapping[str, float]) -> Document:
    if entry["to"] != NOT_EATEN:
        return entry
    return {**entry, "mg": max(entry["mg"] - kept_back.get(entry["from"], 0.0), 0.0)}
