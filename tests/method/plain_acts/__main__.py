"""Cells of the grid that come to other steps, by saying."""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from pathlib import Path

from . import __doc__ as told
from .grid import Act, Cell, acts, cells, faults, files

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
        tried = [_tried(act, saying, asked.each) for saying in act.said]
        failed, of = failed + sum(each[0] for each in tried), of + sum(each[1] for each in tried)
        print(f"{act.name}: {sum(each[0] for each in tried)} of {sum(each[1] for each in tried)}")
    print(f"wrong: {failed} of {of} ({failed / max(of, 1):.1%})")
    return 1 if failed else 0


def _tried(act: Act, saying: str, most: int) -> tuple[int, int]:
    """How many cells of a saying are wrong, of how many; tells them."""
    grid = cells(saying, most)
    wrong = [(cell, found) for cell in grid if (found := faults(act, cell))]
    if wrong:
        print(f"  {len(wrong)}/{len(grid)}  {saying}")
        told: dict[str, Cell] = {}
        for cell, found in wrong:
            for fault in found:
                told.setdefault(fault, cell)
        counts = Counter(fault for _, found in wrong for fault in found)
        for fault, count in counts.most_common(SHOWN):
            print(f"      {count}x {fault}\n         {told[fault].text}")
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
