"""Cells of the grid that come to other steps, by saying."""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Mapping
from pathlib import Path

from . import __doc__ as told
from .grid import Act, Cell, acts, faults, files, out_of_line

SHOWN = 3
"""Faults, and choices that share them, shown of one saying."""


def main() -> int:
    parser = argparse.ArgumentParser(description=told, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("file", nargs="*", type=Path)
    parser.add_argument("--act", default="", help="only acts whose name holds these words")
    parser.add_argument("--each", type=int, default=60, help="cells of a saying at the most")
    asked = parser.parse_args()
    failed = of = 0
    for act in (act for path in asked.file or files() for act in acts(path) if asked.act in act.name):
        grids = act.cells(asked.each)
        apart = out_of_line(act, [cell for grid in grids for cell in grid])
        tried = [_tried(act, *each, apart) for each in zip(act.said, grids, strict=True)]
        failed, of = failed + sum(each[0] for each in tried), of + sum(each[1] for each in tried)
        print(f"{act.name}: {sum(each[0] for each in tried)} of {sum(each[1] for each in tried)}")
    print(f"wrong: {failed} of {of} ({failed / max(of, 1):.1%})")
    return 1 if failed else 0


def _tried(act: Act, saying: str, grid: list[Cell], apart: Mapping[Cell, str]) -> tuple[int, int]:
    """How many cells of a saying are wrong, of how many; tells them."""
    found = ((cell, [*faults(act, cell), *filter(None, [apart.get(cell)])]) for cell in grid)
    wrong = [(cell, faulty) for cell, faulty in found if faulty]
    if wrong:
        print(f"  {len(wrong)}/{len(grid)}  {saying}")
        told: dict[str, Cell] = {}
        for cell, found in wrong:
            for fault in found:
                told.setdefault(fault, cell)
        counts = Counter(fault for _, found in wrong for fault in found)
        for fault, count in counts.most_common(SHOWN):
            cell = told[fault]
            print(f"      {count}x {fault}\n         {cell.text}")
            if act.others:
                print(f"         {'; '.join(act.lists[cell.listed])}")
        print(f"      {_shared([cell for cell, _ in wrong], grid)}")
    return len(wrong), len(grid)


def _shared(wrong: list[Cell], grid: list[Cell]) -> str:
    """The choices whose cells fail most often."""
    of = Counter(at for cell in grid for at in enumerate(cell.choices))
    failed = Counter(at for cell in wrong for at in enumerate(cell.choices))
    shares = sorted(((count / of[at], at[1]) for at, count in failed.items()), reverse=True)
    return ", ".join(f"{choice!r} {share:.0%}" for share, choice in shares[: 2 * SHOWN])


if __name__ == "__main__":
    sys.exit(main())
