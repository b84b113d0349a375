"""Derives what heat leaves of nutrients from SR28's own raw and cooked rows, the same bytes every time.

    python -m saltledger.seed_foods.derive_factors            write the table
    python -m saltledger.seed_foods.derive_factors --check    only compare with what is here

Two rows are a pair where their names differ by words of cooking alone ("Carrots, raw"; "Carrots, cooked,
boiled, drained, without salt"), or where cooking_pairs.csv says so. The weight that 1 g of raw food comes to
is the ratio of a marker that stays in the food (retention_kinds.csv): yield = marker raw / marker cooked.
True retention of a nutrient = cooked / raw x yield (Murphy, Criner & Gray, 1975). Of many pairs: median, 5th
and 95th percentile. Many of SR28's cooked vegetables are themselves worked out from raw ones, so that their
pairs agree too well.
"""

from __future__ import annotations

import argparse
import sys
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from ..core.step_kinds import step_kinds  # type: ignore[import-not-found]
from ..core.tables import rows  # type: ignore[import-not-found]

# mypy sees this folder apart from the package that it is installed in.
from ..foods.dataset import Food, FoodTable, bundled  # type: ignore[import-not-found]
from ..foods.nutrients import INDEX, NUTRIENTS  # type: ignore[import-not-found]
from ..nutrition.retention import (  # type: ignore[import-not-found]
    heat_labile,
    kinds,
    places_to_look,
)
from ..transfer.food_kinds import kind_of  # type: ignore[import-not-found]
from .build import csv_text, settle

LEAST_PAIRS = 3
RESOLVED = 10
"""A raw amount counts from this many units of its last printed decimal on: below, rounding is most of it."""

ANY = "any"
_RAW = {"raw", "uncooked", "dry"}
_COOKED = {"cooked", "boiled", "roasted", "baked", "steamed", "fried"}
_PLAIN = {"drained", "without salt", "without added salt", "cooked without salt", "mature seeds", "fresh"}
_NOT_DERIVED = {"WATER", "ENERC", "ALC", "NITRI", "NITRA"}
_UNNAMED = {
    "pasta": "boil_drained",
    "noodles": "boil_drained",
    "dried_beans": "boil_drained",
    "rice": "boil_with_liquid",
    "grain": "boil_with_liquid",
}
"""What "cooked" means where a name says no more: pasta and pulses are drained, grain takes up its water."""

Values = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Pair:
    """One food raw and cooked. gained: g of cooked food that 1 g of raw food comes to."""

    kind: str
    treatment: str
    raw: Food
    cooked: Food
    gained: float

    @property
    def total(self) -> Values:
        """True retention of each nutrient; NaN where it is not known or too little to tell."""
        least = [RESOLVED * 10.0**-nutrient.decimals for nutrient in NUTRIENTS]
        raw = np.where(self.raw.values >= least, self.raw.values, np.nan)
        retained: Values = self.cooked.values / raw * self.gained
        return retained

    @property
    def heat(self) -> Values:
        """What heat alone leaves: total retention, with what went with the juice or the pot given back.

        Potassium tells how much went: nothing destroys it. leaching.csv says how free each nutrient is to go.
        """
        total = self.total
        gone = 1 - np.clip(total[INDEX["K"]], 0, 1)
        left: Values = total / (1 - _free_shares() * gone)
        return left


def _free_shares() -> Values:
    shares = {row["tag"]: float(row["likely"]) for row in rows("leaching")}
    return np.array([shares.get(nutrient.tag, 0.0) for nutrient in NUTRIENTS])


def _words_of_heat() -> dict[str, str]:
    """Treatment by the word that SR28's names have for it."""
    return {
        word: row["treatment"] for row in rows("heat_treatments") for word in row["words"].split("|") if word
    }


def _parts(name: str) -> list[str]:
    return [part.strip() for part in name.split(", ")]


def _identity(name: str, heat: Mapping[str, str]) -> tuple[str, ...]:
    """What is left of a name without its words of cooking."""
    return tuple(part for part in _parts(name) if part not in _RAW | _COOKED | _PLAIN | set(heat))


def pairs(foods: FoodTable) -> list[Pair]:
    """Every pair of the table, in the order of the cooked foods' codes."""
    return [*_named_pairs(foods), *_kept_pairs(foods)]


def _named_pairs(foods: FoodTable) -> Iterator[Pair]:
    heat = _words_of_heat()
    raw: dict[tuple[str, ...], str] = {}
    for code in sorted(foods.names):
        if _RAW & set(_parts(foods.names[code])):
            raw.setdefault(_identity(foods.names[code], heat), code)
    for code in sorted(foods.names):
        parts = set(_parts(foods.names[code]))
        source = raw.get(_identity(foods.names[code], heat))
        if source and not _RAW & parts and (_COOKED | set(heat)) & parts:
            said = [heat[part] for part in _parts(foods.names[code]) if part in heat]
            yield from _pair(foods.get(source), foods.get(code), said[0] if said else None)


def _kept_pairs(foods: FoodTable) -> Iterator[Pair]:
    for row in rows("cooking_pairs"):
        yield from _pair(foods.get(row["raw"]), foods.get(row["cooked"]), row["treatment"])


def _pair(raw: Food, cooked: Food, treatment: str | None) -> Iterator[Pair]:
    kind = kind_of("pot", raw) or ("egg" if raw.name.startswith("Egg, ") else None)
    treatment = treatment or _UNNAMED.get(kind or "")
    if kind is None or treatment is None:
        return
    gained = _marker(raw, kind, treatment) / _marker(cooked, kind, treatment)
    if np.isfinite(gained):
        yield Pair(kind, treatment, raw, cooked, gained)


def _marker(food: Food, kind: str, treatment: str) -> float:
    """g in 100 g of what stays in the food; frying adds fat to the dry matter, so protein stands in."""
    markers = {row["kind"]: row["marker"] for row in rows("retention_kinds")}
    if markers[kind] == "protein" or treatment == "fry":
        return float(food.values[INDEX["PROCNT"]])
    return 100.0 - float(food.values[INDEX["WATER"]])


def grouped(found: Iterable[Pair], *, with_any: bool) -> dict[tuple[str, str], list[Pair]]:
    """Pairs by kind and treatment, and if wanted under the kind "any" all of one treatment."""
    groups: dict[tuple[str, str], list[Pair]] = defaultdict(list)
    for pair in found:
        groups[pair.kind, pair.treatment].append(pair)
        if with_any:
            groups[ANY, pair.treatment].append(pair)
    return {key: group for key, group in sorted(groups.items()) if len(group) >= LEAST_PAIRS}


def spread(figures: Values) -> tuple[float, float, float]:
    """5th percentile, median and 95th percentile of figures."""
    low, likely, high = np.quantile(figures, (0.05, 0.5, 0.95))
    return float(low), float(likely), float(high)


def retention_rows(found: Iterable[Pair], counts: Literal["total", "heat"]) -> Iterator[tuple[str, ...]]:
    """Kind, treatment, tag, low, likely, high and pairs of what is left of each nutrient.

    counts: all losses, or what heat destroys of what it can. No factor is above 1: what is above it is the
    scatter of the rows.
    """
    wanted = heat_labile() if counts == "heat" else {nutrient.tag for nutrient in NUTRIENTS} - _NOT_DERIVED
    for (kind, treatment), group in grouped(found, with_any=True).items():
        table = np.array([getattr(pair, counts) for pair in group])
        for nutrient, column in zip(NUTRIENTS, table.T, strict=True):
            known = column[~np.isnan(column)]
            if nutrient.tag in wanted and len(known) >= LEAST_PAIRS:
                shares = (min(share, 1.0) for share in spread(known))
                yield (kind, treatment, nutrient.tag, *map(_figure, shares), str(len(known)))


def looked_up(derived: Iterable[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """The rows that some kind of food looks up under the heat of some step: no nearer row or trial stands
    before them."""
    trials = {(row["kind"], row["treatment"], row["tag"]) for row in rows("retention_trials")}
    table = {row[:3]: row for row in derived}
    found = {
        next((key for near in places if (key := (*near, tag)) in table or key in trials), None)
        for kind in (*kinds(), ANY)
        for treatment in {each.treatment for each in step_kinds().values()} - {""}
        for places in [list(places_to_look(kind, treatment))]
        for tag in heat_labile()
    }
    return [row for key, row in table.items() if key in found - trials]


def yield_rows(found: Iterable[Pair]) -> Iterator[tuple[str, ...]]:
    """Kind, treatment, quantity, low, likely, high and pairs of yields: weight (g cooked from 1 g raw),
    water_change and fat_change (g per g of raw food).

    A yield by a marker counts as kept what of the marker is lost (protein in juice): it is then on the high
    side. Kinds are not thrown together: pasta gains what meat loses.
    """
    for (kind, treatment), group in grouped(found, with_any=False).items():
        gained = np.array([pair.gained for pair in group])
        yield (kind, treatment, "weight", *map(_figure, spread(gained)), str(len(group)))
        for quantity, tag in (("water_change", "WATER"), ("fat_change", "FAT")):
            place = INDEX[tag]
            change = [(p.cooked.values[place] * p.gained - p.raw.values[place]) / 100 for p in group]
            yield (kind, treatment, quantity, *map(_figure, spread(np.array(change))), str(len(group)))


def _figure(value: float) -> str:
    return format(round(value, 3) + 0.0, ".10g")


_HEAD = """\
# What heat leaves of nutrients, derived from SR28's own raw and cooked rows by derive_factors.py; do not edit
# by hand. What went with juice and pot is given back. low, likely, high: 5th percentile, median and 95th
# percentile over `pairs` pairs of rows, 0 to 1. Rows that nothing looks up are left out. Mark: derived.
"""
_COLUMNS = ("kind", "treatment", "tag", "low", "likely", "high", "pairs")


def tables(found: Sequence[Pair]) -> dict[str, str]:
    """The table as text, by file name."""
    return {"retention_derived.csv": _HEAD + csv_text(_COLUMNS, looked_up(retention_rows(found, "heat")))}


def main(arguments: Sequence[str] | None = None) -> int:
    """Write or check the table; 0 where all is as it should be."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--check", action="store_true", help="compare only")
    check = parser.parse_args(arguments).check
    return settle(Path(__file__).parent, tables(pairs(bundled())), write=not check)


if __name__ == "__main__":
    sys.exit(main())
