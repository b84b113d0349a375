"""How many small faults the tests notice, room by room or in the tables.

    python -m tests.mutation code --room diffusion --sample 40 --seed 2
    python -m tests.mutation tables --sample 100
    python -m tests.mutation tables --table reference_values
    python -m tests.mutation law

code: mutants of a room's files, a random sample of them, each against those of the room's own tests that
reach it (`forked.py`). tables: slips in the tables (each number by a tenth, each flag, each row) against the
checks of law and safety and the hundred recipes, without the lock of the figures, which names every one of
them. law: all slips in the tables of law and safety against their statements alone, in one process.
Survivors are printed; those of `equal.csv` change nothing, and are not put in. Exits 1 under --least.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections import Counter
from collections.abc import Sequence

from saltledger.evidence.figure_lock import names

from .equal import equal
from .mutants import mutants_of
from .overlay import TOP, Overlay, overlay
from .rooms import ROOMS
from .slips import slips_of

TABLE_TESTS = ("tests/published/law", "tests/golden")


def main(arguments: Sequence[str] | None = None) -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("what", choices=("code", "tables", "law"))
    parser.add_argument("--room", choices=ROOMS, action="append", help="this room alone; may be given again")
    parser.add_argument("--table", action="append", help="this table alone; may be given again")
    parser.add_argument("--sample", type=int, default=0, help="so many at random, the same each time; 0: all")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=60, help="CPU time of the tests of one mutant")
    parser.add_argument("--least", type=float, default=0.0, help="the share that has to be noticed, 0 to 1")
    asked = parser.parse_args(arguments)
    if asked.what == "law":
        return int(_share("law", *_law_noticed()) < asked.least)
    with overlay() as copy:
        if asked.what == "tables":
            shares = [_share("tables", *_slips_noticed(copy, asked))]
        else:
            rooms = asked.room or list(ROOMS)
            shares = [_share(name, *_mutants_noticed(name, copy, asked)) for name in rooms]
    return int(min(shares) < asked.least)


Fault = tuple[str, str, str]
"""File from the top, what is changed in words, and its text with the fault."""


def _mutants(room: str, asked: argparse.Namespace) -> list[Fault]:
    files = sorted({file for pattern in ROOMS[room].files for file in TOP.glob(pattern)})
    found = [
        (str(file.relative_to(TOP)), str(mutant), mutant.applied(source))
        for file in files
        for source in [file.read_text(encoding="utf-8")]
        for mutant in mutants_of(source)
        if (str(file.relative_to(TOP)), mutant.within, mutant.told) not in equal()
    ]
    return _sampled(found, asked)


def _mutants_noticed(room: str, copy: Overlay, asked: argparse.Namespace) -> tuple[int, int]:
    """How many of how many mutants a test of the room notices: in a fork, or else in a run of its own."""
    faults = _mutants(room, asked)
    tried = copy.tried([(file, text) for file, _, text in faults], ROOMS[room].tests, asked.seconds)
    noticed = 0
    for (file, told, text), fared in zip(faults, tried, strict=True):
        seen = fared["noticed"] or _seen(copy, file, text, fared["tests"])
        noticed += seen
        if not seen:
            print(f"  {room} survives: {file} {told}", flush=True)
    return noticed, len(faults)


def _slips_noticed(copy: Overlay, asked: argparse.Namespace) -> tuple[int, int]:
    if copy.notices(TABLE_TESTS):
        raise SystemExit(f"the tests fail without any fault: {' '.join(TABLE_TESTS)}")
    faults = _slips(copy, asked)
    noticed = 0
    for file, told, text in faults:
        seen = _seen(copy, file, text, TABLE_TESTS)
        noticed += seen
        if not seen:
            print(f"  tables survives: {file} {told}", flush=True)
    return noticed, len(faults)


def _law_noticed() -> tuple[int, int]:
    from .law import slips  # noqa: PLC0415 - all of the tables, for who asks

    tried = Counter[str]()
    noticed = 0
    for table, told, is_noticed in slips():
        tried[table] += 1
        noticed += is_noticed
        if not is_noticed:
            print(f"  law survives: {table} {told}", flush=True)
    print(", ".join(f"{table} {count}" for table, count in tried.items()))
    return noticed, tried.total()


def _seen(copy: Overlay, file: str, text: str, tests: Sequence[str]) -> bool:
    if not tests:
        return False
    with copy.changed(file, text):
        return copy.notices(tests)


def _share(name: str, noticed: int, of: int) -> float:
    print(f"{name}: {noticed} of {of} noticed, {noticed / max(of, 1):.0%}", flush=True)
    return noticed / max(of, 1)


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


if __name__ == "__main__":
    sys.exit(main())
