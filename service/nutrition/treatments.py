"""What heat is done to what kind of food, and whose factors stand in where there are none of its own."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import product

from ..core.tables import rows

ANY = "any"


@cache
def treatments() -> dict[str, tuple[str, ...]]:
    """The treatments whose factors stand in for each heat treatment's own, nearest first, by its id."""
    return {row["treatment"]: tuple(row["instead"].split()) for row in rows("heat_treatments")}


@cache
def kinds() -> dict[str, str]:
    """The kind whose factors stand in for each kind's own, "" where none does but "any"."""
    return {row["kind"]: row["like"] for row in rows("retention_kinds")}


def places_to_look(kind: str | None, treatment: str) -> Iterator[tuple[str, str]]:
    """(kind, treatment) in the order in which factors are looked for: a near treatment before a near kind.

    kind: one of retention_kinds.csv; None or a kind that is not there counts as "any".
    Raises ValueError where there is no such treatment (heat_treatments.csv).
    """
    if treatment not in treatments():
        raise ValueError(f"there is no heat treatment {treatment!r}; it is one of: {', '.join(treatments())}")
    like = [each for each in (kind, kinds().get(kind or "", "")) if each in kinds()]
    return product(dict.fromkeys([*like, ANY]), (treatment, *treatments()[treatment]))
