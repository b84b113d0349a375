"""A line of CHANGES.md: what was accepted, why, and what it moved."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date

from .figure_lock import Difference
from .golden import EVIDENCE, Moved

CHANGES = "CHANGES.md"

HEAD = """\
# Changes of the figures

One line each time `saltledger figures --accept` took the tables as they were: the fingerprint, why, the rows
that changed, what it moved in the evidence (measurements inside their range) and in the hundred recipes of
`golden/`.

"""

MOST = 3
"""So many rows or recipes are named in a line."""


def change_line(
    day: date, fingerprint: str, reason: str, changed: Sequence[Difference], moved: Sequence[Moved]
) -> str:
    """One line of Markdown, without a line break inside.

    >>> change_line(date(2026, 3, 1), "ab" * 32, "Iron by the rule.", [], [])
    '- 2026-03-01 `abababababab` Iron by the rule. Rows: none. Evidence: none. Recipes: none.\\n'
    """
    evidence = [each for each in moved if each.recipe == EVIDENCE]
    recipes = [each for each in moved if each.recipe != EVIDENCE]
    said = (
        f"Rows: {_rows(changed)}",
        f"Evidence: {_named([f'{each.figure} {each.was} -> {each.now}' for each in evidence])}",
        f"Recipes: {_recipes(recipes)}",
    )
    stated = " ".join(reason.split()).rstrip(".")
    return f"- {day.isoformat()} `{fingerprint[:12]}` {stated}. {'. '.join(said)}.\n"


def _rows(changed: Sequence[Difference]) -> str:
    counted = Counter(each.table for each in {each.name: each for each in changed}.values())
    total = ", ".join(f"{count} in {table}" for table, count in sorted(counted.items()))
    return f"{total} ({_named(sorted({str(each) for each in changed}))})" if changed else "none"


def _recipes(moved: Sequence[Moved]) -> str:
    if not moved:
        return "none"
    most = sorted(moved, key=lambda each: -each.share)
    return f"{len({each.recipe for each in moved})} of 100 ({_named([str(each) for each in most])})"


def _named(words: Sequence[str]) -> str:
    if not words:
        return "none"
    more = [f"{len(words) - MOST} more"] if len(words) > MOST else []
    return "; ".join([*(word[:160] for word in words[:MOST]), *more])
