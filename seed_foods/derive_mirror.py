"""Makes data/finished_foods.csv, foods as they are eaten and what they are made of, for the mirror of a
component.

    python -m saltledger.seed_foods.derive_mirror            write the table
    python -m saltledger.seed_foods.derive_mirror --check    only compare with what is here

Finished: neither raw where such food is cooked, nor dry, a mix or a concentrate, by their names; no spices,
fats, baby
foods. Foods with one of the figures not known are left out.
"""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Iterator
from pathlib import Path

# mypy sees this folder apart from the package that it is installed in.
from ..foods.dataset import Food, bundled  # type: ignore[import-not-found]
from ..nutrition.retention import cooking_state  # type: ignore[import-not-found]
from .build import csv_text, settle

TAGS = ("WATER", "PROCNT", "FAT", "CHOCDF", "FIBTG", "SUGAR", "NA", "K", "ENERC")
_LEFT_OUT = ("02", "03", "04")
_UNFINISHED = re.compile(
    r"\b(raw|dry|dried|dehydrated|powder|unprepared|condensed|mix|concentrate|flour|undiluted|cubes|freeze-dried)\b"
)


def finished(food: Food) -> bool:
    """Whether a food is eaten as it is."""
    group = food.group_code[:2]
    if group in _LEFT_OUT or cooking_state(food.name, food.group_code) == "raw":
        return False
    return group == "09" or not _UNFINISHED.search(food.name.lower()) or "cooked" in food.name.lower()


def rows() -> Iterator[list[str]]:
    """A row for each finished food of SR28, by code."""
    foods = bundled()
    for code in sorted(code for code in foods.codes if code.isdecimal()):
        food = foods.get(code)
        amounts = [food.per_100g(tag) for tag in TAGS]
        if finished(food) and None not in amounts:
            yield [code, food.name, food.group_code[:2], *(f"{amount:g}" for amount in amounts)]


def main(arguments: list[str] | None = None) -> int:
    """Write or check the table; 0 where all is as it should be."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--check", action="store_true", help="compare only")
    check = parser.parse_args(arguments).check
    text = csv_text(("code", "name", "group", *TAGS), rows())
    return settle(Path(__file__).parent, {"data/finished_foods.csv": text}, write=not check)


if __name__ == "__main__":
    sys.exit(main())
