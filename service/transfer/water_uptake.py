"""What a food weighs after a cold bath: weak brines swell it, strong ones and dry salt draw its water."""

from __future__ import annotations

from bisect import bisect_right
from functools import cache, lru_cache
from itertools import groupby

from ..core.errors import NotFound
from ..core.sourced import SourcedFigure, figure_of
from ..core.sources import with_words
from ..core.tables import Row, load

ANY = "any"

_Node = tuple[float, SourcedFigure, float]
_Nodes = tuple[_Node, ...]

_STANDS_FOR = {"fish_lean": "fish", "fish_fatty": "fish", "fish_dried": "fish"}
_READ_AS = {"pickle": "brine"}


@lru_cache(maxsize=1024)
def pick_up(food_class: str, brine_percent: float, bath: str = "brine") -> SourcedFigure:
    """Weight gained, percent of raw (green) weight, salt included; negative for a loss.

    brine_percent: salt in salt and water; it counts for brine and pickle alone. bath: brine, pickle,
    marinate, soak or dry_cure. A class without rows of its own has those of any food. Raises NotFound for
    an unknown bath.
    """
    nodes = _found(food_class, bath)
    after = bisect_right([percent for percent, *_ in nodes], brine_percent)
    if after in {0, len(nodes)}:
        return nodes[min(after, len(nodes) - 1)][1]
    return _between(nodes[after - 1], nodes[after], brine_percent)


@lru_cache(maxsize=256)
def swelling_half_h(food_class: str, bath: str) -> float:
    """Hours in which a piece of usual size takes up (or gives off) half of it; baths as for `pick_up`."""
    return _found(food_class, bath)[0][2]


def _found(food_class: str, bath: str) -> _Nodes:
    table, bath = _table(), _READ_AS.get(bath, bath)
    classes = (food_class, _STANDS_FOR.get(food_class, ANY), ANY)
    nodes = next((table[name, bath] for name in classes if (name, bath) in table), None)
    if nodes is None:
        raise NotFound("kind of bath", bath)
    return nodes


def _between(lower: _Node, upper: _Node, percent: float) -> SourcedFigure:
    (start, first, _), (end, second, _) = lower, upper
    part = (percent - start) / (end - start)
    spread = first.spread.towards(second.spread, part)
    nearer = first if part < 0.5 else second
    sources = dict.fromkeys((first.source, second.source))
    return SourcedFigure(spread, with_words(nearer.source, "; ".join(sources)))


@cache
def _table() -> dict[tuple[str, str], _Nodes]:
    rows = load("water_uptake", _row_of)
    return {key: tuple(node for _, node in group) for key, group in groupby(rows, key=lambda row: row[0])}


def _row_of(row: Row) -> tuple[tuple[str, str], _Node]:
    node = (float(row["brine_percent"] or 0.0), figure_of(row), float(row["half_h"]))
    return (row["food_class"], row["bath"]), node
