"""Many hostile requests, for longer runs than CI has time for.

    python -m tests.adversary [--cases 20000] [--seed 1]

The whole corpus first, then made-up ones until there are so many. Prints every fault, and exits with 1 where
there is one.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from itertools import chain, islice

from saltledger.app import create_app
from saltledger.config import Settings

from .attack import fault_of
from .hostile import corpus, made_up

SLOW_SECONDS = 2.0


def main() -> None:
    parser = argparse.ArgumentParser(description="Hostile requests, each answered without a failure.")
    parser.add_argument("--cases", type=int, default=20_000)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    faults = sent = 0
    slowest = 0.0
    with tempfile.TemporaryDirectory() as folder:
        client = create_app(Settings(database_url=f"sqlite:///{folder}/s.db")).test_client()
        for asked in islice(chain(corpus(), made_up(arguments.seed)), arguments.cases):
            began = time.process_time()
            fault = fault_of(client, asked)
            spent = time.process_time() - began
            slowest, sent = max(slowest, spent), sent + 1
            if spent > SLOW_SECONDS:
                fault = fault or f"{spent:.1f} s for {asked.path} {asked.data[:300]!r}"
            if fault:
                faults += 1
                print(fault)
    print(f"{sent} hostile requests, {faults} faults; the slowest took {slowest:.2f} s of CPU time.")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
