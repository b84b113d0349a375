"""How many small faults the tests notice, room by room or in the tables.

    python -m tests.mutation code --room diffusion --sample 40
    python -m tests.mutation tables --sample 100
    python -m tests.mutation tables --table reference_values

code: mutants of a room's files, a fixed random sample of them, against the room's own tests. tables:
slips in the tables
(each number by a tenth, each flag, each row) against the checks of law and safety and the hundred
recipes, without the
lock of the figures, which names every one of them. Survivors are printed. Exits 1 under --least.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections.abc import Iterator, Sequence

from saltledger.evidence.figure_lock import names

from .mutants import mutants_of
from .overlay import TOP, Overlay, overlay
from .rooms import ROOMS
from .slips import slips_of

TABLE_TESTS = ("tests/published/law", "tests/golden")


def main(arguments: Sequence[str] | None = None) -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("what", choices=("code", "tables"))
    parser.add_argument("--room", choices=ROOMS, action="append", help="this room alone; may be given again")
    parser.add_argument("--table", action="append", help="this table alone; may be given again")
    parser.add_argument("--sample", type=int, default=0, help="so many at random, the same each time; 0: all")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--least", type=float, default=0.0, help="the share that has to be noticed, 0 to 1")
    asked = parser.parse_args(arguments)
    with overlay() as copy:
        if asked.what == "tables":
            shares = [_score("tables", _slips(copy, asked), copy, TABLE_TESTS)]
        else:
            rooms = asked.room or list(ROOMS)
            shares = [_score(name, _mutants(name, asked), copy, ROOMS[name].tests) for name in rooms]
    return int(min(shares) < asked.least)


Fault = tuple[str, str, str]
"""File from the top, what is changed in words, and its text with the fault."""


def _mutants(room: str, asked: argparse.Namespace) -> list[Fault]:
    files = sorted(file for pattern in ROOMS[room].files for file in TOP.glob(pattern))
    found = [
        (str(file.relative_to(TOP)), str(mutant), mutant.applied(source))
        for file in files
        for source in [file.read_text(encoding="utf-8")]
        for mutant in mutants_of(source)
    ]
    return _sampled(found, asked)


def _slips(copy: Overlay, asked: argparse.Namespace) -> list[Fault]:
    tables = [name for name in names() if name.endswith(".csv") and not name.startswith("data/")]
    wanted = [name for name in tables if not asked.table or name.removesuffix(".csv") in asked.table]
    found = [
        (f"seed_foods/{name}", slip.where, slip.text)
        for name in wanted
        for slip in slips_of(copy.path(f"seed_foods/{name}").read_text(encoding="utf-8"))
    ]
    return _sampled(found, asked)


def _sampled(found: list[Fault], asked: argparse.Namespace) -> list[Fault]:
    if not asked.sample or asked.sample >= len(found):
        return found
    return sorted(random.Random(asked.seed).sample(found, asked.sample))


def _score(name: str, faults: list[Fault], copy: Overlay, tests: Sequence[str]) -> float:
    if copy.notices(tests):
        raise SystemExit(f"{name}: the tests fail without any fault: {' '.join(tests)}")
    noticed = 0
    for told in _survivors(faults, copy, tests):
        if told is None:
            noticed += 1
        else:
            print(f"  {name} survives: {told}", flush=True)
    print(f"{name}: {noticed} of {len(faults)} noticed, {noticed / max(len(faults), 1):.0%}", flush=True)
    return noticed / max(len(faults), 1)


def _survivors(faults: list[Fault], copy: Overlay, tests: Sequence[str]) -> Iterator[str | None]:
    """For each fault None where a test noticed it, else what it is."""
    for file, told, text in faults:
        with copy.changed(file, text):
            yield None if copy.notices(tests) else f"{file} {told}"


if __name__ == "__main__":
    sys.exit(main())
