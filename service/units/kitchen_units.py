"""The kitchen's units: their spellings, and how many grams or millilitres each holds.

Their definitions, in pint's syntax, stand in seed_foods/kitchen_units.txt. What is read here is the table
that pint makes of them (seed_foods/derive_units.py): pint itself takes longer to load than the whole dataset.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal, get_args

from ..core.errors import BrokenTable
from ..core.spread import Spread
from ..core.tables import Row, load

Cup = Literal["us", "metric"]
Dimension = Literal["mass", "volume", "length", "count", "container"]

LONGEST_SPELLING = 3
"""Words in the longest spelling of a unit ("imperial fl oz")."""

_METRIC = {"cup": "metric cup", "tablespoon": "metric tablespoon", "teaspoon": "metric teaspoon"}
_SIZED = frozenset({"mass", "volume", "length"})


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit. size: in g (mass), ml (volume) or mm (length); None for counts and containers.

    reach: the real amount as a share of the unit, for vague ones such as a pinch; exact otherwise.
    """

    name: str
    dimension: Dimension
    size: float | None
    reach: Spread
    spellings: tuple[str, ...]
    source: str


def to_grams(unit: str) -> float | None:
    """Grams in one `unit` of mass; None for any other unit."""
    found = units().get(unit)
    return found.size if found and found.dimension == "mass" else None


def to_millilitres(unit: str, cup: Cup = "us") -> float | None:
    """Millilitres in one `unit` of volume, cups and spoons by the setting; None for any other unit."""
    found = units().get(_METRIC.get(unit, unit) if cup == "metric" else unit)
    return found.size if found and found.dimension == "volume" else None


def to_millimetres(unit: str) -> float | None:
    """Millimetres in one `unit` of length; None for any other unit."""
    found = units().get(unit)
    return found.size if found and found.dimension == "length" else None


def dimension(unit: str | None) -> Dimension | None:
    """What `unit` measures; None where it is not a unit."""
    found = units().get(unit) if unit else None
    return found.dimension if found else None


def reach(unit: str | None) -> Spread:
    """How much the real amount of a vague unit ranges, as a share of it; exactly 1 for any other."""
    found = units().get(unit) if unit else None
    return found.reach if found else _EXACT


def find(word: str) -> str | None:
    """The unit that `word` spells (one or more words, no points), or None.

    Single letters count as written (T tablespoon, t teaspoon); the rest in any case.
    """
    table = spellings()
    return table.get(word) or (table.get(word.lower()) if len(word) > 1 else None)


@cache
def units() -> dict[str, Unit]:
    """All units by name.

    Raises BrokenTable: a mass, volume or length that has no definition.
    """
    sizes = _sizes()

    def make(row: Row) -> Unit:
        if row["dimension"] not in get_args(Dimension):
            raise ValueError(f"{row['dimension']!r} is not one of {get_args(Dimension)}")
        size = sizes[row["unit"]] if row["dimension"] in _SIZED else None
        reach = Spread(float(row["low"]), 1.0, float(row["high"])) if row["low"] else _EXACT
        spelled = tuple(row["spellings"].split("|"))
        return Unit(row["unit"], row["dimension"], size, reach, spelled, row["source"])  # type: ignore[arg-type]

    return {unit.name: unit for unit in load("unit_names", make)}


@cache
def spellings() -> dict[str, str]:
    """Spelling -> unit name; spellings of more than one letter are in lower case. Raises BrokenTable where
    one spells two units."""
    table: dict[str, str] = {}
    for number, unit in enumerate(units().values(), 1):
        for spelled in unit.spellings:
            key = spelled if len(spelled) == 1 else spelled.lower()
            if table.setdefault(key, unit.name) != unit.name:
                raise BrokenTable("unit_names.csv", number, f"{key!r} also spells {table[key]}")
    return table


def _sizes() -> dict[str, float]:
    """Grams, millilitres or millimetres of every unit defined in kitchen_units.txt, by the unit's name."""
    return dict(load("unit_factors", lambda row: (row["unit"], float(row["size"]))))


_EXACT = Spread.exact(1.0)
