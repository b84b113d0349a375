"""Texts of the families that come to other steps, and what they share."""

from __future__ import annotations

import argparse
import sys
from collections import Counter

from . import __doc__ as told
from .crossing import crossed, families

SHOWN = 5


def main() -> int:
    parser = argparse.ArgumentParser(description=told, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("family", nargs="*", help="only these")
    parser.add_argument("--each", type=int, default=300, help="texts of a family")
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    failed = of = 0
    for name in asked.family or families():
        drawn = [(each, each.faults()) for each in crossed(name, asked.each, asked.seed)]
        wrong = [(each, found) for each, found in drawn if found]
        failed, of = failed + len(wrong), of + len(drawn)
        print(f"{name}: {len(wrong)} of {len(drawn)}")
        counts = Counter(part for each, _ in drawn for part in each.parts)
        shares = Counter({p: n / counts[p] for p, n in Counter(p for e, _ in wrong for p in e.parts).items()})
        for part, share in shares.most_common(SHOWN):
            print(f"   {share:4.0%}  {part.strip()}")
        for each, found in wrong[:SHOWN]:
            print(f"   {each.cell.text}\n      {'; '.join(found)}")
    print(f"wrong: {failed} of {of} ({failed / max(of, 1):.1%})")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
