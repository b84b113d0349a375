"""One first reading of the recipe of method_speed.yaml, for callgrind: python -m tests.bench.method_once."""

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
        forget()
        counted(lambda: read(written))


def instructions() -> int:
    """Instructions of a first reading, with all tables loaded."""
    return min(counts_of("tests.bench.method_once"))


if __name__ == "__main__":
    print(instructions()) if "--count" in sys.argv else main()
