"""Reads measurements out of SR28's own rows, the same bytes every time: cooking yields, raw and cooked pairs.

    python -m saltledger.seed_foods.derive_evidence            write evidence_yields.csv, evidence_pairs.csv
    python -m saltledger.seed_foods.derive_evidence --check    only compare with what is here

SR28 weighs many cooked foods as "yield from 1 lb raw meat": grams cooked from grams raw, measured. Raw and
cooked row have one name but for words of cooking. Where the pound was weighed with its refuse, the raw row's
refuse is taken off. A yield of meat that is more than a fifth off that of the protein of the two rows weighs
something else (bones taken out, skin put back) and is left out.
"""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

# mypy sees this folder apart from the package that it is installed in.
from ..foods.dataset import Food, FoodTable, bundled  # type: ignore[import-not-found]
from .build import csv_text, settle
from .derive_factors import Pair, pairs

STEPS = {
    "simmer": ("braised", "stewed", "simmered", "moist heat"),
    "roast": ("roasted", "fast roasted", "slow roasted", "broiled", "grilled", "baked", "dry heat"),
    "fry": ("fried", "fast fried", "pan-fried", "pan-broiled"),
    "boil": ("boiled", "boiled without salt"),
}
"""Step of a recipe by the words that SR28 has for it."""

_STEP = {word: step for step, words in STEPS.items() for word in words}
_PLAIN = {"raw", "cooked", "drained", "without salt", "unprepared", "mature seeds"}
_COATED = {"batter", "flour", "breaded"}
_IN_G = {"lb": 453.592, "oz": 28.3495, "g": 1.0}
_FROM = re.compile(r"yield from ([\d.]+) ?(lb|oz|g) ?(.*)", re.IGNORECASE)
_PIECE = re.compile(r"yield from 1 (?:raw|lb ready)", re.IGNORECASE)
_PACK = re.compile(
    r"(?P<share>[\d.]+) package, \((?P<pack>[\d.]+) oz\),? yields|^(?P<dry>1) oz, dry, yield after cooking"
)
FURTHEST = 0.2
"""How far a yield of meat by weight may be off that by protein."""

_GAINING = ("11", "16")
"""Vegetables and pulses: their protein goes into the pot in part, so that it tells no yield."""


@dataclass(frozen=True, slots=True)
class Yield:
    """g of cooked food from g of raw food, as weighed. basis: the words of the household weight."""

    raw: Food
    cooked: Food
    step: str
    raw_g: float
    cooked_g: float
    basis: str

    @property
    def is_plausible(self) -> bool:
        if self.raw.group_code[:2] in _GAINING:
            return True
        by_protein = (self.raw.per_100g("PROCNT") or 0.0) / (self.cooked.per_100g("PROCNT") or 1.0)
        return abs(self.cooked_g / self.raw_g / by_protein - 1) <= FURTHEST if by_protein else False


def _parts(name: str) -> list[str]:
    """The parts of a name, words of heat that SR28 runs together with others set apart."""
    apart = re.sub(r"\b(cooked|raw|roasted|grilled|broiled|braised|stewed|simmered)\b", r",\1,", name)
    for whole in ("fast roasted", "slow roasted"):
        apart = apart.replace(whole.replace(" roasted", " ,roasted,"), whole)
    apart = re.sub(r" \((?:chops|roasts|chops or roasts|steaks)\)", "", apart)
    return [part.strip() for part in apart.split(",") if part.strip()]


def _identity(name: str) -> tuple[str, ...]:
    return tuple(sorted(p for p in _parts(name) if p not in _STEP and p not in _PLAIN))


def yields(foods: FoodTable) -> Iterator[Yield]:
    """Every yield that the table's household weights tell, in the order of the cooked foods' codes."""
    raw: dict[tuple[str, ...], str] = {}
    for code in sorted(foods.names):
        if {"raw", "unprepared"} & set(_parts(foods.names[code])):
            raw.setdefault(_identity(foods.names[code]), code)
    for code in sorted(foods.names):
        parts = _parts(foods.names[code])
        steps = [_STEP[part] for part in parts if part in _STEP]
        source = raw.get(_identity(foods.names[code]))
        if source and steps and not {"raw", "unprepared", *_COATED} & set(parts):
            found = _weighed(foods.get(source), foods.get(code), steps[-1])
            if found and found.is_plausible:
                yield found


def _weighed(raw: Food, cooked: Food, step: str) -> Yield | None:
    for measure in cooked.household:
        raw_g = _raw_g(measure.label, raw)
        if raw_g is not None:
            return Yield(raw, cooked, step, raw_g, measure.grams, measure.label)
    return None


def _raw_g(words: str, raw: Food) -> float | None:
    """g of raw food that a household weight of the cooked food says it is of."""
    if _PIECE.search(words):
        same = [each.grams for each in raw.household if each.label == words]
        return same[0] if same else None
    if pack := _PACK.search(words):
        return float(pack["pack"] or pack["dry"]) * float(pack["share"] or 1) * _IN_G["oz"]
    if found := _FROM.search(words):
        edible = 1 - raw.refuse_percent / 100 if "with refuse" in found[3] else 1.0
        return float(found[1]) * _IN_G[found[2].lower()] * edible if "raw" in found[3] else None
    return None


_HEAD = """\
# Cooking yields that SR28's household weights tell, read out by derive_evidence.py; do not edit by hand.
# raw, cooked: codes of one food before and after. step: kind of step of a recipe. raw_g, cooked_g: as
# weighed, raw_g without refuse. basis: the household weight's own words. Mark of every row: verified.
"""
_COLUMNS = ("raw", "cooked", "step", "raw_g", "cooked_g", "basis")


def text(found: Iterable[Yield]) -> str:
    body = (
        (y.raw.code, y.cooked.code, y.step, f"{y.raw_g:.5g}", f"{y.cooked_g:.5g}", y.basis) for y in found
    )
    return _HEAD + csv_text(_COLUMNS, body)


MOST_PAIRS = 12
"""Of one kind and treatment, so many pairs: SR28 has hundreds of roasts, and few boiled roots."""

_NOT_DRIED = ("vegetable", "grain", "potato")
MOST_GAINED = 2.2
"""A root that comes to more than so much of itself was dried, and its pair of names is none."""

_STEP_OF = {"boil_drained": "boil", "braise": "simmer", "simmer": "simmer", "roast": "roast", "bake": "roast"}
_STEP_OF |= {"broil": "roast", "grill": "roast", "fry": "fry", "steam": "steam"}


def chosen(found: Iterable[Pair]) -> Iterator[Pair]:
    """Pairs that a step can make, evenly taken from each kind and treatment."""
    groups: dict[tuple[str, str], list[Pair]] = {}
    for pair in found:
        if pair.treatment in _STEP_OF and not (pair.kind in _NOT_DRIED and pair.gained > MOST_GAINED):
            groups.setdefault((pair.kind, pair.treatment), []).append(pair)
    for group in groups.values():
        yield from group[:: max(1, -(-len(group) // MOST_PAIRS))]


_PAIRS_HEAD = """\
# Rows of SR28 that are one food raw and cooked, chosen by derive_evidence.py; do not edit by hand. step: what
# makes the one of the other. The cooked row's amounts are the measurement.
"""


def pairs_text(found: Iterable[Pair]) -> str:
    body = ((p.raw.code, p.cooked.code, _STEP_OF[p.treatment]) for p in found)
    return _PAIRS_HEAD + csv_text(("raw", "cooked", "step"), sorted(set(body)))


def main(arguments: list[str] | None = None) -> int:
    """Write or check the table; 0 where all is as it should be."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--check", action="store_true", help="compare only")
    check = parser.parse_args(arguments).check
    files = {
        "evidence_yields.csv": text(yields(bundled())),
        "evidence_pairs.csv": pairs_text(chosen(pairs(bundled()))),
    }
    return settle(Path(__file__).parent, files, write=not check)


if __name__ == "__main__":
    sys.exit(main())
