"""Kinds of steps: what each needs, uses and is, one row of `step_kinds.csv` a kind."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from .tables import Row, load

TRAITS = frozenset(
    {"heat", "pot", "cold_bath", "cold", "served", "cures", "ages", "waits", "keeps", "air", "joins"}
)
"""What a kind may be; the head of the table says what each means."""


@dataclass(frozen=True, slots=True)
class StepKind:
    """A row of the table. work: "module.function" below recipe.steps. bath: what its bath is, in words, ""
    where it can be without. needs: fields of which one must be stated. uses: fields that it makes use of
    besides its food. treatment, product_class: "" where there is none. example: a step of it, as JSON.
    """

    name: str
    work: str
    bath: str
    needs: tuple[str, ...]
    uses: frozenset[str]
    traits: frozenset[str]
    treatment: str
    product_class: str
    what: str
    example: str


@cache
def step_kinds() -> dict[str, StepKind]:
    """Every kind by its name, in the order of the table. Raises BrokenTable for a trait that is none."""
    return {kind.name: kind for kind in load("step_kinds", _kind)}


@cache
def kinds_that(trait: str) -> frozenset[str]:
    """Names of the kinds that have a trait."""
    return frozenset(kind.name for kind in step_kinds().values() if trait in kind.traits)


def _kind(row: Row) -> StepKind:
    traits = frozenset(row["is"].split())
    if unknown := traits - TRAITS:
        raise ValueError(f"no kind can be {', '.join(sorted(unknown))}")
    return StepKind(
        name=row["kind"],
        work=row["work"],
        bath=row["bath"],
        needs=tuple(row["needs"].split()),
        uses=frozenset(row["uses"].split()),
        traits=traits,
        treatment=row["treatment"],
        product_class=row["product_class"],
        what=row["what"],
        example=row["example"],
    )
