"""The book of assumptions: each figure is entered once and drawn once, and the weightiest can be named."""

from __future__ import annotations

import hashlib
import json
import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, replace
from functools import partial
from typing import Any, Protocol

import numpy as np

from .notices import STATED, Assumption
from .spread import Draws, Spread, draw, shifted, standard_normal, summarise
from .tables import row_of, with_words


class LocalRows(Protocol):
    """How the causes of a kitchen's figures lie, by key: the row of a table, or a dish and its cause."""

    @property
    def identity(self) -> str: ...
    def learned(self, key: str) -> bool: ...
    def normal(self, key: str) -> Draws: ...


_IN_FORCE: ContextVar[LocalRows | None] = ContextVar("local_rows", default=None)


@contextmanager
def local_rows(rows: LocalRows | None) -> Iterator[None]:
    """While it is open, answers stand on a kitchen's own figures beside the published ones."""
    token = _IN_FORCE.set(rows)
    try:
        yield
    finally:
        _IN_FORCE.reset(token)


def rows_in_force() -> LocalRows | None:
    return _IN_FORCE.get()


def dish_of(document: Mapping[str, Any]) -> str:
    """What tells one dish from another: its lines and steps, not its title or servings."""
    told = [document.get(key) for key in ("ingredients", "components", "steps")]
    return hashlib.sha256(json.dumps(told, sort_keys=True, default=str).encode()).hexdigest()[:16]


@dataclass(slots=True, eq=False)
class _Entry:
    """A figure as it was taken; the assumption is put together when it is asked for."""

    made_of: tuple[str, Spread, str, str, int | None]
    cause: str
    draws: Draws
    own_normal: Draws | None = None
    """The standard-normal draws of its cause, where they are the kitchen's own."""

    @property
    def normal(self) -> Draws:
        """The standard-normal draws of its cause."""
        return standard_normal(self.cause) if self.own_normal is None else self.own_normal

    @property
    def assumption(self) -> Assumption:
        return Assumption(*self.made_of)


@dataclass(frozen=True, slots=True)
class StatedFigure:
    """The caller's own figure in place of a row of the tables.

    of: the end of the assumption's name ("yield"), where a row holds several; "" for all. value: in the unit
    in which the answer lists the assumption.
    """

    row: str
    of: str
    value: Spread
    pointer: str

    def stands_for(self, row: str, id: str) -> bool:
        return self.row == row and id.endswith(self.of)


class AssumptionLog:
    """Assumptions in the order they were made, and their draws, shape (DRAWS + 1,)."""

    def __init__(self, dish: str = "", stated: Iterable[StatedFigure] = ()) -> None:
        """dish: what `dish_of` says, for figures that belong to one dish alone. stated: the caller's own
        figures in place of rows of the tables."""
        self._local, self._dish = rows_in_force(), dish
        self._stated, self._used = tuple(stated), set[StatedFigure]()
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
            found = self.stated_for(id, source)
            if found is not None:
                value, source = found.value, with_words(source, f"{STATED}, beside: {source}")
            made_of, ends = (id, value, unit, source, step), (floor, ceiling)
            entry = self._published(made_of, shared or id, *ends)
            if self._local is not None and found is None:
                entry = self._own(self._local, entry, *ends)
            self._entries[id] = entry
        return entry.draws

    @property
    def has_stated(self) -> bool:
        """Whether the caller gives figures of their own."""
        return bool(self._stated)

    def stated_for(self, id: str, source: str) -> StatedFigure | None:
        """The caller's own figure in place of the row that a source is of, if there is one."""
        if not self._stated:
            return None
        row = row_of(source)
        found = next((each for each in self._stated if row and each.stands_for(row, id)), None)
        if found is not None:
            self._used.add(found)
        return found

    @property
    def unused(self) -> list[StatedFigure]:
        """The caller's own figures that nothing stood on."""
        return [each for each in self._stated if each not in self._used]

    def _published(
        self,
        made_of: tuple[str, Spread, str, str, int | None],
        cause: str,
        floor: float,
        ceiling: float,
    ) -> _Entry:
        return _Entry(made_of, cause, draw(made_of[1], cause, floor=floor, ceiling=ceiling))

    def _own(self, local: LocalRows, entry: _Entry, floor: float, ceiling: float) -> _Entry:
        """The figure as the kitchen's own measurements have it, where they say anything of it."""
        id, value, unit, source, step = entry.made_of
        key = row_of(source) or f"{self._dish}/{entry.cause}"
        normal = local.normal(key)
        drawn = np.clip(shifted(value, normal), floor, ceiling)
        if local.learned(key) and not value.is_exact:
            value = summarise(drawn)
            source = with_words(source, f"the kitchen's own measurements, beside: {source}")
        return _Entry((id, value, unit, source, step), key, drawn, normal)

    def causes(self) -> dict[str, Draws]:
        """The causes of the open figures, each with its draws."""
        return {each.cause: each.normal for each in self._entries.values() if not each.made_of[1].is_exact}

    def is_stated(self, id: str) -> bool:
        """Whether the caller's own figure stands under this id."""
        return self._entries[id].made_of[3].startswith(STATED)

    def drawn_as(
        self, id: str, value: Spread, *, floor: float = -math.inf, ceiling: float = math.inf
    ) -> Draws:
        """Draws of another figure that has the cause of an entry: what it is at another time, say."""
        entry = self._entries[id]
        if self._local is None:
            return draw(value, entry.cause, floor=floor, ceiling=ceiling)
        return np.asarray(np.clip(shifted(value, entry.normal), floor, ceiling))

    @property
    def has_own(self) -> bool:
        """Whether any open figure stands on the kitchen's own measurements."""
        return self._local is not None and any(map(self._local.learned, self.causes()))

    def draws_of(self, id: str) -> Draws | None:
        """The draws of a figure that was entered; None where it was not."""
        entry = self._entries.get(id)
        return None if entry is None else entry.draws

    def include(self, name: str, other: AssumptionLog) -> None:
        """Enter the figures of a recipe that this one is made of, each below `name`, with the causes that it
        has there: what both assume alike is one cause. Batches of foods are the whole recipe's own."""
        for id, entry in other._entries.items():
            if not id.startswith("batch:"):
                _, value, unit, source, _ = entry.made_of
                told = (f"{name}/{id}", value, unit, source, None)
                self._entries.setdefault(f"{name}/{id}", replace(entry, made_of=told))
        self._added += [partial(_below, name, added) for added in other._added]

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
        design = np.array([entry.normal for entry in causes.values()])[:, 1:]
        design -= design.mean(axis=1, keepdims=True)
        correlation = (design @ spread) / (np.sqrt(np.einsum("cd,cd->c", design, design)) * size)
        shares, entries = correlation * correlation, list(causes.values())
        ranked = np.argsort(-shares, kind="stable").tolist()
        return [(entries[at].assumption, float(shares[at])) for at in ranked]


def _below(name: str, added: Callable[[], Iterable[Assumption]]) -> Iterator[Assumption]:
    """The same figures, named below `name`."""
    return (each._replace(id=f"{name}/{each.id}", step=None) for each in added())
