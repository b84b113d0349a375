"""Works out with pint what each unit of kitchen_units.txt holds, so that no service has to load pint to know.

python -m saltledger.seed_foods.derive_units            write unit_factors.csv
python -m saltledger.seed_foods.derive_units --check    only compare with what is here
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import pint

# mypy sees this folder apart from the package that it is installed in.
from ..core.tables import seed_foods  # type: ignore[import-not-found]
from .build import csv_text, settle

TABLE = "unit_factors.csv"
HEAD = """\
# What one unit holds, worked out from kitchen_units.txt by derive_units.py; do not edit by hand.
#   unit   as unit_names.csv names it
#   size   how many of `in` it holds, to 12 digits
#   in     gram, millilitre or millimetre
"""


def sizes() -> Iterator[tuple[str, str, str]]:
    """Each defined unit, its size, and the unit that the size is told in; in the order of the definitions."""
    text = seed_foods().joinpath("kitchen_units.txt").read_text(encoding="utf-8")
    registry: pint.UnitRegistry[float] = pint.UnitRegistry(None)
    registry.load_definitions(text.splitlines())
    for line in text.splitlines():
        if line[:1].isalpha():
            name = line.partition("=")[0].strip()
            held = registry.Quantity(1, name).to_base_units()
            yield name.replace("_", " "), f"{held.magnitude:.12g}", str(held.units)


def main(arguments: Sequence[str] | None = None) -> int:
    """Write or check the table; 0 where all is as it should be."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--check", action="store_true", help="compare only")
    check = parser.parse_args(arguments).check
    table = HEAD + csv_text(("unit", "size", "in"), sizes())
    return settle(Path(__file__).parent, {TABLE: table}, write=not check)


if __name__ == "__main__":
    sys.exit(main())
