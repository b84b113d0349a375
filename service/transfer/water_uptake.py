"""What a food weighs after a cold bath: weak brines swell it, strong ones and dry salt draw its water."""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from functools import cache, lru_cache
from itertools import groupby

from ..core.errors import NotFound
from ..core.sourced import SourcedFigure, figure_of
from ..core.tables import Row, load, with_words
from .usual import lookups

_Node = tuple[float, SourcedFigure, float]
_Nodes = tuple[_Node, ...]
_Words = tuple[str, ...]

_READ_AS = {"pickle": "brine"}


@lru_cache(maxsize=1024)
def pick_up(food_class: str, brine_percent: float, bath: str = "brine", name: str = "") -> SourcedFigure:
    """Weight gained, percent of raw (green) weight, salt included; negative for a loss.

    brine_percent: salt in salt and water; it counts for brine and pickle alone. bath: brine, pickle,
    marinate, soak or dry_cure. name: of the food, for rows about some foods of a class. A class without rows
    of its own has those of any food. Raises NotFound for an unknown bath.
    """
    nodes = _found(food_class, bath, name)
    after = bisect_right([percent for percent, *_ in nodes], brine_percent)
    if after in {0, len(nodes)}:
        return nodes[min(after, len(nodes) - 1)][1]
    return _between(nodes[after - 1], nodes[after], brine_percent)


@lru_cache(maxsize=256)
def swelling_half_h(food_class: str, bath: str) -> float:
    """Hours in which a piece of usual size takes up (or gives off) half of it; baths as for `pick_up`."""
    return _found(food_class, bath)[0][2]


def _found(food_class: str, bath: str, name: str = "") -> _Nodes:
    table, bath, words = _table(), _READ_AS.get(bath, bath), name.lower()
    for kind in lookups(food_class):
        for any_of, nodes in table.get((kind, bath), ()):
            if not any_of or any(word in words for word in any_of):
                return nodes
    raise NotFound("kind of bath", bath)


def _between(lower: _Node, upper: _Node, percent: float) -> SourcedFigure:
    (start, first, _), (end, second, _) = lower, upper
    part = (percent - start) / (end - start)
    spread = first.spread.towards(second.spread, part)
    nearer = first if part < 0.5 else second
    sources = dict.fromkeys((first.source, second.source))
    return SourcedFigure(spread, with_words(nearer.source, "; ".join(sources)))


@cache
def _table() -> dict[tuple[str, str], list[tuple[_Words, _Nodes]]]:
    """By class and bath: rows about some foods of the class, by words of their names, then those of all."""
    table: dict[tuple[str, str], list[tuple[_Words, _Nodes]]] = defaultdict(list)
    for key, group in groupby(load("water_uptake", _row_of), key=lambda row: row[0]):
        kind, words, bath = key
        table[kind, bath].append((words, tuple(node for _, node in group)))
    return table


def _row_of(row: Row) -> tuple[tuple[str, _Words, str], _Node]:
    node = (float(row["brine_percent"] or 0.0), figure_of(row), float(row["half_h"]))
    words = tuple(filter(None, row["words"].split("|")))
    return (row["of_class"] or row["food_class"], words, row["bath"]), node
