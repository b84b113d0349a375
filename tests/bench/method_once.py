"""One first reading of the recipe of method_speed.yaml, for callgrind: python -m tests.bench.method_once.

--count prints its instructions; --anew: of a reading of which nothing is kept.
"""

from __future__ import annotations

import sys

from saltledger.method.method_reading import read

from .instructions import begin, counted, counts_of
from .method_speed import forget, recipe


def main() -> None:
    written = recipe()
    read(written)
    begin()
    for _ in range(2):
        forget(anew="--anew" in sys.argv)
        counted(lambda: read(written))


def instructions(*arguments: str) -> int:
    """Instructions of a first reading, with all tables loaded."""
    return min(counts_of("tests.bench.method_once", *arguments))


if __name__ == "__main__":
    asked = [each for each in sys.argv[1:] if each != "--count"]
    print(instructions(*asked)) if "--count" in sys.argv else main()
