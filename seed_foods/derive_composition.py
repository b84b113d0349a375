"""Derives how far one batch of a food lies from the dataset's figure, the same bytes every time.

    python -m saltledger.seed_foods.derive_composition            write composition_spread.csv
    python -m saltledger.seed_foods.derive_composition --check    only compare with what is here

SR28's raw and cooked rows of one food are two batches. What they differ by, beyond what the cooking of their
kind does to a nutrient (the median of their kind and treatment), is how batches differ: 5th and 95th
percentile of the ratios, over the raw foods of the half of the codes that is for fitting.
"""

from __future__ import annotations

import argparse
import sys
import zlib
from collections import defaultdict
from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

# mypy sees this folder apart from the package that it is installed in.
from ..foods.dataset import bundled  # type: ignore[import-not-found]
from ..foods.nutrients import NUTRIENTS  # type: ignore[import-not-found]
from .build import csv_text, settle
from .derive_factors import LEAST_PAIRS, Pair, pairs

ANIMAL = {"meat", "poultry", "fish", "shellfish", "sausage", "egg"}
NOT_DERIVED = {"WATER", "ENERC", "PROCNT", "ASH", "ALC", "NITRI", "NITRA"}
"""Water and protein are what yields are derived by; energy and ash follow from the rest."""

FEWEST = 20
WIDEST = 3.0
"""No batch is taken to hold more than so many times what the row says, or less than the same part of it."""

MACROS = {
    "animal": (
        ("WATER", 0.95, 1.03),
        ("PROCNT", 0.89, 1.1),
        ("ENERC", 0.9, 1.2),
        ("CHOCDF", 0.33, 2.0),
        ("ASH", 0.85, 1.2),
    ),
    "plant": (
        ("WATER", 0.97, 1.05),
        ("PROCNT", 0.72, 1.15),
        ("ENERC", 0.75, 1.15),
        ("CHOCDF", 0.75, 1.2),
        ("FIBTG", 0.65, 1.6),
        ("ASH", 0.75, 1.2),
    ),
}
"""Of those, and where the yield hides it, what batches differ by: our own judgement after SR28's scatter."""

SALTED = (
    "salted",
    "NA",
    "0.8",
    "1.2",
    "",
    "memory",
    "21 CFR 101.9(g)(5): at most 120 % of what a label says",
)
Ratios = NDArray[np.float64]


def ratios(found: Sequence[Pair], place: int, *, animal: bool) -> Ratios:
    """Logarithms of true retention over the median of its kind and treatment, of the pairs for fitting."""
    groups: dict[tuple[str, str], list[float]] = defaultdict(list)
    for pair in found:
        kept = float(pair.total[place])
        if (pair.kind in ANIMAL) == animal and kept > 0 and zlib.crc32(pair.raw.code.encode()) % 2:
            groups[pair.kind, pair.treatment].append(float(np.log(kept)))
    enough = [np.array(group) for group in groups.values() if len(group) >= LEAST_PAIRS]
    return np.concatenate([group - np.median(group) for group in enough] or [np.array([])])


def spread_rows(found: Sequence[Pair]) -> Iterator[tuple[str, ...]]:
    for kind in ("animal", "plant"):
        for tag, low, high in MACROS[kind]:
            yield (
                kind,
                tag,
                f"{low:g}",
                f"{high:g}",
                "",
                "memory",
                "our own judgement, after SR28's scatter",
            )
        for place, nutrient in enumerate(NUTRIENTS):
            found_ratios = ratios(found, place, animal=kind == "animal")
            judged = NOT_DERIVED | {tag for tag, *_ in MACROS[kind]}
            if nutrient.tag not in judged and len(found_ratios) >= FEWEST:
                low, high = np.exp(np.quantile(found_ratios, (0.05, 0.95)))
                ends = (f"{max(low, 1 / WIDEST):.2f}", f"{min(high, WIDEST):.2f}")
                yield (
                    kind,
                    nutrient.tag,
                    *ends,
                    str(len(found_ratios)),
                    "derived",
                    "SR28, raw and cooked rows",
                )
    yield SALTED


_HEAD = """\
# How far one batch of a food lies from the dataset's figure, derived by derive_composition.py; do not edit.
# kind: animal, plant, or salted (its sodium comes of salt that the maker weighs); see food_kinds.csv, purpose
# composition. low, high: a batch's amount over the row's, nine times in ten. pairs: rows it is derived of.
"""
_COLUMNS = ("kind", "tag", "low", "high", "pairs", "mark", "source")


def main(arguments: list[str] | None = None) -> int:
    """Write or check the table; 0 where all is as it should be."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--check", action="store_true", help="compare only")
    check = parser.parse_args(arguments).check
    text = _HEAD + csv_text(_COLUMNS, spread_rows(pairs(bundled())))
    return settle(Path(__file__).parent, {"composition_spread.csv": text}, write=not check)


if __name__ == "__main__":
    sys.exit(main())
