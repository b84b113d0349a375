"""Write what is stated here of each row of law and safety where the service can tell it.

python -m tests.published.law --write     # seed_foods/law_statements.csv; then accept the figures
"""

from __future__ import annotations

import csv
import io
import sys
from pathlib import Path

from . import KEYS
from .rows import STATED

FILE = Path(__file__).parents[3] / "seed_foods" / "law_statements.csv"
HEAD = """\
# Who states the rows of law and safety a second time: made by `python -m tests.published.law --write` from
# tests/published/law, whose tests hold each row to its statement; do not edit by hand.
# row: its table, then the cells that tell it, parted by "/"; by: the columns of those cells. seen: read (the
# source's own text), quoted (where it is quoted) or memory (from memory of the source). again: the source.
"""


def text() -> str:
    """The table, by row."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(("row", "by", "seen", "again"))
    writer.writerows(
        sorted((said.name, " ".join(KEYS[said.table]), said.seen, said.source) for said in STATED)
    )
    return HEAD + out.getvalue()


if __name__ == "__main__":
    if sys.argv[1:] != ["--write"]:
        sys.exit(__doc__)
    FILE.write_text(text(), encoding="utf-8")
